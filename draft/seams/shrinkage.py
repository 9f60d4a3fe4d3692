"""Pieces for cloth that is cut before it is washed: larger along the grain and across it by what washing takes.

After the wash they are as they were drafted. While they are sewn they are not: an edge that runs along the grain has
grown by another share than one that runs across, so that two edges that lie differently on the cloth differ a little
until the garment is washed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import plain
from draft.base.notes import Note, error, remark
from draft.base.plainly import mm, sentence
from draft.base.worst import worst_of
from draft.garment.garment import Edge, Garment, InnerDart, Mark, Notch, Piece, Takeup
from draft.geometry.ends import end_directions
from draft.geometry.length import point_at
from draft.geometry.nearest import nearest_place
from draft.seams.walk import walk_seams

Grow = Callable[[Floats], Floats]

SEEN = 1.0  # mm: what two sides may differ by before a maker notices
ASLANT = 1e-3  # of a right angle, about: a fold that leans more on the grain would open out crooked


def before_washing(garment: Garment, across: float, down: float) -> Garment:
    """The garment as it is cut from cloth that loses the shares `across` and `down` when it is washed."""
    pieces = tuple(_grown(piece, across, down) for piece in garment.pieces)
    return replace(garment, pieces=pieces, unwashed=True)


def shrinkage_notes(garment: Garment, across: float, down: float) -> list[Note]:
    """What to know before sewing: seams whose sides differ until they are washed, and folds that would open crooked."""
    notes = [note for piece in garment.pieces for note in _crooked(piece)]
    for walked in walk_seams(before_washing(garment, across, down)):
        off = np.abs(walked.difference)
        if np.any(off > SEEN):
            worst = worst_of(off)
            longer, other = (walked.join.first, walked.join.second)[:: 1 if walked.difference[worst] > 0 else -1]
            sides = [" and ".join(f"`{part.piece}.{part.edge}`" for part in side) for side in (longer, other)]
            fact = f"until it is washed, one side of `{walked.join.name}` is longer: {sides[0]} than {sides[1]}"
            figure = f"at worst by {off[worst]:.1f} mm ({garment.sizes[worst]})"
            fix = "sew them end to end all the same: they come out even in the wash"
            plainly = sentence("wash_evens_out", seam=walked.join.name, off=mm(off[worst]))
            notes.append(remark(fact, walked.join.span, figure, fix, plainly=plainly))
    return notes


def _crooked(piece: Piece) -> list[Note]:
    notes = []
    for edge in piece.edges:
        if edge.on_fold:
            lean = np.abs(np.sum(end_directions(edge.segments)[0] * piece.grain, axis=-1))
            aslant = np.minimum(lean, 1 - lean) > ASLANT
            if aslant.any():
                fact = f"the fold of `{plain(piece.name)}` runs aslant to the grain, so it cannot be cut before washing"
                plainly = sentence("fold_off_grain", piece=piece.name)
                notes.append(
                    error(fact, edge.span, "wash the cloth first, and leave out `--unwashed`", plainly=plainly)
                )
    return notes


def _growing(piece: Piece, across: float, down: float) -> Grow:
    """Where points `(bodies, ..., 2)` of a piece lie before the wash."""
    along = piece.grain
    beside = np.stack([-along[:, 1], along[:, 0]], axis=-1)
    more_down, more_across = 1 / (1 - down) - 1, 1 / (1 - across) - 1

    def grow(points: Floats) -> Floats:
        shape = (len(along), *[1] * (points.ndim - 2), 2)
        g, n = along.reshape(shape), beside.reshape(shape)
        lengthwise = np.sum(points * g, axis=-1, keepdims=True) * g
        crosswise = np.sum(points * n, axis=-1, keepdims=True) * n
        return np.asarray(points + more_down * lengthwise + more_across * crosswise)

    return grow


def _grown(piece: Piece, across: float, down: float) -> Piece:
    grow = _growing(piece, across, down)
    edges = tuple(replace(edge, segments=grow(edge.segments)) for edge in piece.edges)
    return replace(
        piece,
        edges=edges,
        notches=tuple(_notch(piece, notch, edges, grow) for notch in piece.notches),
        takeups=tuple(_takeup(piece, takeup, edges, grow) for takeup in piece.takeups),
        marks=tuple(_mark(mark, grow) for mark in piece.marks),
        inner_darts=tuple(_inner(dart, grow) for dart in piece.inner_darts),
    )


def _mark(mark: Mark, grow: Grow) -> Mark:
    return replace(mark, points=grow(mark.points))


def _inner(dart: InnerDart, grow: Grow) -> InnerDart:
    wide = grow(dart.way * dart.width[:, None])
    width = np.linalg.norm(wide, axis=-1)
    way = wide / np.maximum(width, 1e-9)[:, None]
    return replace(dart, at=grow(dart.at), to=grow(dart.to), other=grow(dart.other), way=way, width=width)


def _notch(piece: Piece, notch: Notch, edges: tuple[Edge, ...], grow: Grow) -> Notch:
    there = np.isfinite(notch.at)
    at = _along(piece, notch.edge, np.where(there, notch.at, 0.0), edges, grow)
    return replace(notch, at=np.where(there, at, np.nan))


def _takeup(piece: Piece, takeup: Takeup, edges: tuple[Edge, ...], grow: Grow) -> Takeup:
    """A dart or pleat: its two legs found again on the edge, its point moved; a pleat is folded for as much longer."""
    first, last = (_along(piece, takeup.edge, takeup.at + way * takeup.width / 2, edges, grow) for way in (-1, 1))
    to = None if takeup.to is None else grow(takeup.to)
    length = takeup.length
    if length is not None:
        inside = _inwards(piece, takeup)
        length = np.linalg.norm(grow(inside * length[:, None]), axis=-1)
    wide = last - first
    return _bowed(replace(takeup, at=(first + last) / 2, width=wide, to=to, length=length), takeup.width)


def _bowed(takeup: Takeup, before: Floats) -> Takeup:
    """The dart with its legs bowed by as much more as it is wider than `before`, mm `(bodies,)`."""
    more = takeup.width / np.maximum(before, 1e-9)
    first, last, together = (
        None if bow is None else bow * more for bow in (takeup.bow_first, takeup.bow_last, takeup.bow_together)
    )
    return replace(takeup, bow_first=first, bow_last=last, bow_together=together)


def _inwards(piece: Piece, takeup: Takeup) -> Floats:
    """The way `(bodies, 2)` in which a pleat is folded: square to its edge."""
    edge = piece.edge(takeup.edge)
    step = point_at(edge.segments, takeup.at + 0.5) - point_at(edge.segments, takeup.at - 0.5)
    size = np.maximum(np.linalg.norm(step, axis=-1, keepdims=True), 1e-9)
    return np.asarray(np.stack([-step[:, 1], step[:, 0]], axis=-1) / size)


def _along(piece: Piece, name: str, at: Floats, edges: tuple[Edge, ...], grow: Grow) -> Floats:
    """Where on the grown edge a place lies that was `at` mm along the drafted one."""
    place = grow(point_at(piece.edge(name).segments, at))
    grown = next(edge for edge in edges if edge.name == name)
    return nearest_place(grown.segments, place)[0]
