"""What stands in a piece or template, and how an edge runs."""

from draft.language.forms.form import Form

MOVES = (
    Form("moves", "moves\n    MOVE",
         "What is done to the paper that was traced, from top to bottom, before anything else is drawn on it. Of "
         "two parts of the paper the one with more whole edges rests, or the one that is held.",
         "moves\n    close bust_dart, open shoulder_dart on shoulder at shoulder_mark\n"
         "    extend centre by 2 cm as front_edge", inside="piece"),
    Form("hold", "hold EDGE",
         "Says which part of the paper rests while the moves below are made: the one with this edge.",
         "hold centre", inside="moves"),
    Form("close", "close DART, open NAME on EDGE at PLACE[, OPTION]\n"
         "close [SHARE of] DART, into DART\n"
         "close DART, into ease|gathers|flare on EDGE [at PLACE]",
         "Pivots a dart about its own point, or a share of it: it opens again on another edge, with the options of a "
         "dart, goes into another dart to the same point, or is let out on an edge. A place is a point, or so far "
         "from an end.",
         "close 40 % of bust_dart, open neck_dart on neckline at 5 cm from neck\n"
         "close bust_dart, into waist_dart\nclose shoulder_dart, into ease on armhole", inside="moves"),
    Form("slash", "slash along LINE, spread LENGTH [at EDGE], LENGTH at EDGE[, into ease|gathers|flare]\n"
         "slash EDGE to EDGE NUMBER times, spread LENGTH at EDGE[, into pleat NAME[, folded LENGTH]]",
         "Cuts the paper along a line, or so many times evenly from one edge to another, and spreads it by so much at "
         "each cut: at one edge, hinged at the other; at both; or, with no edge named, evenly. Less than nothing folds "
         "away. The edges are drawn smoothly over the gaps, unless a pleat takes them up.",
         "slash along hip_line, spread 3 cm\nslash along style_line, spread 3 cm at hem, 1 cm at waist\n"
         "slash hem to waist 3 times, spread 2 cm at hem, into gathers\n"
         "slash hem to waist 2 times, spread 2 cm at hem, into pleat fold, folded 5 cm", inside="moves"),
    Form("lay", "lay DRAFT [mirrored] as WORD, EDGE on EDGE\nlay DRAFT [mirrored] as WORD, P on Q, R towards S",
         "Lays another draft onto this one, an edge on an edge or a point on a point; mirrored where its paper is "
         "turned over. Everything on it is then called by the word: `front_neck`. Edges that met stay as lines.",
         "lay front_yoke mirrored as front, shoulder on shoulder\n"
         "lay front_top as front, shoulder_tip on cap_top, armhole_turn towards front_turn", inside="moves"),
    Form("extend", "extend EDGE by LENGTH as NAME",
         "Moves an edge outwards, and carries its neighbours on to it. The new edge has the new name, and the old one "
         "stays as a line.",
         "extend centre by 2 cm as front_edge", inside="moves"),
)  # fmt: skip

PIECES = (
    Form("input", 'input\n    NAME length|angle|number|direction|point|edge [= VALUE] "SENTENCE"\n'
         '    NAME choice of OPTION, OPTION [= OPTION] "SENTENCE"',
         "What a template is given: the kind, what it is where a piece does not say, and a sentence. A point or an "
         "edge is one of another piece, `seam = front.armhole`; a choice is set to an option, or to a style with it.",
         'input\n    width  length                                "from side to side"\n'
         '    slant  angle                      = 12 deg   "of the short ends"\n'
         '    seam   edge                                 "the edge that it faces"\n'
         '    ends   choice of plain, slanted   = plain   "how it ends"', inside="template"),
    Form("points", "points\n    NAME POINT",
         "The named points of a piece: each says where it lies.",
         "points\n    nape  at 0, 0\n    neck  from nape: 7 cm across, 2 cm up", inside="piece"),
    Form("by, of a point", "NAME by STYLE\n    CHOICE POINT",
         "A point that lies in another place for each choice of a style.",
         "points\n    tip  by shape\n        round   at 0, 0\n        square  at 2 cm, 0", inside="piece"),
    Form("lines", "lines\n    NAME POINT to POINT LEG",
         "Lines that are no outline: a waist line, a style line, a roll line. Edges follow them, points lie on them, "
         "and pieces are cut along them. A dart may be a place on a line: what is cut there takes a leg of it on "
         "either side.",
         "lines\n    waist_line  waist_side to waist_centre    straight\n"
         "    princess    waist_dart to shoulder_mark   curve through bust_point", inside="piece"),
    Form("outline", "outline\n    EDGE POINT to POINT LEG[, LEG][, OPTION]",
         "The edges of a piece, which close round it. An edge is smooth; corners are where two edges meet. Its "
         "legs stand behind it, or on lines below.",
         "outline\n    hem   side_low to centre_low   straight, turned up\n"
         "    neck  centre to shoulder\n        straight to turn\n"
         "        curve arriving square to overarm", inside="piece"),
    Form("darts", "darts\n    NAME on EDGE: LENGTH wide at POINT|ROW|LENGTH|SHARE from POINT, to POINT|ROW"
         "[, LENGTH short][, bowed LENGTH together|apart|towards EDGE|POINT][, pressed towards EDGE|POINT]"
         "[, trued [over LENGTH]]",
         "A dart: how wide it is on its edge, where its middle lies there, and the point that it runs to, or is sewn "
         "to so much `short` of. `trued` draws the edge as one does with the dart folded shut the way that it is "
         "pressed (towards the edge's start where nothing is said): a smooth line over 4 cm, or so much, to either "
         "side, and a peak between the legs. An edge of one straight leg stays straight once its darts are shut, "
         "unless `over` is said; where it ends at a fold it runs square to that, in one curve. At a row "
         "with a count there is one at each of its points. Bowed, its legs are curves, so far off a straight leg in "
         "their middle: `together` where it is to follow a round body, `apart` for a hollow one, or both `towards` one "
         "side, as those of a dart that was cut along a curve.",
         "darts\n    waist_dart  on waist: 3 cm wide at dart_middle, to dart_point, pressed towards centre, trued\n"
         "    bust_dart   on side: 3 cm wide at 6 cm from armpit, to bust_point, 2 cm short, trued\n"
         "    low_dart    on side: 3 cm wide at 4 cm from hip, to bust_point, bowed 8 mm towards hem", inside="piece"),
    Form("darts, inside a piece",
         "darts\n    NAME on LINE: LENGTH wide at POINT|LENGTH|SHARE from POINT, to POINT and POINT"
         "[, bowed LENGTH together|apart|towards EDGE|POINT][, pressed towards EDGE|POINT]",
         "A dart on a line under `lines`, sewn from one point to the other, with the line between them: it is widest "
         "on the line. `sewn length of` the line is without it.",
         "darts\n    waist_dart  on waist: 2 cm wide at 8 cm from waist_centre, to bust_point and low_point",
         inside="piece"),
    Form("pleats", "pleats\n    NAME on EDGE: LENGTH wide at POINT|ROW|LENGTH|SHARE from POINT, folded LENGTH"
         "[, towards EDGE|POINT]",
         "A pleat: how much cloth it takes up on its edge, where its middle lies, and how long it is folded. An arrow "
         "shows which way it is laid, if it is said. At a row with a count there is one at each of its points.",
         "pleats\n    pleat  on waist: 4 cm wide at 3 cm from waist_centre, folded 12 cm, towards centre",
         inside="piece"),
    Form("notches", 'notches\n    [double] on EDGE: LENGTH|SHARE from POINT [marked "WORDS"]',
         "Notches that belong to no join. Two strokes tell back from front. What one stands for may be marked beside "
         "it.",
         'notches\n    on hem: 4 cm from side_low marked "slit"\n    double on side: 50 % from armpit', inside="piece"),
    Form("marks", 'marks\n    NAME drill at POINT|ROW "SENTENCE"\n    NAME line POINT to POINT "SENTENCE"',
         "Marks inside a piece: a drill mark at a point or at each of a row, or a line through points.",
         'marks\n    button  drill at button_place             "button"\n'
         '    pocket  line pocket_start to pocket_end   "upper edge of the pocket"', inside="piece"),
    Form("lines across",
         'marks\n    NAME fold POINT to POINT "SENTENCE"\n    NAME level at POINT "SENTENCE"\n'
         '    NAME lengthen at POINT',
         "A line that is folded on. A level of the body, marked by a crossed ring: one with the name of a measurement "
         "under `finished` says beside it what the garment measures there. Where a piece may be lengthened or "
         "shortened, two lines square to its grain, from side to side: left out for a body that is measured.",
         'marks\n    crease  fold crease_top to crease_low\n    hip     level at hip_mark\n'
         '    longer  lengthen at waist_mark', inside="piece"),
    Form("buttons, buttonholes and snaps",
         'marks\n    NAME button|snap at POINT|ROW "SENTENCE"\n'
         '    NAME buttonhole at POINT|ROW, LENGTH long [going DIRECTION] "SENTENCE"',
         "Where a garment is fastened: at a point, or at each point of a row. A buttonhole begins 3 mm before its "
         "point, where the button pulls, and goes down unless another way is said.",
         'marks\n    buttons      button at holes                              "on the left front"\n'
         '    buttonholes  buttonhole at holes, 16 mm long going down   "on the right front"', inside="piece"),
    Form("corners", "corners\n    POINT carried|cut|stepped|peaked [only for STYLE CHOICE]",
         "How the cutting line goes round a corner: carried on until both sides meet (as it is without such a "
         "line), cut off square to the two edges, or stepped from one allowance to the other. At a fold, where an "
         "outline is square unless it is said to be peaked: a V neck, say.",
         "corners\n    hem_side    cut\n    slit_top    stepped\n    hem_centre  carried", inside="piece"),
    Form("cut", "cut NUMBER [of FABRIC] [as a pair|right side up] [as outside|as inside], NUMBER of FABRIC",
         "How many of a piece are cut, and whether as mirrored pairs, or all with the right side of the cloth up; "
         "where there are several cloths, how many of each. What is cut of several lies on one another. A piece of two "
         "sides, such as a collar, says which is its `outside` and which its `inside`.",
         "cut 2 of shell as outside, 2 of shell as inside, 2 of interfacing as a pair", inside="piece"),
    Form("grain", "grain DIRECTION|bias",
         "Which way the lengthwise grain runs; up where a piece does not say. On the `bias` it lies aslant, by 45 deg.",
         "grain along hem_centre to neck_centre", inside="piece"),
    Form("stretch", "stretch DIRECTION",
         "Which way the cloth must stretch most; across where a piece does not say.",
         "stretch across", inside="piece"),
    Form("only for", "only for STYLE CHOICE [or CHOICE]",
         "A piece, an edge, a join, a measurement or a check that only some choices of a style have.",
         "only for neckline crew or scoop", inside="piece"),
)  # fmt: skip

EDGES = (
    Form("straight", "straight [to POINT]",
         "A straight leg, to a point or to the end of the edge.",
         "hem  hem_side to hem_centre   straight", inside="outline"),
    Form("curve", "curve [evenly] [leaving WAY] [through POINT then POINT] [to POINT [heading WAY]] [arriving WAY]",
         "A fair curve, through the points named, in the directions named at its ends. Beside a straight leg it "
         "takes up that leg's direction.",
         "side  armpit to hem_side   curve leaving down through waist_side then hip_side arriving down",
         inside="outline"),
    Form("evenly", "curve evenly ...",
         "Of a curve: its bend begins and ends without a step, at points inside it and beside a straight leg, as a "
         "cutter draws it. It keeps the directions that the curve would have.",
         "neckline  centre to neck   straight to neck_turn, curve evenly arriving square to shoulder",
         inside="outline"),
    Form("arc", "arc round POINT [to POINT]",
         "Part of a circle about a point, from where the leg before it ends.",
         "hem  hem_side to hem_centre   arc round waist_point", inside="outline"),
    Form("following", "following EDGE [to POINT]",
         "A leg that lies on another edge: that of a facing on the neckline, say.",
         "neck  centre to shoulder   following front.neckline", inside="outline"),
    Form("beside", "beside EDGE [then EDGE] [to POINT]",
         "A leg that runs beside other edges: as far from them as its ends lie, and evenly between.",
         "facing_line  facing_top to facing_low   beside neckline then front_edge", inside="lines"),
    Form("an edge again", "EDGE OPTION, OPTION",
         "Says more of an edge that was traced.",
         "hem  allowance 2 cm, turned up", inside="outline"),
    Form("square to", "square to EDGE",
         "Of a curve at one of its ends: square to the edge that it meets there.",
         "neck  centre to shoulder   curve leaving square to fold arriving square to overarm", inside="outline"),
    Form("turned up", "turned up",
         "Of a hem: its allowance is mirrored about it, so that it lies flat when turned up.",
         "hem  hem_side to hem_centre   straight, allowance 1 in, turned up", inside="outline"),
    Form("on fold", "on fold",
         "Of a straight edge: it lies on a fold of the cloth; the piece is half of what is cut.",
         "centre  hem_centre to neck_centre   straight, on fold", inside="outline"),
    Form("unjoined", "unjoined",
         "Of an edge that no join names: an opening, an edge that stays raw, or one that is caught in another's seam.",
         "slit  slit_top to hem_side   straight, unjoined", inside="outline"),
    Form("measuring", "measuring LENGTH",
         "Of a curved edge: it is made fuller or flatter until it has this length.",
         "cap  front to back   curve through top, measuring 46 cm", inside="outline"),
    Form("gathered", "gathered SHARE",
         "Of an edge: it is drawn up to a share of its length before it is sewn. Of a join: the first side is "
         "gathered to the second, so many times as long.",
         "waist  waist_centre to waist_side   straight, gathered 60 %", inside="outline"),
    Form("elastic", "elastic LENGTH",
         "Of an edge: elastic draws it in, in a casing or sewn on; so long is what lies along this edge while nothing "
         "stretches it. Seams are sewn with it stretched, so they are walked along the cloth; `sewn length of EDGE` is "
         "the elastic's, and a finished girth read off it lies close and passes whatever the flat cloth passes.",
         "waist  waist_centre to waist_side   straight, allowance 3 cm, turned up, elastic 16 cm", inside="outline"),
)  # fmt: skip
