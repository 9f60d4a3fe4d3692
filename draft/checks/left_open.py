"""What is left open of a join lies within it, and leaves something to be sewn."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools
from draft.base.naming import listed
from draft.base.notes import Note, caution, error
from draft.base.plainly import AGAIN, mm, of_sizes
from draft.base.worst import worst_of
from draft.garment.garment import Garment, Join
from draft.seams.openings import Gap, gaps
from draft.seams.sides import side

LEAST = 1.0  # mm: less than this is not there, or is sewn by nobody


def check(garment: Garment) -> list[Note]:
    """A note for each opening that is longer than its seam, or no opening at all."""
    return [
        note
        for join in garment.joins
        if not join.caught
        for gap in gaps(garment, join)
        for note in _gap(garment, join, gap)
    ]


def _gap(garment: Garment, join: Join, gap: Gap) -> list[Note]:
    opening = gap.opening
    none = opening.length < LEAST
    if none.any():
        fact = f"`{join.name}` is left open for no length, for {listed(garment.sizes, none)}"
        plainly = of_sizes("opening_is_nothing", garment.sizes, none, AGAIN, seam=join.name)
        return [error(fact, opening.span, off=none.astype(float), plainly=plainly)]
    beyond: Bools = (gap.begins < -LEAST) | (gap.ends > gap.length + LEAST)
    if beyond.any():
        return [_too_long(garment, join, gap, beyond)]
    if opening.on_side and side(garment, join.first).copies < 2:
        fact = f"`{join.name}` is sewn once, so it has no {opening.on_side}"
        return [caution(fact, opening.span, f"take `on the {opening.on_side}` out")]
    return []


def _too_long(garment: Garment, join: Join, gap: Gap, beyond: Bools) -> Note:
    over = np.maximum(-gap.begins, gap.ends - gap.length)
    worst = worst_of(np.where(beyond, over, -np.inf))
    fact = f"`{join.name}` is left open for more than there is of it, for {listed(garment.sizes, beyond)}"
    figures = f"at worst by {over[worst]:.1f} mm, of a seam of {gap.length[worst]:.1f} mm ({garment.sizes[worst]})"
    fix = "let it be shorter; where all of a seam is open, there is no join: write `unjoined` behind its edges"
    plainly = of_sizes("opening_too_long", garment.sizes, beyond, AGAIN, seam=join.name, off=mm(over[worst]))
    return error(fact, gap.opening.span, figures, fix, off=np.where(beyond, over, 0.0), plainly=plainly)
