"""The fold of a piece on paper: its line, and the bracket that says to lay it on the fold of the cloth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.geometry import cubic
from draft.geometry.outline_parts import on_line
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Item, Path
from draft.paper.drawing.wording import Wording
from draft.paper.piece.fold_bracket import fold_bracket
from draft.paper.piece.opened import stopped
from draft.paper.piece.piece_lines import Outlines, ShownLines
from draft.paper.piece.shared_folds import from_inside
from draft.paper.piece.surface import Surface


def fold_drawn(
    outlines: Sequence[Outlines], lines: ShownLines, shape: Any, wording: Wording, surface: Surface
) -> tuple[list[Item], Any]:
    """The fold line as long as the longest size's, and the bracket along what all sizes share of it."""
    piece = outlines[0].piece
    edge = next(edge for edge in piece.edges if edge.on_fold)
    ends = [one.fold for one in outlines if one.fold]
    start, along = ends[0][0], cubic.unit(ends[0][1] - ends[0][0])
    sewn = [_reach(along, start, np.array(end)) for end in ends]
    drawn = [_reach(along, start, _on_fold(one, lines)) for one in outlines]
    line = cubic.line(start + along * min(a for a, _ in drawn), start + along * max(b for _, b in drawn))
    inside = cubic.right_of(along)
    middle = np.array(outlines[0].sewing_shape.centroid.coords[0])
    inside = inside if cubic.dot(inside, middle - start) > 0 else -inside
    low, high = max(a for a, _ in sewn), min(b for _, b in sewn)
    ends_of_all = start + along * low, start + along * high
    bracket, taken = fold_bracket(*ends_of_all, inside, shape, wording, surface)
    data = (("piece", piece.name), ("edge", edge.name), ("source", edge.span.beside))
    stroke = line_styles.MIDDLE if surface.opened else line_styles.FOLD
    return [Path((line[None],), stroke, id=f"{piece.name}.{edge.name}", data=data), *bracket], taken


def fold_by_size(outlines: Sequence[Outlines], lines: ShownLines, line: Item, words: Sequence[Item]) -> list[Path]:
    """What each size has of the fold line of all; where it is stopped for `words`, without what runs through them."""
    assert isinstance(line, Path)
    ends = [one.fold for one in outlines if one.fold]
    start, along = ends[0][0], cubic.unit(ends[0][1] - ends[0][0])
    reaches = [_reach(along, start, _on_fold(one, lines)) for one in outlines]
    common = max(low for low, _ in reaches), min(high for _, high in reaches)
    found = []
    for one, own in zip(outlines, reaches, strict=True):
        runs = tuple(
            cubic.lines_through(np.stack([start + at * along for at in run])) for run in from_inside(own, common)
        )
        data = (*line.data, ("size", one.size))
        found.append(stopped(replace(line, runs=runs, id=f"{line.id}.{one.size}", data=data), words))
    return found


def _on_fold(one: Outlines, lines: ShownLines) -> Floats:
    """The points `(n, 2)` at which the drawn outline lies on the fold."""
    assert one.fold
    segments = one.sewing if lines == "sewing" else one.cutting
    on_fold = segments[on_line(segments, *one.fold)]
    return np.concatenate([np.array(one.fold), on_fold[:, [0, 3]].reshape(-1, 2)])


def _reach(along: Floats, start: Floats, points: Floats) -> tuple[float, float]:
    reach = cubic.dot(along, points - start)
    return float(reach.min()), float(reach.max())
