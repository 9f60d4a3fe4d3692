"""Whether the two sides of a join run opposite ways, so that it would be sewn end for end.

What is known of the ends tells: which of them other joins bring together, and that a fold comes to lie on a fold or on
another middle. Where nothing is known the outlines tell, if they run on across the seam one way and not the other.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.garment.garment import Garment, Join, SidePart
from draft.seams.following import SewnCorners, cloth_on_left, reversed_side
from draft.seams.middles import PieceCorner, SideParts, in_middle, on_fold, side_ends
from draft.seams.sharing import both_sides
from draft.seams.walk import kinks

RUNS_ON = 1.0  # degrees: a corner nearer to straight across the seam is meant to be


def runs_opposite(garment: Garment, join: Join) -> bool:
    """Whether one side is to be turned."""
    first, second = (each.copies for each in both_sides(garment, join))
    known = SewnCorners(garment, without=join)
    run_on = known.follow(join.first) and known.follow(join.second)
    if first != second:
        return run_on and _is_folded_wrongly(garment, join)
    for meetings in (known, SewnCorners(garment, without=join, running_on=True)):
        straight, crossed = _brought_together(garment, join, meetings)
        if straight or crossed:
            return crossed and not straight
    return (run_on and _fold_is_off(garment, join)) or _outlines_run_on_turned(garment, join)


def with_side_turned(garment: Garment, join: Join) -> Join:
    """The join with one side run the other way: the second, or the one that it has more often."""
    first, second = (each.copies for each in both_sides(garment, join))
    if first > second:
        return replace(join, first=reversed_side(join.first))
    return replace(join, second=reversed_side(join.second))


def _fold_is_off(garment: Garment, join: Join) -> bool:
    """Whether a fold comes to lie where nothing goes on as its mirror image, and would not with one side turned."""
    ends, others = side_ends(garment, join.first), side_ends(garment, join.second)
    return not _folds_meet(garment, ends, others) and _folds_meet(garment, ends, others[::-1])


def _is_folded_wrongly(garment: Garment, join: Join) -> bool:
    """Whether a half that is sewn to a whole begins at its fold: there both ends of the whole come to lie."""
    first, second = both_sides(garment, join)
    more, fewer = max(first.copies, second.copies), min(first.copies, second.copies)
    if more != 2 * fewer:
        return False
    half, whole = (join.first, join.second) if first.copies > second.copies else (join.second, join.first)
    if any(on_fold(garment, corner) for corner in side_ends(garment, whole)):
        return False  # a half of its own, to which two layers are sewn as one
    start, end = side_ends(garment, half)
    return on_fold(garment, start) and not in_middle(garment, end)


_Ends = tuple[PieceCorner, PieceCorner]


def _folds_meet(garment: Garment, ends: _Ends, others: _Ends) -> bool:
    pairs = [*zip(ends, others, strict=True), *zip(others, ends, strict=True)]
    return all(in_middle(garment, other) for one, other in pairs if on_fold(garment, one))


def _brought_together(garment: Garment, join: Join, meetings: SewnCorners) -> tuple[bool, bool]:
    """Whether other joins bring the ends together as they stand, and whether crosswise."""
    (start, end), (other_start, other_end) = side_ends(garment, join.first), side_ends(garment, join.second)
    straight = meetings.together(start, other_start) or meetings.together(end, other_end)
    return straight, meetings.together(start, other_end) or meetings.together(end, other_start)


def _outlines_run_on_turned(garment: Garment, join: Join) -> bool:
    """Of a plain seam, whether the outlines run on at both ends once one side is turned, and at neither now."""
    if not (len(join.first) == len(join.second) == 1 and join.fit == "even"):
        return False
    as_it_stands, turned = (_worst_kinks(garment, join, side) for side in (join.second, reversed_side(join.second)))
    runs_on = min(as_it_stands) > RUNS_ON and max(turned) <= RUNS_ON
    return runs_on and not is_turned_over(garment, join.first[0], reversed_side(join.second)[0])


def is_turned_over(garment: Garment, one: SidePart, other: SidePart) -> bool:
    """Whether both edges have their cloth on the same side, though neither piece can be turned over to be sewn.

    A piece sewn to itself cannot, and neither can two that are cut right side up alone.
    """
    pieces = [garment.piece(part.piece) for part in (one, other)]
    fixed = all(piece.cut_as == "right side up" and not piece.on_fold for piece in pieces)
    bound = fixed or (one.piece == other.piece and one.edge != other.edge)
    return bound and cloth_on_left(garment, one) == cloth_on_left(garment, other)


def _worst_kinks(garment: Garment, join: Join, second: SideParts) -> list[float]:
    return [float(np.max(np.abs(kink))) for kink in kinks(garment, join.first[0], second[0])]
