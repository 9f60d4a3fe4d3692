"""Legs: a panel whose middle seam goes on between the legs is hung up, its centre upright and its fork in the middle.

Worn, what reaches between the legs lies behind; drawn flat, each leg hangs from the fork and stands a little outward,
as trousers do when they are laid on a table.
"""

from __future__ import annotations

from dataclasses import field

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.cubic import lines_through, unit
from draft.geometry.ends import end_directions
from draft.geometry.flatten import sample
from draft.paper.flat.similar import Similar

_ACROSS = 0.5
"""Cosine: a middle seam that ends within 30 deg of across the grain goes on between the legs."""
_EVENLY = 0.45
"""The side of a leg has moved outward as far as its inside by so much of the way from the fork to the hem."""
_LINES = 24
_HAIR = 1e-6


def between_legs(piece: Piece, middle: Edge, body: int) -> bool:
    """Whether the middle edge of a piece ends across the grain, high above where the piece ends: at a fork."""
    up = piece.grain[body]
    across = [abs(float(way[0] @ up)) < _ACROSS for way in end_directions(middle.segments[body : body + 1])]
    if middle.on_fold or across[0] == across[1]:
        return False
    ends = middle.segments[body][[0, -1], [0, 3]] @ up
    fork, top = (ends[1], ends[0]) if across[1] else (ends[0], ends[1])
    heights = np.concatenate([edge.segments[body].reshape(-1, 2) for edge in piece.edges]) @ up
    below = fork - heights.min() if fork < top else heights.max() - fork
    return bool(below > abs(top - fork))


def is_leg(garment: Garment, piece: Piece, body: int) -> bool:
    """Whether a piece of a pair is sewn to its other through the fork."""
    for join in garment.joins if piece.cut_as == "as a pair" else ():
        own = {part.edge for part in (*join.first, *join.second) if join.closes(piece.name) and not join.is_lying}
        if len(own) == 1 and between_legs(piece, piece.edge(own.pop()), body):
            return True
    return False


@dataclass(frozen=True)
class Hung:
    """Points laid upright by a first move, then each level pushed outward until its inside lies where it hangs.

    `levels` are heights, rising, with what is inmost and outmost there, and how far the inside is pushed.
    """

    first: Similar
    levels: Floats
    inmost: Floats
    outmost: Floats
    inner: Floats
    outer: Floats
    over: bool = field(default=False)

    def points(self, points: Floats) -> Floats:
        """Where points `(..., 2)` come to lie."""
        laid = self.first.points(points)
        x, y = laid[..., 0], laid[..., 1]
        near, far, inner, outer = (
            np.interp(y, self.levels, row) for row in (self.inmost, self.outmost, self.inner, self.outer)
        )
        share = np.clip((far - x) / np.maximum(far - near, 1.0), 0.0, 1.0)
        return np.stack([x + share * inner + (1 - share) * outer, y], axis=-1)

    def along(self, segments: Floats) -> Floats:
        """A path `(n, 4, 2)` as it hangs, in short straight lines."""
        return lines_through(self.points(_close(segments)))


def hung(piece: Piece, middle: Edge, body: int) -> Hung:
    """The move that hangs a leg up."""
    first, centre = _upright(piece, middle, body)
    ring = first.points(_close(np.concatenate([edge.segments[body] for edge in piece.edges])))
    line = first.points(centre)
    fork, top = line[-1], float(ring[:, 1].max())
    levels = np.unique(np.concatenate([np.linspace(ring[:, 1].min(), top, 240), line[:, 1]]))
    inmost, outmost = _spans(ring, levels)
    rising = line[::-1]
    inner = -np.interp(levels, rising[:, 1], rising[:, 0])
    long = fork[1] - ring[:, 1].min()
    share = np.clip((line[0, 1] - levels) / (line[0, 1] - fork[1] + _EVENLY * long), 0.0, 1.0)
    outer = -fork[0] * (3 - 2 * share) * share**2
    return Hung(first, levels, inmost, outmost, inner, outer, first.over)


def _close(segments: Floats) -> Floats:
    """Points `(n, 2)` close to one another along a path, straight or not."""
    return np.asarray(sample(segments[None], _LINES)[0])


def _upright(piece: Piece, middle: Edge, body: int) -> tuple[Similar, Floats]:
    """The grain upright, the piece to the right of the top of its centre; and its centre from there to the fork."""
    names = [edge.name for edge in piece.edges]
    turn = 1j / complex(*unit(piece.grain[body]))
    at = names.index(middle.name)
    path = middle.segments[body]
    ways = end_directions(path[None])
    forward = abs(float(ways[1][0] @ piece.grain[body])) < abs(float(ways[0][0] @ piece.grain[body]))
    fly = piece.edges[(at - 1 if forward else at + 1) % len(names)]
    if _in_line(fly, middle, forward, body):
        path = np.concatenate([fly.segments[body], path] if forward else [path, fly.segments[body]])
    centre = _close(path)
    centre = centre if forward else centre[::-1]
    first = Similar(turn, -turn * complex(*centre[0]))
    inside = first.points(np.concatenate([edge.segments[body, :, 0] for edge in piece.edges]).mean(axis=0))
    if inside[0] < 0:
        first = first.then(Similar(-1.0, 0.0, over=True))
    return first, centre


def _in_line(fly: Edge, middle: Edge, forward: bool, body: int) -> bool:
    """Whether the edge beside the middle is its upper part, left open."""
    before, after = (fly, middle) if forward else (middle, fly)
    arriving = end_directions(before.segments[body : body + 1])[1][0]
    leaving = end_directions(after.segments[body : body + 1])[0][0]
    return float(arriving @ leaving) > 0.99


def _spans(ring: Floats, levels: Floats) -> Floats:
    """The lowest and highest x of a closed line `(n, 2)` at each of some heights `(k,)`: `(2, k)`."""
    following = np.roll(ring, -1, axis=0)
    low, high = np.minimum(ring[:, 1], following[:, 1]), np.maximum(ring[:, 1], following[:, 1])
    at, side = np.nonzero((low - _HAIR <= levels[:, None]) & (levels[:, None] <= high + _HAIR))
    a, b = ring[side], following[side]
    rise = b[:, 1] - a[:, 1]
    share = np.where(rise == 0, 0.5, (levels[at] - a[:, 1]) / np.where(rise == 0, 1.0, rise))
    x = a[:, 0] + np.clip(share, 0, 1) * (b[:, 0] - a[:, 0])
    first = np.searchsorted(at, np.arange(len(levels)))
    return np.stack([np.minimum.reduceat(x, first), np.maximum.reduceat(x, first)])
