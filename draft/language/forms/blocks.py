"""The blocks of a file and the lines of its head."""

from draft.language.forms.form import Form

BLOCKS = (
    Form("pattern", "pattern NAME",
         "The head of a file that can be drafted: its title, chart and allowance.",
         'pattern tunic\n    title      "Tunic"\n    chart      "women.csv"\n    allowance  1/2 in'),
    Form("body", "body\n    MEASURE [about VALUE], MEASURE",
         "The body measures that the pattern uses, by their names. Where nobody took one, and a chart has no row for "
         "it, `about` says from what others it is estimated.",
         "body\n    bust_girth, waist_girth, back_waist_length\n    front_waist_length about back_waist_length + 3 cm"),
    Form("body, a measure of its own", 'body\n    NAME from LOW to HIGH[, about VALUE] "HOW IT IS TAKEN"',
         "A body measure that only this pattern knows: between what figures it can lie, and how it is taken. Where it "
         "is not given it is estimated, if the pattern says from what other measures; you are told so.",
         'body\n    waist_girth\n'
         '    belly_girth  from 60 cm to 180 cm, about waist_girth + 9 cm   "around the fullest of the belly, level"'),
    Form("fabric", 'fabric\n    PROPERTY AMOUNT [from LOW to HIGH] "SENTENCE"',
         "The properties of cloth that the pattern leans on, what they usually are, and between which limits it "
         "suits.",
         "fabric\n"
         '    stretch_across  40 %   from 25 % to 120 %   "how far the cloth stretches round the body"'),
    Form("fabric, one of several",
         'fabric NAME "SENTENCE"\n    PROPERTY AMOUNT [from LOW to HIGH] "SENTENCE"\n    allowance LENGTH',
         "A cloth by its name, where a garment is cut of several; pieces say which, as in `cut 2 of shell`. What is "
         "known of it is called `shell.stretch_across`; `width` is how wide it usually lies. The first is the one that "
         "`--fabric` is about. An `allowance` is that of pieces cut of it: on edges that say nothing, or all round "
         "where the cloth is not the first of its piece.",
         'fabric shell "a light cotton"\n    width  140 cm\n\nfabric interfacing "woven, ironed on"\n'
         "    width      90 cm\n    allowance  0 cm"),
    Form("style", 'style\n    NAME AMOUNT from LOW to HIGH "SENTENCE"\n    NAME CHOICE of CHOICE, CHOICE "SENTENCE"',
         "What whoever uses the pattern may choose: an amount within limits, or one of several names.",
         'style\n    bust_ease  6 cm   from 0 cm to 24 cm   "room round the bust"\n'
         '    neckline   crew   of crew, scoop       "how the neck is cut"'),
    Form("let", 'let\n    NAME = VALUE "SENTENCE"',
         "Names for values. Their order does not matter: each may lean on any other, but not in a ring.",
         "let\n    ease         = 6 cm\n"
         '    bust_quarter = (92 cm + ease) / 4   "half of the front"'),
    Form("solve", 'solve\n    NAME from LOW to HIGH[, nearest VALUE] "SENTENCE"\n    so that RELATION "SENTENCE"',
         "What cannot be written down directly: an unknown, its range, and what must hold. It is found for each "
         "body, as near to where it is wanted as the relations allow; with several unknowns, the first gives way "
         "first. Where something is to be equal, several give way together: each by as small a share of its range as "
         "can be, and one that hardly matters hardly at all.",
         'solve\n    added  from 0 cm to 12 cm, nearest 0 cm   "length added to the sleeve"\n'
         '    so that 20 cm + added at least 24 cm      "the cuff clears the elbow"'),
    Form("template", 'template NAME [from TEMPLATE] "SENTENCE"',
         "A piece with inputs, from which pieces are made. One that is made from another has its lines, and its own in "
         "the place of those of their names.",
         'template panel "A plain rectangle."\n    input\n'
         '        width   length            "from side to side"\n'
         '        height  length  = 20 cm   "from hem to top"\n\n    points\n'
         "        corner  at 0, 0"),
    Form("block", 'block NAME [is TEMPLATE|from DRAFT[, between EDGE and EDGE]] "SENTENCE"',
         "A draft that is not cut: pieces are traced from it, and other blocks. It holds what a piece holds.",
         'block bodice "Half of the front, from its centre."\n    points\n        waist  at 0, 0'),
    Form("piece", "piece NAME [is TEMPLATE|from DRAFT[, between EDGE and EDGE]]",
         "A piece to be cut: of its own, or from a template, whose inputs it then sets; or traced from a block or "
         "piece, whole or the part between some of its lines and edges. Lines that it has besides are added to "
         "those, or take the place of those of their names.",
         "piece pocket is panel\n    width = 14 cm\n    cut 2"),
    Form("is, on a line", "is TEMPLATE",
         "In a piece: the template that it is made from, where that leans on a style.",
         "when neckline is vee\n    is pointed_band\notherwise\n    is folded_band", inside="piece"),
    Form("without", "without NAME[, NAME]",
         "Lines that are taken out of what a piece, a template or a pattern is made from: in a section, or of any of "
         "them. A check has no name: it goes with the piece that it measures.",
         "piece back is half_top\n    outline\n        without overarm, cuff"),
    Form("join", 'join\n    NAME EDGE [reversed] [then EDGE] to EDGE[, OPTION] "SENTENCE"',
         "Which edges are sewn to which. From that both sides are walked, notched alike, and put into the order of"
         " sewing. A side may be several edges one after another, and an edge may be taken from its end to its "
         "start.",
         "join\n    side  front.side to back.side, notch at 50 %\n"
         "    neck  band.long to back.neckline then front.neckline reversed, stretched 85 %, quarters"),
    Form("along, of a join", 'NAME along DRAFT.LINE[, OPTION] "SENTENCE"',
         "Sews together again what was cut along a line of a draft: the pieces on either side of it are found, with "
         "the order and the way in which their edges run.",
         "princess  along bodice.princess, notch at 30 %", inside="join"),
    Form("finished",
         "finished\n"
         '    NAME [around] = VALUE [over VALUE] [passing VALUE then VALUE] [going DIRECTION] "SENTENCE"',
         "Measurements of the finished garment, read off its lines for every size; `around` for one that goes "
         "round.",
         "finished\n"
         '    bust around = 2 * length of front.bust_line over bust_girth   "at the armpit"\n'
         '    back_length = length of back.centre                           "down the centre back"'),
    Form("check", 'check\n    VALUE at least VALUE [only for STYLE CHOICE] "SENTENCE" [else "FIX"]',
         "What the designer promises of every size: a relation, what it means, and what to do where it does not "
         "hold.",
         "check\n"
         '    length of front.hem at least 40 cm   "there is room to walk" else "choose a longer slit"'),
)  # fmt: skip

NOTIONS = (
    Form("notions", 'notions\n    NAME [LENGTH|NUMBER|for JOIN, EDGE, MARK] "SENTENCE"',
         "What is bought besides the cloth. How much is said, or is read off the draft: `for` a seam it is as long as "
         "that, or as long a zip as its opening takes; for an edge as long as that is drawn up; for marks as many as "
         "they are. A zip for an opening and elastic for a casing are listed of themselves: a line for them adds "
         "words.",
         'notions\n    thread   1                 "in the colour of the cloth"\n'
         '    buttons  for front.holes   "18 mm"'),
    Form("for, of a notion", "NAME for JOIN|EDGE|MARK[, JOIN|EDGE|MARK]",
         "What it is used for; every size needs as much as its own seams, edges and marks ask for.",
         'tape  for shoulder   "clear elastic, 6 mm wide"', inside="notions"),
)  # fmt: skip

BOOKLET = (
    Form("booklet", "booklet",
         "What the designer adds to the booklet that is printed with the pattern.",
         'booklet\n    text     "A top for warm days."\n    licence  "CC BY 4.0"\n'
         '    step neck "Try the band on before it is sewn."'),
    Form("about", 'about TOPIC "TEXT"',
         "A paragraph about `garment`, `skill`, `cloth`, `fitting`, `care` or `testing`, printed where the booklet "
         "speaks of that.",
         'about cloth "A jersey that drapes; a stiff knit stands away."', inside="booklet"),
    Form("text", 'text "TEXT"',
         "A paragraph about the garment, on the booklet's cover.",
         'text "A top for warm days."', inside="booklet"),
    Form("picture", 'picture "FILE"',
         "A drawing beside the pattern, as SVG, on the cover.",
         'picture "top.svg"', inside="booklet"),
    Form("licence", 'licence "TEXT"',
         "What others may do with the pattern.",
         'licence "CC BY 4.0"', inside="booklet"),
    Form("link", 'link "ADDRESS"',
         "Where there is more, printed with a code that a telephone reads.",
         'link "https://example.org/marlpit"', inside="booklet"),
    Form("step", 'step JOIN "TEXT" [picture "FILE"] [link "ADDRESS"]',
         "Words, a drawing or a link for a step that is there of itself: that sews a join, hems an edge such as "
         "`front.hem`, sews the darts of an edge, or makes a row of buttonholes.",
         'step neck "Try the band on before it is sewn." picture "neck.svg"', inside="booklet"),
    Form("step, of her own", 'step NAME after|before|instead of STEP "TEXT" [picture "FILE"] [link "ADDRESS"]',
         "A step of the designer's own, before, after or instead of another. Where the name is that of a step which is "
         "there of itself, that one is moved there, and its words may be left out.",
         'step rolled_hem instead of front.hem "Roll the hem, and sew it by hand."', inside="booklet"),
)  # fmt: skip

HEAD = (
    Form("pattern, from another", 'pattern NAME from "FILE"',
         "A pattern that varies another: all lines of that file, and its own. A line whose name is there takes its "
         "place, a piece has its lines there and those that are added here, and `without NAME` takes out what is not "
         "wanted: at the margin, or in a section.",
         'pattern hooded from "marlpit.piece"\n    title "Hooded Marlpit"'),
    Form("title", 'title "TEXT"',
         "What the pattern, or a piece, is called in print.",
         'title "Marlpit top"', inside="pattern"),
    Form("maker", 'maker "TEXT"',
         "Who made the pattern, as it is printed.",
         'maker "Saltern Lane Studio"', inside="pattern"),
    Form("chart", 'chart [NAME] "FILE" ["TEXT"]',
         "The size chart beside the pattern. A pattern may have several: each further one has a name, by which "
         "`--chart` asks for it, and `size` looks for the best size in all of them.",
         'chart petite "women.csv" "for a stature below 160 cm"', inside="pattern"),
    Form("version", 'version "TEXT"',
         "Which version of the pattern this is, as it is printed.",
         'version "1.2"', inside="pattern"),
    Form("changed", 'changed "VERSION" on "DAY" "TEXT"',
         "What a version changed, for who has an older one: a line for each version, with the day it was published, as "
         "year-month-day. `release` prints them beside what it finds itself, and asks for the note of the version.",
         'changed "1.2" on "2026-05-04" "The neckband is 1 cm shorter."', inside="pattern"),
    Form("edition", "edition NUMBER",
         "The edition of the piece language that the file was written for. A plainseam that knows only earlier ones "
         "says so.",
         "edition 2", inside="pattern"),
    Form("wearer", "wearer PEOPLE",
         "Whom the pattern is drafted for, `women`, `men` or `children`: what a person has not measured is estimated "
         "as it is in women, which is taken where nothing is said, or in men. For children everything is measured.",
         "wearer men", inside="pattern"),
    Form("uses", 'uses "FILE" [for NAME, NAME]',
         "A file of templates beside the pattern. With `for`, what is named of any piece file: values, styles, "
         "templates, blocks, and pieces with the joins between them. What those lean on comes along and is not seen; a "
         "line of your own takes the place of one that is named.",
         'uses "bands.piece" for folded_band', inside="pattern"),
    Form("allowance", "allowance LENGTH",
         "The seam allowance: of the whole pattern under `pattern`, of one edge after its leg.",
         "allowance 1/2 in", inside="pattern"),
)  # fmt: skip
