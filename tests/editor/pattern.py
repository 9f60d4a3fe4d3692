"""A small pattern with a template, styles and a join, for questions about its names."""

PATTERN = """\
# a tab with two ends
pattern tab
    title      "Tab"
    uses       "bands.piece"
    allowance  1 cm

body
    bust_girth, shoulder_slope

style
    depth  6 cm    from 2 cm to 12 cm   "how deep it is"
    shape  pointy  of pointy, blunt     "how it ends"

let
    room  = 2 cm
    width = bust_girth / 8 + room   "from side to side"
    nose  = by shape: pointy 3 cm, blunt 0 cm

template half "Half of the tab."
    input
        drop  length  = 1 cm   "how far the top lies below"

    points
        top   from nape: drop down
        nape  at 0, 0
        low   from top: depth down
        side  from low: width across
        high  from top: width across
        end   from side: nose down

    outline
        upper   top to high   straight
        flank   high to end   straight
        lower   end to low    curve leaving square to flank
        centre  low to top    straight, on fold

piece front is half
    drop = room
    cut 1

piece back is half
    cut 1

join
    flanks  front.flank to back.flank

finished
    wide around = 2 * length of front.upper
"""
