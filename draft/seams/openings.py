"""Where along a join an opening lies: a slit, a zip, a hole to turn the garment through."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Join, Opening
from draft.seams.sharing import both_sides
from draft.seams.sides import Side, sewn_distance

NEAR = 1.0  # mm: nearer to an end of the seam, it opens from there


@dataclass(frozen=True)
class Gap:
    """An opening of a join: where it begins and ends along the first side, mm `(B,)`, and how long that side is."""

    opening: Opening
    begins: Floats
    ends: Floats
    length: Floats

    @property
    def at_start(self) -> bool:
        """Whether it begins where the seam does."""
        return bool(np.all(self.begins < NEAR))

    @property
    def at_end(self) -> bool:
        """Whether it ends where the seam does."""
        return bool(np.all(self.ends > self.length - NEAR))


def gaps(garment: Garment, join: Join) -> tuple[Gap, ...]:
    """The openings of a join, in the order written.

    From an end of the seam one lies along it; from a place within, on towards the end of the first side.
    """
    return tuple(_gap(garment, join, opening) for opening in join.openings)


def _gap(garment: Garment, join: Join, opening: Opening) -> Gap:
    first, second = both_sides(garment, join)
    length = first.length
    if opening.part in join.first:
        at = _along(first, opening)
    else:
        at = _on_first(_along(second, opening) / np.maximum(second.length, 1e-9), first, second) * length
    backwards = at > length - NEAR
    begins = np.where(backwards, length - opening.length, np.where(at < NEAR, 0.0, at))
    return Gap(opening, begins, begins + opening.length, length)


def _along(one: Side, opening: Opening) -> Floats:
    """How far along a side, as it is sewn, the place lies from which a join is open, mm `(B,)`."""
    begun = np.zeros_like(opening.at)
    for side_edge in one.edges:
        if side_edge.part == opening.part:
            sewn = sewn_distance(side_edge.piece, side_edge.edge, opening.at)
            return begun + (side_edge.length - sewn if side_edge.part.reverse else sewn)
        begun = begun + side_edge.length
    return begun


def _on_first(share: Floats, first: Side, second: Side) -> Floats:
    """The share `(B,)` of the first side that comes to lie on a share of the second: of a whole, its first half."""
    if second.copies == 2 * first.copies:
        return share / 2
    if first.copies == 2 * second.copies:
        return np.asarray(1.0 - np.abs(1.0 - 2.0 * share))
    return share
