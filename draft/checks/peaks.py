"""A band that is sewn round a point, as that of a V neck, has its ends there, cut to the point's angle."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import SMOOTH_IT, of_sizes
from draft.base.worst import worst_of
from draft.garment.garment import Garment, Join
from draft.seams.sharing import both_sides
from draft.seams.sides import Side
from draft.seams.walk import inside_angle, is_peaked

TOLERANCE = 3.0  # degrees: over the width of a band a third of a millimetre
FIX = "begin the seam at the point, with a band whose ends are cut to it, as those of `pointed_band`"


def check(garment: Garment) -> list[Note]:
    """A caution for each band that does not turn where the edge that it is sewn to does."""
    return [note for join in garment.joins for note in _join(garment, join)]


def _join(garment: Garment, join: Join) -> Iterator[Note]:
    """Only a side that is half of what is sewn, to a band in one piece, has a point at its fold."""
    first, second = both_sides(garment, join)
    for band, opening in ((first, second), (second, first)):
        ring = len(band.edges) == 1 and opening.copies == 2 * band.copies
        for at_start in (True, False):
            if ring and _is_peaked(opening, at_start):
                yield from _ends(garment, join, band, opening) if at_start else _middle(garment, join, band, opening)


def _is_peaked(opening: Side, at_start: bool) -> bool:
    side_edge = opening.edges[0 if at_start else -1]
    return side_edge.piece.on_fold and is_peaked(
        side_edge.piece, side_edge.edge.name, at_start != side_edge.part.reverse
    )


def _angle(one: Side, at_start: bool) -> Floats:
    end = one.edges[0 if at_start else -1]
    return inside_angle(end.piece, end.edge.name, at_start != end.part.reverse)[0]


def _ends(garment: Garment, join: Join, band: Side, opening: Side) -> Iterator[Note]:
    wanted = 180.0 - _angle(opening, True)
    ends = np.stack([_angle(band, at_start) for at_start in (True, False)])
    off = np.max(np.abs(ends - wanted), axis=0)
    if np.any(off > TOLERANCE):
        worst = worst_of(off)
        at = int(np.argmax(np.abs(ends[:, worst] - wanted[worst])))
        fact = f"the ends of `{_name(band)}` are not cut to the point of `{_name(opening)}`"
        figures = f"at worst {ends[at, worst]:.1f} deg, wanted {wanted[worst]:.1f} deg ({garment.sizes[worst]})"
        where = listed(garment.sizes, off > TOLERANCE)
        far = np.where(off > TOLERANCE, off, 0.0)
        names = {"piece": band.edges[0].piece.name, "other": opening.edges[0].piece.name}
        plainly = of_sizes("band_misses_point", garment.sizes, off > TOLERANCE, SMOOTH_IT, **names)
        yield caution(f"{fact}, for {where}", join.span, figures, FIX, off=far, plainly=plainly)


def _middle(garment: Garment, join: Join, band: Side, opening: Side) -> Iterator[Note]:
    turned = np.abs(180.0 - 2 * _angle(opening, False))
    if np.any(turned > TOLERANCE):
        worst = worst_of(turned)
        last = opening.edges[-1]
        point = f"the point of `{last.piece.name}.{last.edge.name}`"
        fact = f"`{_name(band)}` runs straight past {point}, for {listed(garment.sizes, turned > TOLERANCE)}"
        figures = f"at worst the edge turns there by {turned[worst]:.1f} deg ({garment.sizes[worst]})"
        names = {"piece": band.edges[0].piece.name, "other": last.piece.name}
        plainly = of_sizes("band_misses_point", garment.sizes, turned > TOLERANCE, SMOOTH_IT, **names)
        yield caution(fact, join.span, figures, FIX, off=np.where(turned > TOLERANCE, turned, 0.0), plainly=plainly)


def _name(one: Side) -> str:
    return f"{one.edges[0].piece.name}.{one.edges[0].edge.name}"
