"""What stands in a piece or template, and how an edge runs."""

from draft.language.forms.form import Form

PIECES = (
    Form("input", 'input\n    NAME length|angle|number|direction [= VALUE] "SENTENCE"',
         "What a template is given: the kind, what it is where a piece does not say, and a sentence.",
         'input\n    width  length            "from side to side"\n'
         '    slant  angle  = 12 deg   "of the short ends"', inside="template"),
    Form("points", "points\n    NAME POINT",
         "The named points of a piece: each says where it lies.",
         "points\n    nape  at 0, 0\n    neck  from nape: 7 cm across, 2 cm up", inside="piece"),
    Form("by, of a point", "NAME by STYLE\n    CHOICE POINT",
         "A point that lies in another place for each choice of a style.",
         "points\n    tip  by shape\n        round   at 0, 0\n        square  at 2 cm, 0", inside="piece"),
    Form("outline", "outline\n    EDGE POINT to POINT LEG[, OPTION]",
         "The edges of a piece, which close round it. An edge is smooth; corners are where two edges meet. Its "
         "legs stand behind it, or each on a line of its own below.",
         "outline\n    hem   side_low to centre_low   straight, turned up\n"
         "    neck  centre to shoulder\n        straight to turn\n"
         "        curve arriving square to overarm", inside="piece"),
    Form("darts", "darts\n    NAME on EDGE: LENGTH wide at POINT|LENGTH|SHARE from POINT, to POINT[, LENGTH short]"
         "[, pressed towards EDGE|POINT][, trued [over LENGTH]]",
         "A dart: how wide it is on its edge, where its middle lies there, and the point that it runs to, or is sewn "
         "to so much `short` of. `trued` draws the edge as one does with the dart folded shut the way that it is "
         "pressed (towards the edge's start where nothing is said): a smooth line over 4 cm, or so much, to either "
         "side, and a peak between the legs. An edge of one straight leg stays straight once its darts are shut, "
         "unless it ends at a fold or `over` is said.",
         "darts\n    waist_dart  on waist: 3 cm wide at dart_middle, to dart_point, pressed towards centre, trued\n"
         "    bust_dart   on side: 3 cm wide at 6 cm from armpit, to bust_point, 2 cm short, trued", inside="piece"),
    Form("pleats", "pleats\n    NAME on EDGE: LENGTH wide at POINT|LENGTH|SHARE from POINT, folded LENGTH",
         "A pleat: how much cloth it takes up on its edge, where its middle lies, and how long it is folded.",
         "pleats\n    pleat  on waist: 4 cm wide at 3 cm from waist_centre, folded 12 cm", inside="piece"),
    Form("notches", "notches\n    [double] on EDGE: LENGTH|SHARE from POINT",
         "Notches that belong to no join. Two strokes tell back from front.",
         "notches\n    on hem: 4 cm from side_low\n    double on side: 50 % from armpit", inside="piece"),
    Form("marks", 'marks\n    NAME drill at POINT "SENTENCE"\n    NAME line POINT to POINT "SENTENCE"',
         "Marks inside a piece: a drill mark at a point, or a line through points.",
         'marks\n    button  drill at button_place             "button"\n'
         '    pocket  line pocket_start to pocket_end   "upper edge of the pocket"', inside="piece"),
    Form("corners", "corners\n    POINT carried|cut|stepped|peaked [only for STYLE CHOICE]",
         "How the cutting line goes round a corner: carried on until both sides meet (as it is without such a "
         "line), cut off square to the two edges, or stepped from one allowance to the other. At a fold, where an "
         "outline is square unless it is said to be peaked: a V neck, say.",
         "corners\n    hem_side    cut\n    slit_top    stepped\n    hem_centre  carried", inside="piece"),
    Form("cut", "cut NUMBER [as a pair|right side up]",
         "How many of a piece are cut, and whether as mirrored pairs, or all with the right side of the cloth up.",
         "cut 2 as a pair", inside="piece"),
    Form("grain", "grain DIRECTION",
         "Which way the lengthwise grain runs; up where a piece does not say.",
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
    Form("curve", "curve [leaving WAY] [through POINT then POINT] [to POINT [heading WAY]] [arriving WAY]",
         "A fair curve, through the points named, in the directions named at its ends. Beside a straight leg it "
         "takes up that leg's direction.",
         "side  armpit to hem_side   curve leaving down through waist_side then hip_side arriving down",
         inside="outline"),
    Form("arc", "arc round POINT [to POINT]",
         "Part of a circle about a point, from where the leg before it ends.",
         "hem  hem_side to hem_centre   arc round waist_point", inside="outline"),
    Form("following", "following EDGE [to POINT]",
         "A leg that lies on another edge: that of a facing on the neckline, say.",
         "neck  centre to shoulder   following front.neckline", inside="outline"),
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
)  # fmt: skip
