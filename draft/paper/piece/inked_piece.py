"""The lines of a piece for one size or several, and what room they leave: whatever page they come to lie on.

Given: a piece, the names of sizes and which bodies they are. Gives: the lines of each, and shapes clear of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, lru_cache
from typing import Any, TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Piece
from draft.geometry.flatten import polyline_each
from draft.geometry.ruler import Ruler
from draft.paper.drawing.drawing import Item, Path
from draft.paper.drawing.room import Room
from draft.paper.piece import piece_lines, piece_marks, tags, takeups
from draft.paper.piece.across_lines import lengthening
from draft.paper.piece.clips import clip_items
from draft.paper.piece.covered import run_shapes
from draft.paper.piece.level_places import LevelPlaces
from draft.paper.piece.opened import Fold, turned_over_shape, whole_room
from draft.paper.piece.piece_lines import FLIP, Outlines, ShownLines, outlines_of
from draft.paper.piece.shared_folds import fold_lines
from draft.paper.piece.together import Together

WORDS_IN = 3.0
"""Words keep this many mm away from every line."""
_HEM_WORDS_IN = 1.5
"""The name of a hem so many from a cutting line."""
_ON_IT = 0.02
"""Lines no deeper inside an outline than this many mm are its own."""

_COARSE = 0.1
"""A line with so many mm fewer bends keeps words off as well, and is sooner looked at."""

Sizes: TypeAlias = tuple[tuple[str, int], ...]
"""The sizes that are drawn: the name of each, and which of the piece's bodies it is."""


@dataclass(frozen=True)
class Inked:
    """The lines of a piece: what they are does not hang on pages or words."""

    together: Together
    sized: tuple[tuple[Item, ...], ...]
    lines: ShownLines
    crossed: frozenset[str]
    """Darts whose legs are not drawn whole."""

    @property
    def outlines(self) -> tuple[Outlines, ...]:
        """The outlines of all sizes."""
        return self.together.outlines

    @property
    def piece(self) -> Piece:
        return self.outlines[0].piece

    @cached_property
    def inside(self) -> Any:
        """What lies inside the sewing lines of all sizes."""
        return self.outlines[0].together.sewn_of_all

    @cached_property
    def room(self) -> Room:
        """What lies inside the sewing lines of all sizes and clear of every line."""
        return Room(self.inside.buffer(-WORDS_IN)).without(self.about_lines)

    def room_off(self, distance: float) -> Room:
        """The same, so many mm from every line."""
        return Room(self.inside.buffer(-distance)).without(self._about(distance, self.line_shapes))

    @cached_property
    def hem_room(self) -> Any:
        """What lies within the cutting lines of all sizes, where nothing else is drawn round them; else None."""
        import shapely

        if self.lines != "cutting":
            return None
        return shapely.intersection_all([one.cutting_shape for one in self.outlines]).buffer(-_HEM_WORDS_IN)

    @cached_property
    def about_lines(self) -> Any:
        """What lies too near to a line within the outlines for words."""
        return self._about(WORDS_IN, self.line_shapes)

    def _about(self, distance: float, lines: Sequence[Any]) -> Any:
        import shapely

        within = self.inside.buffer(-_ON_IT)  # the outline's own lines lie on it
        shapely.prepare(within)
        near = np.array(lines)[shapely.intersects(within, lines)]
        crossing = ~shapely.contains(within, near)
        near[crossing] = shapely.intersection(near[crossing], within)
        return shapely.buffer(shapely.geometrycollections(shapely.simplify(near, _COARSE)), distance, quad_segs=2)

    def whole_room(self, fold: Fold) -> Room:
        """The room of a piece that is shown whole, its fold being no line."""
        whole = whole_room(self.inside.buffer(-WORDS_IN), fold)
        other = turned_over_shape(self._about(WORDS_IN, self._on_both), fold)
        return Room(whole.difference(self.about_lines).difference(other))

    def turned_over(self, fold: Fold) -> tuple[Any, ...]:
        """The lines on the other half of a piece that is shown whole, as shapes: levels are on the one alone."""
        return tuple(turned_over_shape(shape, fold) for shape in self._on_both)

    @cached_property
    def _on_both(self) -> list[Any]:
        drawn = (item for items in self.sized for item in items if isinstance(item, Path) and item.id not in self.once)
        return run_shapes(drawn)

    @cached_property
    def once(self) -> frozenset[str]:
        """What a piece that is shown whole has on one half alone, by ids: where a level lies is seen there as well."""
        levels = [mark.name for mark in self.piece.marks if mark.line == "level"]
        ends = [f".{one.size}" if self.together.is_nest else "" for one in self.outlines]
        return frozenset(f"{self.piece.name}.{name}{end}" for name in levels for end in ends)

    @cached_property
    def line_shapes(self) -> tuple[Any, ...]:
        """The lines of all sizes as shapes, for keeping words off them."""
        drawn = (item for items in self.sized for item in items if isinstance(item, Path))
        return tuple(run_shapes(drawn))

    @cached_property
    def tagged_lines(self) -> tuple[tuple[Floats, ...], ...]:
        """The lines `(n, 4, 2)` of each size that bear its name."""
        return tuple(tuple(_tagged_lines(one, self.lines)) for one in self.outlines)

    @property
    def tagged_rulers(self) -> tuple[tuple[Ruler, ...], ...]:
        """For measuring along each of the tagged lines."""
        if self.lines == "sewing":
            return tuple(tuple(map(Ruler, lines)) for lines in self.tagged_lines)
        return tuple(one.cutting_rulers for one in self.outlines)

    @cached_property
    def other_lines(self) -> tuple[Any, ...]:
        """For each size the lines of all others, as one shape."""
        return tags.without_each([polyline_each(lines) for lines in self.tagged_lines])


@lru_cache(maxsize=128)  # ten pieces in ten sizes, and their nests
def inked_piece(piece: Piece, sizes: Sizes, lines: ShownLines, levels: LevelPlaces) -> Inked:
    """The lines of a piece in these sizes, its levels at these places."""
    together = Together(outlines_of(piece, sizes), levels)
    crossed = takeups.crossing(together.outlines)
    ends = [f".{one.size}" if together.is_nest else "" for one in together.outlines]
    across = zip(lengthening(together.outlines, ends), fold_lines(together.outlines, ends), strict=True)
    sized = tuple(
        (*_of_size(together, index, end, lines, crossed), *longer, *folds)
        for index, (end, (longer, folds)) in enumerate(zip(ends, across, strict=True))
    )
    return Inked(together, sized, lines, crossed)


def _of_size(together: Together, index: int, end: str, lines: ShownLines, crossed: frozenset[str]) -> list[Item]:
    """What one size has alone; `end` closes each id."""
    one, notches = together.outlines[index], together.notches[index]
    drawn = [*piece_lines.line_items(one, index, end, lines, notches), *takeups.takeup_items(one, index, end, crossed)]
    clips = clip_items(one, index, end) if lines != "sewing" else []
    return [*drawn, *clips, *piece_marks.mark_items(together, index, end)]


def _tagged_lines(one: Outlines, lines: ShownLines) -> list[Floats]:
    if lines == "sewing":
        return [edge.segments[one.body] * FLIP for edge in one.piece.edges if not edge.on_fold]
    return [line for _, line in one.cutting_edges]
