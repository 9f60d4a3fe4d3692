"""What is said of the whole garment: joins, relations, measurements; and forms of values."""

from draft.language.forms.form import Form

JOINS = (
    Form("onto", "NAME PIECE onto PIECE.LINE",
         "A piece is laid onto a line that is marked on another, and stitched on round its edges, before other seams.",
         "pocket_on  pocket onto front.pocket_line", inside="join"),
    Form("stretched", "stretched SHARE",
         "The first side is shorter, and stretched to the second: a band to its opening.",
         "neck  band.long to front.neckline, stretched 85 %", inside="join"),
    Form("eased", "eased SHARE",
         "The first side is a little longer, and eased into the second: a cap into its armhole.",
         "cap  sleeve.cap to front.armhole then back.armhole, eased 103 %", inside="join"),
    Form("notch at", "notch at LENGTH|SHARE",
         "A notch on both sides, so far or such a share along the first.",
         "side  front.side to back.side, notch at 25 %, notch at 12 cm", inside="join"),
    Form("double notch at", "double notch at LENGTH|SHARE",
         "Two strokes on both sides, to tell back from front.",
         "cap  sleeve.cap to front.armhole then back.armhole, double notch at 75 %", inside="join"),
    Form("quarters", "quarters",
         "Notches at the quarters of both sides.",
         "neck  band.long to front.neckline, stretched 85 %, quarters", inside="join"),
    Form("trued", "trued [over LENGTH]",
         "Where the two outlines meet at the ends of the seam they are blended into one line, that far on either "
         "side.",
         "side  front.side to back.side, trued over 4 cm", inside="join"),
)  # fmt: skip

RELATIONS = (
    Form("equals", "VALUE equals VALUE",
         "A relation for `solve`: both are the same.",
         "so that length of back.hem equals 40 cm", inside="solve"),
    Form("at least", "VALUE at least VALUE",
         "A relation: the first is not less than the second.",
         "so that length of back.hem at least 40 cm", inside="solve"),
    Form("at most", "VALUE at most VALUE",
         "A relation: the first is not more than the second.",
         "so that length of back.hem at most 60 cm", inside="solve"),
    Form("around", "NAME around = VALUE",
         "Of a finished measurement: it goes round the body.",
         "hem around = 2 * length of front.hem", inside="finished"),
    Form("worn over", "over LENGTH",
         "Of a finished measurement: what of the body it is worn over. The difference is its ease.",
         "bust around = 92 cm over bust_girth", inside="finished"),
    Form("passing", "passing LENGTH [then LENGTH]",
         "Of a finished measurement: what it must pass, stretched, on the way to where it is worn.",
         "neckline around = 50 cm over neck_base_girth passing head_girth", inside="finished"),
    Form("going", "going DIRECTION",
         "Of a finished measurement: the way on the cloth in which it is stretched.",
         "cuff around = 20 cm over wrist_girth passing hand_girth going down", inside="finished"),
)  # fmt: skip

VALUES = (
    Form("amount", "1 1/4 in, 22 cm, 28 deg, 85 %, 2",
         "An amount with its unit; a number stands alone.",
         "width = 1 1/4 in", inside="let"),
    Form("name", "NAME, PIECE.NAME",
         "A value, point or edge by its name; that of another piece after its piece.",
         "width = length of front.hem", inside="let"),
    Form("parentheses", "( VALUE )",
         "What is reckoned first, or where a word such as `larger of` ends.",
         "width = 2 * (ease + 3 cm)", inside="let"),
    Form("by", "by STYLE: CHOICE VALUE, CHOICE or CHOICE VALUE, otherwise VALUE",
         "Another value for each choice of a style; `or` for choices that are alike, `otherwise` for all that are not "
         "named.",
         "neck_drop = by neckline: crew 2 cm, scoop or boat 5 cm, otherwise 12 cm", inside="let"),
    Form("by, at", "by NAME: at LEVEL VALUE, at LEVEL VALUE",
         "A value read between levels, along straight lines; beyond the first and the last it stays as it is "
         "there.",
         "girth = by sleeve_length: at 0 30 cm, at 60 cm 16 cm", inside="let"),
    Form("by size", 'by size: "SIZE" VALUE, otherwise VALUE',
         "Another value for each size of the chart.",
         'strap = by size: "XS" 1 cm, "S" 1 cm, otherwise 1.5 cm', inside="let"),
    Form("sewn length of", "sewn length of EDGE",
         "The length of an edge once it is sewn: its darts and pleats closed, its gathers drawn up.",
         "band_length = sewn length of skirt.waist", inside="let"),
)  # fmt: skip
