"""A piece turned about a line, for one body: the other hand of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Edge, InnerDart, Mark, Piece, Takeup
from draft.geometry.length import length

Turn = Callable[[Floats], Floats]


def about(through: Floats, along: Floats) -> tuple[Turn, Turn]:
    """How points and how ways `(..., 2)` are turned about a line through a point `(2,)` along a unit vector `(2,)`."""

    def ways(found: Floats) -> Floats:
        return np.asarray(2 * np.sum(found * along, axis=-1, keepdims=True) * along - found)

    return lambda points: np.asarray(through + ways(points - through)), ways


def reflected(piece: Piece, points: Turn, ways: Turn) -> Piece:
    """The piece turned about a line; its edges run as they did."""
    return replace(
        piece,
        edges=tuple(_edge(edge, points) for edge in piece.edges),
        grain=ways(piece.grain),
        stretch=ways(piece.stretch),
        takeups=tuple(_takeup(takeup, points, ways) for takeup in piece.takeups),
        inner_darts=tuple(_inner(dart, points, ways) for dart in piece.inner_darts),
        marks=tuple(_mark(mark, points, ways) for mark in piece.marks),
    )


def _edge(edge: Edge, points: Turn) -> Edge:
    return replace(edge, segments=points(edge.segments))


def _takeup(takeup: Takeup, points: Turn, ways: Turn) -> Takeup:
    begins, ends = (None if way is None else ways(way) for way in (takeup.from_fold, takeup.to_fold))
    return replace(takeup, to=None if takeup.to is None else points(takeup.to), from_fold=begins, to_fold=ends)


def _inner(dart: InnerDart, points: Turn, ways: Turn) -> InnerDart:
    return replace(dart, at=points(dart.at), way=ways(dart.way), to=points(dart.to), other=points(dart.other))


def _mark(mark: Mark, points: Turn, ways: Turn) -> Mark:
    return replace(mark, points=points(mark.points), way=None if mark.way is None else ways(mark.way))


def run_back(piece: Piece) -> Piece:
    """The piece with its outline run round the other way: each edge from its last point to its first."""
    edges = tuple(_back(edge) for edge in reversed(piece.edges))
    # The corner at the end of an edge was that at the beginning of the next
    corners = [piece.edges[k - 1].end_corner for k in range(len(piece.edges) - 1, -1, -1)]
    edges = tuple(replace(edge, end_corner=corner) for edge, corner in zip(edges, corners, strict=True))
    long = {edge.name: length(edge.segments) for edge in piece.edges}
    return replace(
        piece,
        edges=edges,
        notches=tuple(replace(notch, at=long[notch.edge] - notch.at) for notch in piece.notches),
        takeups=tuple(_takeup_back(takeup, long[takeup.edge]) for takeup in piece.takeups),
    )


def _back(edge: Edge) -> Edge:
    return replace(edge, segments=edge.segments[:, ::-1, ::-1], ends=edge.ends[::-1])


def _takeup_back(takeup: Takeup, long: Floats) -> Takeup:
    first, last = (None if bow is None else -bow for bow in (takeup.bow_last, takeup.bow_first))
    pressed = None if takeup.pressed is None else 1.0 - takeup.pressed
    return replace(takeup, at=long - takeup.at, bow_first=first, bow_last=last, pressed=pressed)
