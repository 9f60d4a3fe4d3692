"""Two halves of a piece that differ, each drafted on the fold, put together there into one piece."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Edge, Mark, Notch, Piece, Takeup
from draft.garment.reflected import about, reflected, run_back
from draft.geometry.ends import end_directions
from draft.geometry.length import length

Line = TypeVar("Line", Notch, Takeup)

RUNS_ON = 0.9998  # the cosine of a degree: an edge that bends less where the fold was is one edge
SAME = 0.5  # mm: marks of both halves that lie as near to one another are one
WORDS_LONG = 30.0  # mm: the line beside which it stands whose half this is


def opened(near: Piece, far: Piece, near_side: str, far_side: str) -> Piece:
    """The half `near` as it is drawn and the half `far` turned over beside it, of one body each.

    Edges that the fold ended run on across it; of all others there are two, named by their sides.
    """
    fold = next(edge for edge in near.edges if edge.on_fold)
    ends = fold.segments[0, (0, -1), (0, 3)]
    along = (ends[1] - ends[0]) / max(float(np.linalg.norm(ends[1] - ends[0])), 1e-9)
    middle = [np.mean([one.segments[0, k, j] for one in (fold, _fold(far))], axis=0) for k, j in ((0, 0), (-1, 3))]
    turned = run_back(reflected(far, *about(ends[0], along)))
    halves = [
        _named(_brought(_after_fold(near), middle[1], middle[0]), near_side),
        _named(_brought(_after_fold(turned), middle[0], middle[1]), far_side),
    ]
    return _with_sides_told(_run_on(halves, near, middle), halves, (near_side, far_side))


def _fold(piece: Piece) -> Edge:
    return next(edge for edge in piece.edges if edge.on_fold)


def _after_fold(piece: Piece) -> Piece:
    """The piece without its fold, its edges from where that ends."""
    at = next(k for k, edge in enumerate(piece.edges) if edge.on_fold)
    return replace(piece, edges=(*piece.edges[at + 1 :], *piece.edges[:at]))


def _brought(piece: Piece, start: Floats, end: Floats) -> Piece:
    """The open half with its ends where both halves meet: what is a hair elsewhere runs out along an edge."""
    first, last = piece.edges[0], piece.edges[-1]
    moved = {first.name: _ended(first.segments, start, at_start=True)}
    moved[last.name] = _ended(moved.get(last.name, last.segments), end, at_start=False)
    return replace(
        piece, edges=tuple(replace(edge, segments=moved.get(edge.name, edge.segments)) for edge in piece.edges)
    )


def _ended(segments: Floats, to: Floats, at_start: bool) -> Floats:
    count = segments.shape[1]
    place = (np.arange(count)[:, None] + np.array([0.0, 0.0, 1.0, 1.0])) / count
    share = 1.0 - place if at_start else place
    by = to - (segments[0, 0, 0] if at_start else segments[0, -1, 3])
    return np.asarray(segments + (share**2 * (3 - 2 * share))[None, :, :, None] * by)


def _named(piece: Piece, side: str) -> Piece:
    """The half with its edges, and what lies on them, called by their side."""
    edges = tuple(replace(edge, name=_of(edge.name, side), whole=edge.whole or edge.name) for edge in piece.edges)
    notches = tuple(replace(notch, edge=_of(notch.edge, side)) for notch in piece.notches)
    takeups = tuple(replace(takeup, edge=_of(takeup.edge, side)) for takeup in piece.takeups)
    return replace(piece, edges=edges, notches=notches, takeups=takeups)


def _of(name: str, side: str) -> str:
    return f"{name}, {side}"


def _run_on(halves: list[Piece], drafted: Piece, middle: list[Floats]) -> Piece:
    near, far = halves
    edges = [*near.edges, *far.edges]
    notches, takeups = [*near.notches, *far.notches], [*near.takeups, *far.takeups]
    pairs = [(near.edges[-1], far.edges[0]), (far.edges[-1], near.edges[0])]
    for before, after in pairs if len(near.edges) > 1 else ():
        if _smooth(before, after):
            name, long = before.whole, length(before.segments)
            both = replace(
                before,
                name=name,
                whole="",
                segments=np.concatenate([before.segments, after.segments], axis=1),
                ends=(before.ends[0], after.ends[1]),
                end_corner=after.end_corner,
                elastic=None if before.elastic is None or after.elastic is None else before.elastic + after.elastic,
            )
            edges = [both if edge is before else edge for edge in edges if edge is not after]
            notches = [_moved(notch, before, after, name, long) for notch in notches]
            takeups = [_moved(takeup, before, after, name, long) for takeup in takeups]
    centre = Mark(drafted.span, "centre", False, np.stack(middle)[None], words="centre")
    marks = [*near.marks, *(mark for mark in far.marks if not _there(mark, near))]
    return replace(
        drafted,
        edges=tuple(edges),
        notches=tuple(notches),
        takeups=tuple(replace(one, from_fold=None, to_fold=None) for one in takeups),
        marks=(*marks, centre),
        inner_darts=(*near.inner_darts, *far.inner_darts),
        stretches=drafted.stretches,
    )


def _smooth(before: Edge, after: Edge) -> bool:
    arriving, leaving = end_directions(before.segments)[1], end_directions(after.segments)[0]
    return before.whole == after.whole and float(np.sum(arriving * leaving)) > RUNS_ON


def _moved(line: Line, before: Edge, after: Edge, name: str, long: Floats) -> Line:
    if line.edge == before.name:
        return replace(line, edge=name)
    return replace(line, edge=name, at=line.at + long) if line.edge == after.name else line


def _there(mark: Mark, near: Piece) -> bool:
    """Whether the other half bears it too: a level, a line to lengthen at, or what lies on the fold."""
    if mark.line in ("level", "lengthen"):
        return any(one.name == mark.name for one in near.marks)
    same = [one for one in near.marks if one.name == mark.name and one.points.shape == mark.points.shape]
    return any(bool(np.all(np.abs(one.points - mark.points) < SAME)) for one in same)


def _with_sides_told(piece: Piece, halves: list[Piece], sides: tuple[str, str]) -> Piece:
    """The piece with a short line in each half, beside which stands whose it is."""
    told = []
    for half, side in zip(halves, sides, strict=True):
        points = np.concatenate([edge.segments[0, :, (0, 3)].reshape(-1, 2) for edge in half.edges])
        low, high = points.min(axis=0), points.max(axis=0)
        at = low + (high - low) * np.array([0.5, 0.42])
        ends = at + np.array([[-WORDS_LONG / 2, 0.0], [WORDS_LONG / 2, 0.0]])
        told.append(Mark(piece.span, side, False, ends[None], words=side))
    return replace(piece, marks=(*piece.marks, *told))
