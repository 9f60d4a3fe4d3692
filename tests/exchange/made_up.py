"""A garment with all that other machines are told of: a fold, curves, a hem, darts, pleats, notches and marks."""

from __future__ import annotations

from functools import cache

from draft.drafting.drafting import draft_plan
from draft.garment.garment import Garment
from tests.written import people, planned

TEXT = """
pattern smock
    title      "Smock, long"
    maker      "Saltern Lane"
    allowance  1 cm

body
    bust_girth

piece front
    points
        a      at 0, 0
        b      at bust_girth / 4, 2 cm
        c      at bust_girth / 4 - 2 cm, 40 cm
        d      at 12 cm, 46 cm
        e      at 0, 38 cm
        pocket_1 at 6 cm, 20 cm
        pocket_2 at 14 cm, 20 cm
        pocket_3 at 14 cm, 12 cm
        button at 4 cm, 30 cm
        middle on side: 30 % from c
        tip    at 12 cm, 30 cm
        tuck_at on hem: 8 cm from a
    outline
        hem     a to b
            curve leaving across
            allowance 3 cm
            turned up
        side    b to c curve leaving (80 deg above across)
        slope   c to d straight
        neck    d to e curve leaving down arriving inward
        centre  e to a straight, on fold
    darts
        dart  on side: 2 cm wide at middle, to tip
    pleats
        tuck  on hem: 1 cm wide at tuck_at, folded 5 cm
    notches
        on slope: 2 cm from c
    marks
        pocket  line pocket_1 to pocket_2 to pocket_3 "pocket"
        hole    drill at button "button"
    cut 1

piece back
    points
        a      at 0, 0
        b      at bust_girth / 4, 2 cm
        c      at bust_girth / 4 - 2 cm, 40 cm
        d      at 12 cm, 46 cm
        e      at 0, 44 cm
    outline
        hem     a to b
            curve leaving across
            allowance 3 cm
            turned up
        side    b to c curve leaving (80 deg above across)
        slope   c to d straight
        neck    d to e curve leaving down arriving inward
        centre  e to a straight
    cut 2 as a pair

join
    slope  front.slope to back.slope, double notch at 60 %
"""


@cache
def smock() -> Garment:
    """Two bodies wide apart."""
    return draft_plan(planned(TEXT), people(bust_girth=[80, 120])).garment
