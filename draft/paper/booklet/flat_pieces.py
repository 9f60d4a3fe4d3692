"""Small drawings of pieces as they lie on the table, opened out, with what a step works on as thick lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Edge, InnerDart, Mark, Piece, Takeup
from draft.garment.marks import dart_legs, inner_legs, places
from draft.geometry.cubic import cross, ends, lines_through, norm, unit
from draft.geometry.ruler import Ruler
from draft.paper.booklet.set_blocks import SIDE, TALLEST, Block
from draft.paper.drawing.drawing import Item, Path, Stroke, circle

FLIP = np.array([1.0, -1.0])
_GAP = 2.5
_BUTTON = 0.8  # mm, its ring on the drawing
_ALIKE = 0.05
"""Edges and the parts of a line are the same where their lengths differ by less than this share in all."""


def pieces_drawn(
    outlines: Mapping[str, Floats], thick: Mapping[str, Sequence[Floats]], line: Stroke, seam: Stroke, fill: str
) -> Block:
    """Pieces side by side at one scale: their outlines `(n, 4, 2)` and thick lines by their names, mm, y down."""
    boxes = {name: _box(path) for name, path in outlines.items()}
    wide = sum(float(high[0] - low[0]) for low, high in boxes.values())
    tall = max(float(high[1] - low[1]) for low, high in boxes.values())
    scale = min((SIDE - _GAP * (len(outlines) - 1)) / wide, TALLEST / tall)
    items, x = list[Item](), 0.0
    for name, path in outlines.items():
        low, high = boxes[name]
        moved = np.array([x, 0.0])
        items.append(Path(((path - low) * scale + moved,), line, fill, closed=True))
        if runs := tuple((run - low) * scale + moved for run in thick.get(name, ())):
            items.append(Path(runs, seam))
        x += float(high[0] - low[0]) * scale + _GAP
    return Block(tuple(items), tall * scale)


def _box(path: Floats) -> tuple[Floats, Floats]:
    points = path.reshape(-1, 2)
    return points.min(axis=0), points.max(axis=0)


def on_both_halves(piece: Piece, body: int, runs: Sequence[Floats]) -> list[Floats]:
    """Lines of half a piece `(n, 4, 2)`, y up, and those over its fold; of a whole piece its own; then y down."""
    fold = next((edge for edge in piece.edges if edge.on_fold), None)
    found = list(runs)
    if fold is not None:
        start, end = ends(fold.segments[body])
        along = unit(end - start)
        normal = np.array([-along[1], along[0]])
        found += [run - 2 * cross(along, run - start)[..., None] * normal for run in runs]
    return [run * FLIP for run in found]


def _unlike(way: Sequence[tuple[Edge, float]], parts: Sequence[float]) -> float:
    """By how much the edges of a piece and the parts of a line differ in length, in all."""
    return sum(abs(own - part) for (_, own), part in zip(way, parts, strict=True))


def stitched_runs(patch: Piece, line: Floats, body: int) -> list[Floats]:
    """Those lines `(1, 4, 2)` along marked points `(n, 2)` on which a piece is stitched: not where it is hemmed.

    Where the line does not go round the piece edge by edge it is drawn whole.
    """
    fold = next((k for k, edge in enumerate(patch.edges) if edge.on_fold), -1)
    edges = [*patch.edges[fold + 1 :], *patch.edges[: max(fold, 0)]]
    long = [float(norm(edge.segments[body, -1, 3] - edge.segments[body, 0, 0])) for edge in edges]
    parts = [float(norm(b - a)) for a, b in pairwise(line)]
    runs = [lines_through([a, b]) for a, b in pairwise(line)]
    if len(edges) != len(parts):
        return runs
    whole = list(zip(edges, long, strict=True))
    ways = (whole, whole[::-1])  # the line may be marked the other way about
    order = min(ways, key=lambda way: _unlike(way, parts))
    if _unlike(order, parts) > _ALIKE * sum(parts):
        return runs
    return [run for run, (edge, _) in zip(runs, order, strict=True) if not edge.turned_up]


def inner_lines(dart: InnerDart, body: int) -> list[Floats]:
    """The four legs of a dart inside a piece, `(1, 4, 2)` each, y up; none for a body without it."""
    if not np.isfinite(dart.at[body]).all() or dart.width[body] <= 0:
        return []
    return inner_legs(dart, body)


def takeup_lines(piece: Piece, takeup: Takeup, body: int) -> list[Floats]:
    """The two legs of a dart, or the two lines of a pleat, `(1, 4, 2)` each, y up; none for a body without it."""
    at, half = float(takeup.at[body]), float(takeup.width[body]) / 2
    if not np.isfinite([at, half]).all() or half <= 0:
        return []
    ruler = Ruler(piece.edge(takeup.edge).segments[body])
    mouths = [ruler.place(at + way * half) for way in (-1, 1)]
    if takeup.to is not None:
        return dart_legs(takeup, np.stack([point for point, _ in mouths]), body)
    deep = float(takeup.length[body]) if takeup.length is not None else 10.0
    middle = np.mean([edge.segments[body, :, 0].mean(axis=0) for edge in piece.edges], axis=0)
    found = []
    for point, way in mouths:
        into = np.array([-way[1], way[0]])
        into = into if float(np.dot(middle - point, into)) > 0 else -into
        found.append(lines_through([point, point + into * deep]))
    return found


def mark_lines(mark: Mark, body: int) -> list[Floats]:
    """A buttonhole as a line `(1, 4, 2)`, a button or snap as a ring `(n, 4, 2)`, y up."""
    points = places(mark, body)
    if mark.fastening == "buttonhole" and mark.length is not None and mark.way is not None:
        long = mark.way[body] * float(mark.length[body])
        return [lines_through([point, point + long]) for point in points]
    return [circle(float(x), float(y), _BUTTON * 10) for x, y in points]
