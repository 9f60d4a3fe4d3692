"""Lines that are there for some options of a style."""

from draft.language.forms.form import Form

CHOICES = (
    Form("when", "when STYLE is [not] CHOICE [or CHOICE] [and STYLE is CHOICE]\n    LINES",
         "Lines that are there for some options of a style only: of any block or section, whole blocks, and one `when` "
         "inside another. What is not there is not drawn, and none of it is looked at.",
         "points\n    when neckline is vee\n        turn  on centre to neck: 60 % from centre\n"
         "    when sleeve is not cap or short\n        elbow  midway shoulder to wrist", inside="piece"),
    Form("otherwise",
         "when STYLE is CHOICE\n    LINES\notherwise when STYLE is CHOICE\n    LINES\notherwise\n    LINES",
         "After a `when`: what is there instead, for all other options, or for some of them.",
         "when sleeve is cap\n    sleeve_end = 5 cm\notherwise when sleeve is short\n    sleeve_end = 20 cm\n"
         "otherwise\n    sleeve_end = 60 cm", inside="let"),
)  # fmt: skip
