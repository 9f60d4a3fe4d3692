"""The ties of a wrap, knotted in a bow between the edge of the front that lies on top and the side seam beside it.

No seam names a tie: it is caught in one, at a notch. So strips that nothing else is sewn to are ties where as many are
cut as the two fronts have notches at their edges and sides; a belt, of which there is one, is none.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Notch, Piece
from draft.geometry.cubic import lines_through, norm
from draft.geometry.ruler import Ruler
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.strips import OUTLINE, PAPER
from draft.paper.flat.wrapped import WrapFront

_KNOT = 60.0
"""So much of a tie is in the knot, mm."""
_LOOP, _FAT = 85.0, 26.0
"""How far a loop of the bow reaches, and half of how wide it opens, mm."""
_DROOP = 0.35
"""A loop falls by so much of its reach."""
_LEAST = 40.0
"""An end shorter than this, mm, would slip through: then there are no loops."""
_SLANTS = (-0.32, 0.2)
"""How far the two ends swing aside for each mm that they hang down."""


@dataclass(frozen=True)
class Ties:
    """The length of a tie and its finished width, mm, and where the two that are seen are caught, `(2,)` each."""

    long: float
    wide: float
    at_edge: Floats
    at_side: Floats


def ties_of(garment: Garment, body: int, fronts: list[WrapFront]) -> Ties | None:
    """The ties that close the outer front; `fronts` end with the one that lies on top. None where there are none."""
    lower, upper = fronts
    count = sum(len(_notches(garment, front, faced)) for front in fronts for faced in (True, False))
    strips = [(piece, line) for piece in garment.pieces if (line := _folded_strip(garment, piece, body)) is not None]
    found = [(piece, line) for piece, line in strips if piece.copies() == count]
    edge, side = _caught(garment, upper, body, faced=True), _caught(garment, lower, body, faced=False)
    if len(found) != 1 or edge is None or side is None or not 0 < edge[0] < side[0]:
        return None
    piece, line = found[0]
    way = (line[-1] - line[0]) / norm(line[-1] - line[0])
    corners = np.concatenate([one.segments[body, :, 0] for one in piece.edges])
    wide = float(np.ptp(corners @ np.array([-way[1], way[0]]))) / 2
    return Ties(float(norm(line[-1] - line[0])), wide, edge, side)


def _folded_strip(garment: Garment, piece: Piece, body: int) -> Floats | None:
    """The fold `(n, 2)` of a piece that no seam and no patch has; None of any other."""
    sewn = any(piece.name in join.pieces for join in garment.joins)
    stitched = any(piece.name in (patch.piece, patch.onto) for patch in garment.patches)
    lines = [mark.points[body] for mark in piece.marks if mark.line == "fold"]
    return None if sewn or stitched or len(lines) != 1 else lines[0]


def _caught(garment: Garment, front: WrapFront, body: int, faced: bool) -> Floats | None:
    """The notch `(2,)` of a front on its faced edge or at its side; None where there is not just one."""
    own = [one for one in _notches(garment, front, faced) if np.isfinite(one.at[body])]
    if len(own) != 1:
        return None
    run = next(run for run in front.ring if run.edge == own[0].edge)
    return np.asarray(Ruler(run.path).place(float(own[0].at[body]))[0])


def _notches(garment: Garment, front: WrapFront, faced: bool) -> list[Notch]:
    """The notches of a front on its faced edge, or of its other edges on the one that reaches lowest: its side."""
    joins = [join for join in garment.joins if front.piece.name in join.pieces and join.is_facing]
    edges = {p.edge for join in joins for p in (*join.first, *join.second) if p.piece == front.piece.name}
    own = [one for one in front.piece.notches if (one.edge in edges) == faced]
    low = {run.edge: float(run.path[..., 1].min()) for run in front.ring}
    return own if faced else [one for one in own if low[one.edge] == min(low[each.edge] for each in own)]


def draw_ties(canvas: Canvas, ties: Ties) -> None:
    """Both ties as far as the knot, the loops of the bow, the ends that hang down, and the knot over all."""
    floor = float(canvas.box()[0, 1])
    knot = (ties.at_edge + ties.at_side) / 2 + np.array([0.0, -ties.wide / 2])
    left = ties.long - float(norm(ties.at_edge - knot)) - _KNOT
    bow = left - 2 * _LOOP >= _LEAST
    hang = left - 2 * _LOOP if bow else max(left, 0.0)
    for at in (ties.at_edge, ties.at_side):
        _filled(canvas, _ribbon(at, knot, ties.wide))
    for slant in _SLANTS:
        way = np.array([slant, -1.0]) / norm(np.array([slant, -1.0]))
        _filled(canvas, _ribbon(knot, knot + hang * way, ties.wide))
    for side in (-1.0, 1.0) if bow else ():
        _filled(canvas, _loop(knot, side))
    half = ties.wide * 0.6
    corners = np.array([[-half, -half], [half, -half], [half, half], [-half, half]])
    _filled(canvas, lines_through(knot + corners, closed=True))
    canvas.hangs = max(0.0, floor - float(canvas.box()[0, 1]))


def _filled(canvas: Canvas, ring: Floats) -> None:
    canvas.fill(ring, PAPER)
    canvas.line([ring], OUTLINE)


def _ribbon(start: Floats, end: Floats, wide: float) -> Floats:
    """A tie from one point to another, a closed path `(4, 4, 2)`."""
    way = (end - start) / norm(end - start)
    across = np.array([-way[1], way[0]]) * wide / 2
    return lines_through([start - across, end - across, end + across, start + across], closed=True)


def _loop(knot: Floats, side: float) -> Floats:
    """A loop of the bow: out from the knot and back to it, a closed path `(2, 4, 2)`."""
    out, down = np.array([side * _LOOP, 0.0]), np.array([0.0, -1.0])
    tip = knot + out + down * _DROOP * _LOOP
    over = [knot, knot + out * 0.4 - down * _FAT, tip - down * _FAT, tip]
    under = [tip, tip + down * _FAT, knot + out * 0.4 + down * _FAT, knot]
    return np.array([over, under])
