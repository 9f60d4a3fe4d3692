"""The notches of a band that bear which part of the way they lie at: its middle and its quarters.

Where a band has three notches in a row, their order alone would tell them apart, and in a nest not even that. So those
at a half and at the quarters say so, counted from whichever end of the seam is nearer: a quarter and three quarters are
met alike (common practice marks the middle of a band otherwise than its quarters).
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Join, JoinNotch
from draft.seams.lying import SAME, Copies

HALF, QUARTER = "1/2", "1/4"
_PARTS = {0.5: HALF, 0.25: QUARTER}
_ROW = 3
"""So many single notches of a join are a row, of which the one in the middle is to be told from the others."""


def bears_part(notch: JoinNotch, join: Join) -> bool:
    """Whether a notch of a join is told by the part of the way at which it lies: a quarter, or the middle of a row."""
    single = [one for one in join.notches if not one.double]
    in_row = not notch.double and not notch.in_mm and len(single) >= _ROW and bool(np.all(notch.at == 0.5))
    return notch.of_whole or in_row


def part_at(copies: Copies, share: Floats) -> str:
    """The part of a whole seam at which all places lie that have a share of a copy `(B,)`; empty if it is none."""
    places = np.array(copies.on_seam(share))
    places = places[np.isfinite(places)]
    nearer = np.minimum(places, 1.0 - places)
    found = {word for part, word in _PARTS.items() if nearer.size and np.all(np.abs(nearer - part) <= SAME)}
    return found.pop() if found else ""
