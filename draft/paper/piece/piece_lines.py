"""The lines of a piece in one size: where it is cut, where it is sewn, and its notches, each edge by its name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace
from typing import Any, Literal, TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, InnerDart, Piece, Takeup
from draft.geometry.cubic import lines_through
from draft.geometry.ruler import Ruler
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Item, Path, Stroke
from draft.paper.piece.sized_lines import FLIP, SizedLines, sized_lines

__all__ = ["FLIP", "Outlines", "ShownLines", "Strokes", "line_items", "outlines_of"]

ShownLines: TypeAlias = Literal["both", "cutting", "sewing"]
Strokes: TypeAlias = tuple[tuple[int, Floats], ...]
"""Notches by their number in the piece: the strokes of each `(n, 1, 4, 2)`, y up."""


@dataclass(frozen=True)
class Outlines:
    """A piece in one size, on paper: its outlines as segments `(n, 4, 2)` with y down, and the shapes they enclose."""

    piece: Piece
    body: int
    size: str
    together: SizedLines = field(compare=False, repr=False)
    """The lines of all sizes that it is drawn with."""
    number: int
    """Which of these it is."""

    @classmethod
    def of(cls, garment: Garment, piece: Piece, body: int) -> Outlines:
        """The outlines of the piece for the size at `body`."""
        return cls.named(garment.sizes[body], piece, body)

    @classmethod
    def named(cls, size: str, piece: Piece, body: int) -> Outlines:
        """The outlines of the piece for the body at `body`, whose size has this name."""
        return cls(piece, body, size, sized_lines(piece, (body,)), 0)

    @property
    def sewing(self) -> Floats:
        """Where it is sewn `(n, 4, 2)`."""
        return self.together.sewing[self.number]

    @property
    def cutting(self) -> Floats:
        """Where it is cut `(n, 4, 2)`."""
        return self.together.cutting[self.number]

    @property
    def sewing_shape(self) -> Any:
        """What is sewn, as a shapely shape."""
        return self.together.sewing_shapes[self.number]

    @property
    def cutting_shape(self) -> Any:
        """What is cut, as a shapely shape."""
        return self.together.cutting_shapes[self.number]

    @property
    def cutting_ring(self) -> Any:
        """The cutting line as a shapely ring, y up as the piece was drafted."""
        return self.together.cutting_rings[self.number]

    @property
    def outward(self) -> float:
        """1 where the drafted outline runs counterclockwise, so that outside is on its right; else -1."""
        return float(self.together.outward[self.number])

    @property
    def fold(self) -> tuple[Floats, Floats] | None:
        """Both ends `(2,)` of the sewn fold, or None."""
        return self.together.folds[self.number]

    @property
    def cutting_edges(self) -> tuple[tuple[Edge, Floats], ...]:
        """The cutting line edge by edge `(n, 4, 2)`, without the fold; under one name where it has no clear corners."""
        return self.together.cutting_edges[self.number]

    @property
    def cutting_rulers(self) -> tuple[Ruler, ...]:
        """For measuring along each of `cutting_edges`."""
        return self.together.cutting_rulers[self.number]

    def sewing_ruler(self, edge: str) -> Ruler:
        """For measuring along the sewing line of an edge, y up."""
        return self.together.sewing_rulers(edge)[self.number]

    @property
    def notch_strokes(self) -> Strokes:
        """The notches that this size has."""
        return self.together.notch_strokes[self.number]

    def has(self, takeup: Takeup | InnerDart) -> bool:
        """Whether a dart or pleat takes up anything in this size."""
        known = np.isfinite(takeup.at[self.body]).all() and np.isfinite(takeup.width[self.body])
        return bool(known and takeup.width[self.body] > 0)

    def data(self, edge: str, span: Span) -> tuple[tuple[str, str], ...]:
        """What an item says of itself: piece, edge, size and where it was written."""
        return (("piece", self.piece.name), ("edge", edge), ("size", self.size), ("source", span.beside))


def outlines_of(piece: Piece, sizes: Sequence[tuple[str, int]]) -> tuple[Outlines, ...]:
    """The outlines of a piece for some sizes, each by its name and its body: quicker than one by one."""
    together = sized_lines(piece, tuple(body for _, body in sizes))
    return tuple(Outlines(piece, body, size, together, number) for number, (size, body) in enumerate(sizes))


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
        if end and len(strokes_of) > 1:  # in a nest two of one size are told from those of others by what joins them
            tie = replace(stroke, width=line_styles.FINE)
            name = f"{one.piece.name}.{notch.edge}.pair{number + 1}{end}"
            found.append(Path((lines_through(strokes_of[:, 0, 3] * FLIP),), tie, id=name))
    return found
