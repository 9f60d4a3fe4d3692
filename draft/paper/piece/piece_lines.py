"""The lines of a piece in one size: where it is cut, where it is sewn, and its notches, each edge by its name."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, lru_cache
from typing import Any, Literal, TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, InnerDart, Notch, Piece, Takeup
from draft.geometry import cubic
from draft.geometry.area import outline_area
from draft.geometry.flatten import polyline
from draft.geometry.outline_parts import kept_runs, on_line, parted_at_corners
from draft.geometry.ruler import Ruler
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Item, Path, Stroke
from draft.paper.drawing.polygons import polygon
from draft.paper.piece.notch_lines import strokes, strokes_at
from draft.seams.allowance import cutting_line, sewing_line

ShownLines: TypeAlias = Literal["both", "cutting", "sewing"]
Strokes: TypeAlias = tuple[tuple[int, Floats], ...]
"""Notches by their number in the piece: the strokes of each `(n, 1, 4, 2)`, y up."""

FLIP = np.array([1.0, -1.0])
"""Pieces are drafted with y up, paper has y down."""
_CORNER_REACH = 3.0
"""A corner of the cutting line is sought within this many allowances of the seam's corner: a longer spike is cut."""


@dataclass(frozen=True)
class Outlines:
    """A piece in one size, on paper: its outlines as segments `(n, 4, 2)` with y down, and the shapes they enclose."""

    piece: Piece
    body: int
    size: str
    sewing: Floats
    cutting: Floats

    @classmethod
    def of(cls, garment: Garment, piece: Piece, body: int) -> Outlines:
        """The outlines of the piece for the size at `body`."""
        return cls.named(garment.sizes[body], piece, body)

    @classmethod
    def named(cls, size: str, piece: Piece, body: int) -> Outlines:
        """The outlines of the piece for the body at `body`, whose size has this name."""
        return cls(piece, body, size, *_lines_of(piece, body))

    @cached_property
    def sewing_shape(self) -> Any:
        """What is sewn, as a shapely shape."""
        return polygon(self.sewing)

    @cached_property
    def cutting_shape(self) -> Any:
        """What is cut, as a shapely shape."""
        return polygon(self.cutting)

    @cached_property
    def cutting_ring(self) -> Any:
        """The cutting line as a shapely ring, y up as the piece was drafted."""
        import shapely

        return shapely.LinearRing(polyline(self.cutting) * FLIP)

    @cached_property
    def outward(self) -> float:
        """1 where the drafted outline runs counterclockwise, so that outside is on its right; else -1."""
        return 1.0 if outline_area(self.sewing * FLIP) > 0 else -1.0

    @cached_property
    def fold(self) -> tuple[Floats, Floats] | None:
        """Both ends `(2,)` of the sewn fold, or None."""
        edge = next((edge for edge in self.piece.edges if edge.on_fold), None)
        return cubic.ends(edge.segments[self.body] * FLIP) if edge else None

    @cached_property
    def cutting_edges(self) -> tuple[tuple[Edge, Floats], ...]:
        """The cutting line edge by edge `(n, 4, 2)`, without the fold; under one name where it has no clear corners."""
        edges = self.piece.edges
        corners = np.array([edge.segments[self.body, 0, 0] for edge in edges]) * FLIP
        reach = max(1.0, _CORNER_REACH * max(edge.allowance for edge in edges))
        lines = parted_at_corners(self.cutting, corners, reach)
        if lines is not None:
            return tuple((e, line) for e, line in zip(edges, lines, strict=True) if not e.on_fold)
        first = next((edge for edge in edges if not edge.on_fold), edges[0])
        keep = ~on_line(self.cutting, *self.fold) if self.fold else np.ones(len(self.cutting), dtype=bool)
        return tuple((first, run) for run in kept_runs(self.cutting, keep))

    @cached_property
    def cutting_rulers(self) -> tuple[Ruler, ...]:
        """For measuring along each of `cutting_edges`."""
        return tuple(Ruler(line) for _, line in self.cutting_edges)

    @cached_property
    def _sewing_rulers(self) -> dict[str, Ruler]:
        return {}

    def sewing_ruler(self, edge: str) -> Ruler:
        """For measuring along the sewing line of an edge, y up."""
        if edge not in self._sewing_rulers:
            self._sewing_rulers[edge] = Ruler(self.piece.edge(edge).segments[self.body])
        return self._sewing_rulers[edge]

    @cached_property
    def notch_strokes(self) -> Strokes:
        """The notches that this size has."""
        shown = [(k, n) for k, n in enumerate(self.piece.notches) if np.isfinite(n.at[self.body])]
        if not shown:
            return ()
        ends = np.cumsum([notch.strokes for _, notch in shown])[:-1]
        parts = np.split(_strokes(self, [notch for _, notch in shown]), ends)
        return tuple((number, part) for (number, _), part in zip(shown, parts, strict=True))

    def has(self, takeup: Takeup | InnerDart) -> bool:
        """Whether a dart or pleat takes up anything in this size."""
        known = np.isfinite(takeup.at[self.body]).all() and np.isfinite(takeup.width[self.body])
        return bool(known and takeup.width[self.body] > 0)

    def data(self, edge: str, span: Span) -> tuple[tuple[str, str], ...]:
        """What an item says of itself: piece, edge, size and where it was written."""
        return (("piece", self.piece.name), ("edge", edge), ("size", self.size), ("source", span.beside))


@lru_cache(maxsize=256)  # a garment of ten pieces in twenty sizes
def _lines_of(piece: Piece, body: int) -> tuple[Floats, Floats]:
    return sewing_line(piece, body) * FLIP, cutting_line(piece, body) * FLIP


def line_items(one: Outlines, index: int, end: str, lines: ShownLines, notches: Strokes) -> list[Item]:
    """All lines of one size, the size at `index` of those that are drawn together; `end` closes each id."""
    return [*_sewing(one, index, end, lines), *_cutting(one, index, end, lines), *_notches(one, index, end, notches)]


def _sewing(one: Outlines, index: int, end: str, lines: ShownLines) -> list[Path]:
    if lines == "cutting":
        return []
    style = line_styles.sewing_stroke(index) if lines == "both" else line_styles.cutting_stroke(index)
    edges = [edge for edge in one.piece.edges if not edge.on_fold]
    return [_edge(one, edge, edge.segments[one.body] * FLIP, one.sewing_ruler(edge.name), style, end) for edge in edges]


def _cutting(one: Outlines, index: int, end: str, lines: ShownLines) -> list[Path]:
    if lines == "sewing":
        return []
    style, edges = line_styles.cutting_stroke(index), zip(one.cutting_edges, one.cutting_rulers, strict=True)
    return [_edge(one, edge, line, ruler, style, f".cut{end}") for (edge, line), ruler in edges]


def _edge(one: Outlines, edge: Edge, segments: Floats, ruler: Ruler, style: Stroke, end: str) -> Path:
    stroke = line_styles.evenly_dashed(style, ruler.length)
    name = f"{one.piece.name}.{edge.name}{end}"
    return Path((segments,), stroke, id=name, data=one.data(edge.name, edge.span))


def _notches(one: Outlines, index: int, end: str, notches: Strokes) -> list[Path]:
    stroke = line_styles.sign_stroke(line_styles.cutting_stroke(index).colour)
    found = []
    for number, strokes_of in notches:
        notch = one.piece.notches[number]
        name = f"{one.piece.name}.{notch.edge}.notch{number + 1}{end}"
        found.append(Path(tuple(strokes_of * FLIP), stroke, id=name, data=one.data(notch.edge, notch.span)))
    return found


def _strokes(one: Outlines, notches: Sequence[Notch]) -> Floats:
    """The strokes of all these notches, one after another, `(n, 1, 4, 2)`, y up."""
    places = [one.sewing_ruler(notch.edge).place_each(strokes_at(notch, one.body)) for notch in notches]
    points, directions = (np.concatenate(part) for part in zip(*places, strict=True))
    widths = [one.piece.edge(notch.edge).allowance for notch in notches]
    allowances = np.repeat(widths, [notch.strokes for notch in notches])
    return strokes(points, directions, allowances, one.cutting_ring, one.outward)
