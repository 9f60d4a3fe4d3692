"""Fronts and backs that are cut in parts, as one piece again: with a yoke over the shoulder, and a placket beside it.

Drawn flat, the parts lie as they are sewn: half of the yoke above its front and half above its back, a placket beside
its front as far as where the buttons stand, for there the middle of the wearer lies.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Mark, Piece, SidePart
from draft.garment.marks import places
from draft.geometry.cubic import norm, reverse, unit
from draft.geometry.ruler import Ruler
from draft.paper.flat.done import Done
from draft.paper.flat.rings import (
    Run,
    above,
    after,
    against,
    alike,
    cut_off,
    drawn_in,
    in_place_of,
    middle_of,
    ring_of,
    straight,
)

MIDDLE = "the middle"
"""The line on which both fronts meet, named as no one can name an edge of theirs."""
SHOULDER = "the shoulder"
_WORDS = {"front", "back"}
_TOUCH = 0.5
_BEGINNING = 0.05
"""An edge goes the way that it has after so much of its length."""


@dataclass(frozen=True)
class Closing:
    """A front that is buttoned: the piece of the placket, and in the coordinates of its front both long sides of it,
    paths `(n, 4, 2)`, and where the buttons stand `(n, 2)`.
    """

    placket: str
    sewn: Floats
    edge: tuple[str, Floats]
    buttons: Floats


@dataclass(frozen=True, eq=False)
class Whole:
    """A garment whose fronts and backs are a piece each, with what is seen within them.

    `origins` leads from their edges to those that were drafted; `seams` are the drafted edges within a piece.
    """

    drafted: Garment
    garment: Garment
    origins: Mapping[tuple[str, str], tuple[str, str]]
    seams: Mapping[str, tuple[Run, ...]]
    closings: Mapping[str, Closing]


@lru_cache(maxsize=8)
def together(garment: Garment, body: int, done: Done) -> Whole:
    """The garment with its yoke and its placket laid beside what they are sewn to, as far as it is sewn."""
    made: list[_Made] = []
    for word in sorted(_WORDS):
        base = next((piece for piece in garment.pieces if word in piece.name), None)
        found = _Made.of(garment, base, body, done) if base else None
        if found and found.seams:
            made.append(found)
    if not made:
        return Whole(garment, garment, {}, {}, {})
    return _whole(garment, made)


class _Made:
    """One front or back while it is put together."""

    def __init__(self, piece: Piece, body: int) -> None:
        self.piece, self.body, self.ring = piece, body, ring_of(piece, body)
        self.seams: list[Run] = []
        self.inside: set[str] = set()
        self.closing: Closing | None = None

    @classmethod
    def of(cls, garment: Garment, piece: Piece, body: int, done: Done) -> _Made:
        made = cls(piece, body)
        sewn = [(join, _single_other(join, piece.name)) for join in garment.joins if done.join(join.name)]
        found = [(join, garment.piece(other[1].piece), *other) for join, other in sewn if other]
        for join, far, own, other in found:
            if _is_placket(far):
                made._beside(join, far, own, other)
        for join, far, own, other in found:
            over = _over_the_shoulder(garment, far, join)
            if over and any(run.fold for run in made.ring):
                made._above(join, far, own, other, over)
        return made

    def _above(self, join: Join, yoke: Piece, own: SidePart, other: SidePart, beyond: str) -> None:
        """The half of a yoke that lies above this piece, up to the shoulder."""
        mine, _ = after(self.ring, own.edge)
        ring = ring_of(yoke, self.body)
        far, rest = after(ring, other.edge)
        path, line = self._from_the_middle(mine.path), far.path
        if own.reverse != other.reverse:
            line = reverse(line)
        line = line if path is mine.path else reverse(line)
        ways = self._ways(ring, path, line)
        move = above(path, middle_of(self.ring), line, middle_of(ring), ways)
        reach = max(norm(run.path[-1, 3] - run.path[0, 0]) for run in self._beside_of(own.edge))
        self.ring = drawn_in(self.ring, path, move.points(line[-1, 3]), float(reach))
        laid = far.moved(move)
        self.seams += [laid, Run(own.piece, own.edge, laid.path)]
        self.ring = in_place_of(self.ring, own.edge, [run.moved(move) for run in _up_to_the_shoulder(rest, beyond)])
        self.inside.add(join.name)

    def _from_the_middle(self, path: Floats) -> Floats:
        """The path, from its end nearer to the middle."""
        middle = next(run.path for run in self.ring if run.fold)
        start, end = (np.abs(norm(middle[:, (0, 3)] - at)).min() for at in (path[0, 0], path[-1, 3]))
        return path if start <= end else reverse(path)

    def _ways(self, ring: Sequence[Run], path: Floats, line: Floats) -> tuple[Floats, Floats]:
        """A way of another ring, and that of this one which it lies on: folds, if both begin on theirs; else seams."""
        other, own = _fold_from(ring, line[0, 0]), _fold_from(self.ring, path[0, 0])
        if other is not None and own is not None:
            return other, -own
        ruler = Ruler(path)
        return unit(line[-1, 3] - line[0, 0]), ruler.place(ruler.length * _BEGINNING)[1]

    def _beside_of(self, edge: str) -> tuple[Run, Run]:
        _, rest = after(self.ring, edge)
        return rest[0], rest[-1]

    def _beside(self, join: Join, placket: Piece, own: SidePart, other: SidePart) -> None:
        """A placket as far as its buttons: both fronts lie on one another there."""
        mine, _ = after(self.ring, own.edge)
        ring = ring_of(placket, self.body)
        far, rest = after(ring, other.edge)
        line = reverse(far.path) if own.reverse != other.reverse else far.path
        move = against(mine.path, middle_of(self.ring), line, middle_of(ring))
        if not alike(mine.path, line) or len(rest) != 3:
            return
        buttons = move.points(_buttons(placket, self.body))
        up = move.points(placket.grain[self.body]) - move.points(np.zeros(2))
        low, edge, high = (run.moved(move) for run in rest)
        low, high = cut_off(low, buttons[0], up, True), cut_off(high, buttons[0], up, False)
        middle = Run(self.piece.name, MIDDLE, straight(low, high), fold=True)
        self.ring = in_place_of(self.ring, own.edge, [low, middle, high])
        self.seams.append(Run(own.piece, own.edge, mine.path))
        self.closing = Closing(placket.name, mine.path, (edge.edge, edge.path), buttons)
        self.inside.add(join.name)

    def names(self) -> list[str]:
        return [run.edge if run.piece == self.piece.name else f"{run.piece} {run.edge}" for run in self.ring]

    def made(self, bodies: int) -> Piece:
        edges = {edge.name: edge for edge in self.piece.edges}
        found = []
        for name, run in zip(self.names(), self.ring, strict=True):
            path = np.broadcast_to(run.path, (bodies, *run.path.shape))
            base = edges.get(name)
            found.append(replace(base, segments=path) if base else Edge(self.piece.span, name, path, on_fold=run.fold))
        kept = {edge.name for edge in found}
        takeups = tuple(one for one in self.piece.takeups if one.edge in kept)
        return replace(self.piece, edges=_one_fold(found), takeups=takeups, notches=())


def _single_other(join: Join, name: str) -> tuple[SidePart, SidePart] | None:
    """The part of a piece in a seam of one edge each, and the other one."""
    if join.is_lying or join.is_facing or len(join.first) != 1 or len(join.second) != 1 or len(join.pieces) != 2:
        return None
    one, two = join.first[0], join.second[0]
    return {one.piece: (one, two), two.piece: (two, one)}.get(name)


def _is_placket(piece: Piece) -> bool:
    return piece.cut_as == "as a pair" and any(mark.fastening == "buttonhole" for mark in piece.marks)


def _buttons(piece: Piece, body: int) -> Floats:
    holes: Mark = next(mark for mark in piece.marks if mark.fastening == "buttonhole")
    return places(holes, body)


def _over_the_shoulder(garment: Garment, piece: Piece, own: Join) -> str:
    """The edge by which a piece on the fold is sewn to another one as well, one edge each; nothing if it is not."""
    for join in garment.joins if piece.on_fold and not _WORDS & set(piece.name.split("_")) else ():
        other = _single_other(join, piece.name)
        if other and join is not own and join.pieces != own.pieces:
            return other[0].edge
    return ""


def _up_to_the_shoulder(rest: Sequence[Run], beyond: str) -> list[Run]:
    """Of a yoke's edges behind one of its seams those up to halfway to the other, on both sides, and the shoulder."""
    at = next(k for k, run in enumerate(rest) if run.edge == beyond)
    first, last = list(rest[:at]), list(rest[at + 1 :])
    first, last = _nearer(first), [run.back for run in _nearer([run.back for run in reversed(last)])][::-1]
    shoulder = Run(rest[0].piece, SHOULDER, straight(first[-1], last[0]))
    return [*first, shoulder, *last]


def _nearer(runs: list[Run]) -> list[Run]:
    """The first half of runs that follow one another; a fold at their start besides, and none at their end."""
    folds = [run for run in runs[:1] if run.fold]
    rest = [run for run in runs if not run.fold]
    return [*folds, *rest[: max(1, len(rest) // 2)]]


def _fold_from(ring: Sequence[Run], start: Floats) -> Floats | None:
    """The way `(2,)` of a ring's fold from its end at a point; None where no fold ends there."""
    for run in ring:
        for path in (run.path, reverse(run.path)) if run.fold else ():
            if norm(path[0, 0] - start) < _TOUCH:
                return unit(path[-1, 3] - path[0, 0])
    return None


def _one_fold(edges: list[Edge]) -> tuple[Edge, ...]:
    """Edges on the fold that follow one another as one of them."""
    folds = [edge for edge in edges if edge.on_fold]
    if len(folds) < 2:
        return tuple(edges)
    first = next(k for k, edge in enumerate(edges) if edge.on_fold and not edges[k - 1].on_fold)
    turned = [*edges[first:], *edges[:first]]
    whole = replace(turned[0], segments=np.concatenate([edge.segments for edge in turned[: len(folds)]], axis=1))
    return (whole, *turned[len(folds) :])


def _whole(garment: Garment, made: Sequence[_Made]) -> Whole:
    places_of: dict[tuple[str, str], tuple[str, str, bool]] = {}
    origins: dict[tuple[str, str], tuple[str, str]] = {}
    for one in made:
        for name, run in zip(one.names(), one.ring, strict=True):
            places_of[run.piece, run.edge] = (one.piece.name, name, run.over)
            origins[one.piece.name, name] = (run.piece, run.edge)
    gone = {name for one in made for name in one.inside}
    pieces = {one.piece.name: one.made(len(garment.sizes)) for one in made}
    whole = replace(
        garment,
        pieces=tuple(pieces.get(piece.name, piece) for piece in garment.pieces),
        joins=tuple(_led(join, places_of) for join in garment.joins if join.name not in gone),
    )
    closings = {one.piece.name: one.closing for one in made if one.closing}
    return Whole(garment, whole, origins, {one.piece.name: tuple(one.seams) for one in made}, closings)


def _led(join: Join, to: Mapping[tuple[str, str], tuple[str, str, bool]]) -> Join:
    """The join with its parts where they are now."""
    return replace(join, first=tuple(_part(p, to) for p in join.first), second=tuple(_part(p, to) for p in join.second))


def _part(part: SidePart, to: Mapping[tuple[str, str], tuple[str, str, bool]]) -> SidePart:
    if (part.piece, part.edge) not in to or part.layer == "inside":
        return part
    piece, edge, over = to[part.piece, part.edge]
    return replace(part, piece=piece, edge=edge, reverse=part.reverse != over, layer="")
