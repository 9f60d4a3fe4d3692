"""The front and back of what hangs down the trunk, and how wide both are together at any level below the arms.

Only of garments whose front and back are a piece each, sewn together at the sides, that hang from a seam of both on the
shoulder, or from the waist. Of others nobody could say how wide they are between the levels that are measured on them.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Piece
from draft.geometry.flatten import polyline
from draft.geometry.ruler import Ruler

From = Literal["shoulder", "waist"]
_ALONG = 0.98
"""Cosine: an edge within about 11 degrees of the grain may be the middle of a pair."""
_SIDEWAYS = 0.4
"""mm aside for each that an edge rises: beyond, it is no side of the trunk any more, but the curve under the arm."""
_WITHIN = 2.0  # mm: a level on the very edge of a piece is half off it


@dataclass(frozen=True, eq=False)
class Half:
    """Half of a front or back with its middle on x = 0 and y up: its outline `(n, 2)`, its side `(m, 2)` from below.

    `top` is its corner on the shoulder or, on the waist, where its side ends.
    """

    piece: Piece
    outline: Floats
    side: Floats
    top: Floats
    at_middle: float
    """How high it reaches at its middle, mm: a neckline or a waist may be hollow there."""
    darts: tuple[tuple[Floats, Floats, float], ...] = ()
    """Of each dart the middle on its edge and the point `(2,)`, and its width there."""


@dataclass(frozen=True, eq=False)
class Hanging:
    """A front and a back that hang from the shoulder or the waist."""

    front: Half
    back: Half
    hung_from: From

    @property
    def up_to(self) -> float:
        """How high above the lower end of its side a level may lie, mm: below the arms, and on the piece."""
        tops = [min(float(half.side[-1, 1]), half.at_middle) - float(half.side[0, 1]) for half in self.halves]
        return min(tops) - _WITHIN

    @property
    def halves(self) -> tuple[Half, Half]:
        """The front's half and the back's."""
        return self.front, self.back

    def girths(self, above: Floats) -> Floats:
        """How wide both are all round at levels so far above the lower end of the side seam, mm `(n,)`."""
        return 2 * (_widths(self.front, above) + _widths(self.back, above))


def hanging(garment: Garment, body: int) -> Hanging | None:
    """How a garment hangs on one of its bodies, or None where that cannot be told."""
    pair = _front_and_back(garment)
    if pair is None:
        return None
    sides = _sides(garment, pair)
    middles = [_middle(piece, body) for piece in pair]
    if sides is None or None in middles:
        return None
    over = {finished.over[0] for finished in garment.finished if finished.over}
    hung_from: From = "shoulder" if "bust girth" in over else "waist"
    halves = [_half(p, m, side, body) for p, m, side in zip(pair, middles, sides, strict=True) if m]
    if len(halves) < 2 or (hung_from == "shoulder" and not _shoulder_seam(garment, pair, halves, body)):
        return None
    found = Hanging(halves[0], halves[1], hung_from)
    return found if found.up_to > 0 else None


def _front_and_back(garment: Garment) -> tuple[Piece, Piece] | None:
    found = []
    for word in ("front", "back"):
        called = [piece for piece in garment.pieces if word in piece.name.split("_") and not _lies_on(garment, piece)]
        if len(called) != 1:
            return None
        found.append(called[0])
    return found[0], found[1]


def _lies_on(garment: Garment, piece: Piece) -> bool:
    """Whether a piece is a facing of another."""
    return any(join.is_facing and piece.name in {part.piece for part in join.first} for join in garment.joins)


def _middle(piece: Piece, body: int) -> Edge | None:
    folds = [edge for edge in piece.edges if edge.on_fold]
    if folds or piece.cut_as != "as a pair":
        return folds[0] if folds else None
    along = [edge for edge in piece.edges if _along_grain(piece, edge, body)]
    return along[0] if len(along) == 1 else None


def _along_grain(piece: Piece, edge: Edge, body: int) -> bool:
    way = edge.segments[body, -1, 3] - edge.segments[body, 0, 0]
    return abs(float(way @ piece.grain[body])) > _ALONG * float(np.hypot(*way)) and edge.name != "side"


def _sides(garment: Garment, pair: tuple[Piece, Piece]) -> tuple[Edge, Edge] | None:
    """The edges in which front and back are sewn together and which end at the hems of both."""
    for join in garment.joins:
        edges = _edges_of(join, pair)
        if edges and all(_at_hem(piece, edge) for piece, edge in zip(pair, edges, strict=True)):
            return edges
    return None


def _edges_of(join: Join, pair: tuple[Piece, Piece]) -> tuple[Edge, Edge] | None:
    parts = (*join.first, *join.second)
    names = {part.piece: part.edge for part in parts}
    if len(parts) != 2 or set(names) != {piece.name for piece in pair} or join.is_lying:
        return None
    return pair[0].edge(names[pair[0].name]), pair[1].edge(names[pair[1].name])


def _at_hem(piece: Piece, edge: Edge) -> bool:
    at = [other.name for other in piece.edges].index(edge.name)
    beside = (piece.edges[k % len(piece.edges)] for k in (at - 1, at + 1))
    return any(other.turned_up or "hem" in other.name for other in beside)


def _half(piece: Piece, middle: Edge, side: Edge, body: int) -> Half:
    laid = _Laid.of(piece, middle, body)
    outline = np.concatenate([laid.line(edge)[:-1] for edge in piece.edges])
    seam = laid.line(side)
    seam = seam if seam[0, 1] < seam[-1, 1] else seam[::-1]
    darts = tuple(
        (laid.points(Ruler(piece.edge(takeup.edge).segments[body]).place(float(takeup.at[body]))[0]),
         laid.points(takeup.to[body]), float(takeup.width[body]))
        for takeup in piece.takeups
        if takeup.to is not None and np.isfinite(takeup.at[body]) and takeup.width[body] > 0
    )  # fmt: skip
    trunk = _below_the_arm(seam)
    at_middle = float(laid.line(middle)[:, 1].max())
    return Half(piece, outline, trunk, outline[int(np.argmax(outline[:, 1]))], at_middle, darts)


@dataclass(frozen=True, eq=False)
class _Laid:
    """The move that lays a piece's middle edge on x = 0, the piece to its right, and its grain upright."""

    origin: Floats
    up: Floats
    out: Floats
    body: int

    @staticmethod
    def of(piece: Piece, middle: Edge, body: int) -> _Laid:
        start, end = middle.segments[body, 0, 0], middle.segments[body, -1, 3]
        up = (end - start) / float(np.hypot(*(end - start)))
        up = up if up @ piece.grain[body] > 0 else -up
        out = np.array([up[1], -up[0]])
        inside = np.concatenate([edge.segments[body, :, 0] for edge in piece.edges]).mean(axis=0)
        return _Laid(start, up, out if (inside - start) @ out > 0 else -out, body)

    def points(self, points: Floats) -> Floats:
        return np.stack([(points - self.origin) @ self.out, (points - self.origin) @ self.up], axis=-1)

    def line(self, edge: Edge) -> Floats:
        return self.points(polyline(edge.segments[self.body]))


def _below_the_arm(seam: Floats) -> Floats:
    """The part of a side, from below, up to where it turns aside under the arm."""
    step = np.diff(seam, axis=0)
    aside = (np.abs(step[:, 0]) > _SIDEWAYS * step[:, 1]) & (step[:, 0] > 0)
    first = np.flatnonzero(aside)
    return seam[: first[0] + 1] if first.size else seam


def _shoulder_seam(garment: Garment, pair: tuple[Piece, Piece], halves: list[Half], body: int) -> bool:
    """Whether the highest corners of front and back are sewn to one another."""
    for join in garment.joins:
        edges = _edges_of(join, pair)
        if edges and all(
            _ends_at(piece, edge, half.top, body) for piece, edge, half in zip(pair, edges, halves, strict=True)
        ):
            return True
    return False


def _ends_at(piece: Piece, edge: Edge, top: Floats, body: int) -> bool:
    middle = _middle(piece, body)
    assert middle is not None
    ends = _Laid.of(piece, middle, body).points(edge.segments[body][[0, -1], [0, 3]])
    return bool((np.hypot(*(ends - top).T) < 1.0).any())


def _widths(half: Half, above: Floats) -> Floats:
    """The width of a half at levels above its side's lower end, without what its darts take up, mm `(n,)`."""
    y = half.side[0, 1] + above
    start, end = half.outline, np.roll(half.outline, -1, axis=0)
    rise = end[:, 1] - start[:, 1]
    over = (y[:, None] >= start[:, 1]).astype(float) - (y[:, None] >= end[:, 1])  # 1 where it rises past the level
    share = (y[:, None] - start[:, 1]) / np.where(rise == 0, 1.0, rise)
    wide = np.abs((over * (start[:, 0] + share * (end[:, 0] - start[:, 0]))).sum(axis=1))
    for mouth, point, width in half.darts:
        share = np.clip((y - point[1]) / (mouth[1] - point[1]), 0.0, 1.0)
        wide = wide - width * share
    return np.asarray(wide)
