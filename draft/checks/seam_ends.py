"""Where a seam ends, the outline runs on smoothly from one piece to the other: no peak and no notch at the hem."""

from __future__ import annotations

import numpy as np

from draft.base.naming import listed
from draft.base.notes import Note, error
from draft.base.plainly import AGAIN, Parts, degrees, of_sizes
from draft.base.worst import worst_of
from draft.checks.outlines import crosses_itself
from draft.garment.garment import Garment, Join
from draft.seams.following import reversed_side, side_words
from draft.seams.opposite import is_turned_over, runs_opposite
from draft.seams.walk import SeamEnd, kinks, seam_ends

TOLERANCE = 1.0  # degrees
BEYOND = 150.0  # degrees: no drawing has such a peak or hollow; one of the two corners is turned inside out
TRUED = "trued over 4 cm"  # about the span that a French curve bridges by hand (common practice)


def check(garment: Garment) -> list[Note]:
    """A note for each end of a join where the two outlines meet at a corner.

    A join whose sides run opposite ways has another fault, and another note; so has a piece that crosses itself. A
    facing turns back on its piece, so that its ends mirror those of the piece.
    """
    kinked = [
        seam_end
        for seam_end in seam_ends(garment)
        if np.any(np.abs(seam_end.kink) > TOLERANCE) and not seam_end.join.faced
    ]
    pieces = frozenset[str]().union(*(seam_end.join.pieces for seam_end in kinked))
    tangled = {name for name in pieces if crosses_itself(garment.piece(name))}
    return [
        _note(garment, seam_end)
        for seam_end in kinked
        if not runs_opposite(garment, seam_end.join) and not seam_end.join.pieces & tangled
    ]


def _note(garment: Garment, seam_end: SeamEnd) -> Note:
    off = np.abs(seam_end.kink)
    worst = worst_of(off)
    join = seam_end.join
    one, other = join.first[0].piece, join.second[0].piece
    names = f"`{one}.{seam_end.neighbours[0]}` and `{other}.{seam_end.neighbours[1]}`"
    end = "start" if seam_end.at_start else "end"
    fact = f"{names} meet at a corner at the {end} of `{join.name}`, for {listed(garment.sizes, off > TOLERANCE)}"
    shape = "peak" if seam_end.kink[worst] < 0 else "hollow"
    figures = f"at worst they make a {shape} of {off[worst]:.1f} deg ({garment.sizes[worst]})"
    if off[worst] > BEYOND:
        figures = f"at worst a line arrives from beyond the seam ({garment.sizes[worst]})"
    fix = f"let each arrive square to the seam, as in `curve arriving square to {join.first[0].drawn}`"
    hints = [fix, f"or write `{TRUED}` behind the join to have them blended there"]
    far = np.where(off > TOLERANCE, off, 0.0)
    parts: Parts = {"one": one, "other": other, "seam": join.name, "angle": degrees(off[worst])}
    plainly = of_sizes("edges_meet_at_corner", garment.sizes, off > TOLERANCE, AGAIN, **parts)
    return error(fact, join.span, figures, *_other_way_round(garment, join), *hints, off=far, plainly=plainly)


def _other_way_round(garment: Garment, join: Join) -> list[str]:
    """A hint for a seam of two edges whose outlines run on much better once one of them is turned."""
    if len(join.first) != 1 or len(join.second) != 1:
        return []
    turned = reversed_side(join.second)
    if is_turned_over(garment, join.first[0], turned[0]):
        return []
    now, then = (
        max(float(np.abs(kink).max()) for kink in kinks(garment, join.first[0], side[0]))
        for side in (join.second, turned)
    )
    return [f"is it sewn the other way round? Then write `{side_words(turned)}`"] if 3 * then < now else []
