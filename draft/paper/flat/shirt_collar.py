"""A collar that falls over its stand, as it lies on the wearer: its fold round the neck, its leaves on the fronts.

Like a hood it has no line of the pattern in such a view. Its depths, its points and the angle of these are the drafted
ones; how it lies round the neck is as a collar is drawn.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Piece
from draft.geometry.cubic import line, lines_through, norm, reverse, unit
from draft.geometry.ends import end_directions
from draft.geometry.flatten import polyline
from draft.geometry.ruler import chord_length
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.panels import Panel
from draft.paper.flat.similar import MIRROR
from draft.paper.flat.strips import INSIDE, OUTLINE, PAPER, SEAM

_RISES = 0.8
"""How much of its depth the stand rises at the side of the neck, where it leans."""
_LEANS = 0.15
_GAP = 2.0
"""How far each leaf begins from the middle, mm."""
_DOWN = unit(np.array([0.93, -0.36]))
"""The way of a shoulder."""


@dataclass(frozen=True)
class Collar:
    """The pieces of a collar and its stand in one size: depths at the centre back and front, and the points, in mm."""

    stand: Piece
    collar: Piece
    neck: frozenset[tuple[str, str]]
    seat: str
    point: str
    stand_back: float
    stand_front: float
    depth: float
    long: float
    angle: float
    """From the seat to the point, in radians."""


def collar_of(garment: Garment, body: int) -> tuple[Collar, Join] | None:
    """The collar of a garment with the join that sets its stand on: what a stand on the fold catches at its top."""
    for caught in garment.joins:
        if caught.caught and len(caught.second) == 1 and len({part.piece for part in caught.first}) == 1:
            stand, collar = (garment.piece(side[0].piece) for side in (caught.first, caught.second))
            for join in garment.joins:
                own, others = join.first, join.second
                if own[0].piece == stand.name and len({part.piece for part in others}) > 1 and stand.on_fold:
                    neck = frozenset((part.piece, part.edge) for part in others)
                    return _measured(stand, collar, neck, caught.second[0].edge, own[0].edge, body), join
    return None


def _measured(stand: Piece, collar: Piece, neck: frozenset[tuple[str, str]], seat: str, seam: str, body: int) -> Collar:
    beside = _beside(collar, seat)
    point = next(edge for edge in beside if not edge.on_fold)
    end = next(edge for edge in _beside(stand, seam) if not edge.on_fold)
    ways = end_directions(collar.edge(seat).segments[body : body + 1])
    after = point is beside[0]
    back = -ways[1][0] if after else ways[0][0]
    out = point.segments[body][-1, 3] - point.segments[body][0, 0]
    angle = float(np.arccos(np.clip(back @ unit(out if after else -out), -1.0, 1.0)))
    fold, low = (next(edge for edge in piece.edges if edge.on_fold).segments[body] for piece in (collar, stand))
    back_low, front, depth, long = (
        float(chord_length(path)) for path in (low, end.segments[body], fold, point.segments[body])
    )
    return Collar(stand, collar, neck, seat, point.name, back_low, front, depth, long, angle)


def _beside(piece: Piece, edge: str) -> list[Edge]:
    names = [one.name for one in piece.edges]
    at = names.index(edge)
    return [piece.edges[(at + 1) % len(names)], piece.edges[at - 1]]


def draw_collar(
    canvas: Canvas, collar: Collar, panel: Panel, behind: Panel | None, body: int, from_behind: bool
) -> None:
    """The collar on the neck of one view."""
    neck = _neck(panel, collar, body)
    back = _neck(behind, collar, body) if behind and not from_behind else neck
    if neck is None or back is None:
        return
    side, centre = _ends(neck)
    back_side, nape = _ends(back)
    high = side + np.array([-_LEANS, _RISES]) * collar.stand_back
    low = side + _DOWN * (collar.depth - _RISES * collar.stand_back)
    top = np.array([0.0, side[1] - (back_side[1] - nape[1]) + collar.stand_back])
    over = _across(high, top)
    if from_behind:
        _from_behind(canvas, collar, over, low, top)
    else:
        _from_the_front(canvas, collar, neck, over, (high, low, centre))


def _from_behind(canvas: Canvas, collar: Collar, over: Floats, low: Floats, top: Floats) -> None:
    edge = _across(low, top - np.array([0.0, collar.depth]))
    canvas.fill(_ring(over, reverse(edge)), PAPER)
    canvas.line([over, edge, *_sides(over, edge)], OUTLINE)
    canvas.edge(collar.collar.name, _edge(collar), edge, mirrored=False)
    canvas.edge(collar.collar.name, collar.seat, over, mirrored=False)


def _from_the_front(
    canvas: Canvas, collar: Collar, neck: Floats, over: Floats, at: tuple[Floats, Floats, Floats]
) -> None:
    high, low, centre = at
    meets = centre + np.array([_GAP, collar.stand_front])
    reach = float(norm(meets - high)) * 0.45
    arrives = unit(np.array([0.85, 0.53]))
    fold = np.stack([high, high + reach * np.array([-0.2, -0.98]), meets + reach * arrives, meets])[None]
    turned = complex(*arrives) * np.exp(-1j * collar.angle)
    tip = meets + collar.long * np.array([turned.real, turned.imag])
    point = line(meets, tip)[None]
    edge = np.stack([tip, tip + 0.35 * (low - tip), low + np.array([0.0, -0.45]) * (low - tip)[1], low])[None]
    whole = np.concatenate([reverse(fold), MIRROR.points(fold)])
    canvas.fill(_ring(over, whole), INSIDE)
    canvas.line([over], OUTLINE)
    _stand(canvas, collar, neck, fold, centre)
    leaf = _ring(fold, point, edge, line(low, high)[None])
    for shape in (leaf, MIRROR.points(leaf)):
        canvas.fill(shape, PAPER)
    canvas.both([fold, point, edge, line(low, high)[None]], OUTLINE)
    for name, run in ((collar.seat, fold), (collar.point, point), (_edge(collar), edge)):
        canvas.edge(collar.collar.name, name, run)


def _stand(canvas: Canvas, collar: Collar, neck: Floats, fold: Floats, centre: Floats) -> None:
    """What is seen of the stand between the leaves."""
    own = neck if norm(neck[0, 0] - centre) < norm(neck[-1, 3] - centre) else reverse(neck)
    ring = _ring(MIRROR.points(reverse(own)), own, fold, MIRROR.points(reverse(fold)))
    canvas.fill(ring, PAPER)
    canvas.both([own], SEAM)
    top, beside = centre + np.array([0.0, collar.stand_front]), np.array([_GAP, 0.0])
    canvas.line([lines_through([top - beside, top + beside])], OUTLINE)


def _neck(panel: Panel, collar: Collar, body: int) -> Floats | None:
    """The edges of a panel that the stand is sewn to, where they lie, one after another."""
    runs = [
        panel.move.along(edge.segments[body])
        for edge in panel.piece.edges
        if (panel.piece.name, edge.name) in collar.neck
    ]
    if not runs:
        return None
    for k in range(len(runs)):
        turned = [*runs[k:], *runs[:k]]
        if all(norm(a[-1, 3] - b[0, 0]) < 1.0 for a, b in pairwise(turned)):
            return np.concatenate(turned)
    return None


def _ends(neck: Floats) -> tuple[Floats, Floats]:
    """The end of a neck at the shoulder, and that at the middle."""
    one, two = neck[0, 0], neck[-1, 3]
    return (one, two) if one[0] > two[0] else (two, one)


def _across(right: Floats, middle: Floats) -> Floats:
    """A curve from the mirror image of a point through one on the middle to the point."""
    flat = np.array([right[0] * 0.55, 0.0])
    half = np.stack([middle, middle + flat, right + 0.35 * (middle + flat - right), right])[None]
    return np.concatenate([reverse(MIRROR.points(half)), half])


def _sides(one: Floats, two: Floats) -> list[Floats]:
    return [line(one[0, 0], two[0, 0])[None], line(one[-1, 3], two[-1, 3])[None]]


def _ring(*paths: Floats) -> Floats:
    """A closed path through others, straight from the end of each to the next."""
    return lines_through(np.concatenate([polyline(path) for path in paths]), closed=True)


def _edge(collar: Collar) -> str:
    """The edge that falls on the fronts and the back."""
    return next(
        edge.name for edge in collar.collar.edges if not edge.on_fold and edge.name not in (collar.seat, collar.point)
    )
