"""A piece on paper: its lines for one size or several, its marks, its signs and its words.

The sizes of a nest share the piece's own origin and its fold, so that the lines show the grading.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property, lru_cache
from typing import Any, TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Piece
from draft.geometry.flatten import polyline_each
from draft.geometry.ruler import Ruler
from draft.paper.drawing.drawing import Footprint, Item, Label, Path, Turn
from draft.paper.drawing.polygons import rings_of
from draft.paper.drawing.room import Room, Spot, label_spot
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.piece import edge_words, mark_tags, piece_lines, piece_marks, pleat_words, tags, takeups, title_block
from draft.paper.piece.across_lines import Levels, lengthening, levels_of
from draft.paper.piece.arrows import grain_arrow, stretch_arrow
from draft.paper.piece.clips import clip_items
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.covered import run_shapes, shapes_of
from draft.paper.piece.fold_drawn import fold_drawn
from draft.paper.piece.opened import Fold, footprint_of_both, lines_of_both, stopped, whole_room
from draft.paper.piece.piece_lines import FLIP, Outlines, ShownLines, outlines_of
from draft.paper.piece.sized_marks import families
from draft.paper.piece.surface import ANYWHERE, Surface
from draft.paper.piece.tags_on_lines import with_names_on_lines
from draft.paper.piece.words_outside import paper_beside, words_outside

_WORDS_IN = 3.0
"""Words keep this many mm away from every line."""
_ON_IT = 0.02
"""Lines no deeper inside an outline than this many mm are its own."""
_OFF_PAGE_EDGE = 2.0
"""And so many from the edge of a page: a cut a little beside the frame takes no letter."""
_LABEL_AREA = 400.0
"""Words take more square mm of paper than this outside of a piece, the width of a line does not."""
_WIDE = 2.5
"""Words so many times as wide as high stand in a band: the arrows go beside them, not below."""


@dataclass(frozen=True)
class PieceDrawing:
    """What is drawn of a piece: items that all sizes share, items of each size, and the paper that it needs."""

    name: str
    shared: tuple[Item, ...]
    sized: tuple[tuple[Item, ...], ...]
    footprint: Footprint

    def moved(self, turn: Turn) -> PieceDrawing:
        """The same piece elsewhere on the paper."""
        footprint = self.footprint
        rings = tuple(turn.points(ring) for ring in footprint.rings)
        outline = tuple(turn.points(ring) for ring in footprint.outline)
        by_size = tuple(tuple(turn.points(ring) for ring in size) for size in footprint.by_size)
        return PieceDrawing(
            self.name,
            tuple(item.moved(turn) for item in self.shared),
            tuple(tuple(item.moved(turn) for item in items) for items in self.sized),
            Footprint(footprint.name, footprint.cut, rings, by_size, outline),
        )


def draw_piece(
    garment: Garment,
    piece: Piece,
    bodies: Sequence[int],
    lines: ShownLines = "both",
    wording: Wording = ENGLISH,
    surface: Surface = ANYWHERE,
) -> PieceDrawing:
    """The piece for these bodies (indices into `garment.sizes`), in mm with y down, about the piece's own origin.

    Its words stand upright on the `surface` that it lies on, and none is cut by the edge of one if that can be.
    """
    sizes = tuple((garment.sizes[body], body) for body in bodies)
    told = _Told(wording.titled(garment), edge_words.seams_of(garment, piece), levels_of(garment, piece, bodies))
    return _drawn(told, piece, sizes, lines, wording, surface)


@dataclass(frozen=True)
class _Told:
    """What the garment has its pieces say: its title, the letters of seams, what it measures at the piece's levels."""

    title: str
    seams: edge_words.SeamWords
    levels: Levels


_Sizes: TypeAlias = tuple[tuple[str, int], ...]
"""The sizes that are drawn: the name of each, and which of the piece's bodies it is."""


@lru_cache(maxsize=128)  # ten pieces on three papers, and their sizes one by one
def _drawn(
    told: _Told, piece: Piece, sizes: _Sizes, lines: ShownLines, wording: Wording, surface: Surface
) -> PieceDrawing:
    inked = _inked(piece, sizes, lines)
    shared = (*inked.across, *_shared(told, inked, wording, surface))
    sized = inked.sized if len(sizes) == 1 else _tagged(inked, shared, surface)
    whole = PieceDrawing(piece.name, shared, sized, _footprint(inked, shared, wording))
    return _opened(whole, fold) if surface.opened and (fold := inked.outlines[0].fold) else whole


def _opened(half: PieceDrawing, fold: Fold) -> PieceDrawing:
    sized = tuple(lines_of_both(items, fold) for items in half.sized)
    return PieceDrawing(half.name, lines_of_both(half.shared, fold), sized, footprint_of_both(half.footprint, fold))


@dataclass(frozen=True)
class _Inked:
    """The lines of a piece: what they are does not hang on pages or words."""

    outlines: tuple[Outlines, ...]
    sized: tuple[tuple[Item, ...], ...]
    lines: ShownLines
    across: tuple[Path, ...] = ()
    """Lines that all sizes share."""

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
        import shapely

        within = self.inside.buffer(-_ON_IT)  # the outline's own lines lie on it
        shapely.prepare(within)
        near = np.array(self.line_shapes)[shapely.intersects(within, self.line_shapes)]
        crossing = ~shapely.contains(within, near)
        near[crossing] = shapely.intersection(near[crossing], within)
        taken = shapely.buffer(shapely.geometrycollections(near), _WORDS_IN, quad_segs=2)
        return Room(self.inside.buffer(-_WORDS_IN).difference(taken))

    @cached_property
    def line_shapes(self) -> tuple[Any, ...]:
        """The lines of all sizes as shapes, for keeping words off them."""
        drawn = (item for items in (*self.sized, self.across) for item in items if isinstance(item, Path))
        return tuple(run_shapes(drawn))

    @cached_property
    def tagged_lines(self) -> tuple[tuple[Floats, ...], ...]:
        """The lines of each size that bear its name."""
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
def _inked(piece: Piece, sizes: _Sizes, lines: ShownLines) -> _Inked:
    outlines = outlines_of(piece, sizes)
    sized = tuple(tuple(_of_size(one, index, len(sizes), lines)) for index, one in enumerate(outlines))
    return _Inked(outlines, sized, lines, lengthening(outlines))


def _of_size(one: Outlines, index: int, count: int, lines: ShownLines) -> list[Item]:
    end = f".{one.size}" if count > 1 else ""
    drawn = [*piece_lines.line_items(one, index, end, lines), *takeups.takeup_items(one, index, end)]
    clips = clip_items(one, index, end) if lines != "sewing" else []
    return [*drawn, *clips, *piece_marks.mark_items(one, index, end)]


def _shared(told: _Told, inked: _Inked, wording: Wording, surface: Surface) -> tuple[Item, ...]:
    """Fold, words and arrows: all within the piece, or the words and arrows under it where it is too small for them."""
    room, fold = inked.room, list[Item]()
    if inked.piece.on_fold:
        within = room.shape if surface.level else inked.inside
        fold, taken = fold_drawn(inked.outlines, inked.lines, within, wording, surface)
        whole = surface.opened and inked.outlines[0].fold
        room = Room(whole_room(room.shape, whole)) if whole else room.without(taken)
        fold = fold[:1] if whole else fold  # without what says to lay it on a fold
    apart = Room(surface.off(room.shape, _OFF_PAGE_EDGE))
    still = replace(surface, quarters=0, edges=None)  # as it is drawn before it is laid out
    tries = [(apart, surface)] if surface.edges is not None else []
    tries += [(room, surface), (room, still)]
    found = (_words(where, told.title, inked, wording, on) for where, on in tries)
    words = next((items for items in found if items), ()) or _outside(room, told.title, inked, wording, still)
    taken = [*inked.line_shapes, *shapes_of((*fold, *words))]
    taken += [surface.edges] if surface.edges is not None else []
    along = edge_words.gathered(inked.outlines, room.shape, taken, wording, surface)
    taken += shapes_of(along)
    pleats = pleat_words.pleat_words(inked.outlines, room.shape, taken, wording, surface)
    taken += shapes_of(pleats)
    marks = piece_marks.mark_words(inked.outlines, told.levels, room.shape, taken, wording, surface)
    taken += shapes_of(marks)
    insides = (apart.shape, room.shape, inked.inside)
    lettered = edge_words.seam_words(inked.outlines, told.seams, insides, taken, wording, surface)
    said = (*words, *along, *pleats, *marks, *lettered)
    fold = [stopped(fold[0], said)] if surface.opened and fold else fold
    return (*fold, *said)


def _words(room: Room, pattern: str, inked: _Inked, wording: Wording, surface: Surface) -> tuple[Item, ...]:
    """The words, the grain and the stretch of a piece; nothing if they do not all fit."""
    piece, sizes = inked.piece, [one.size for one in inked.outlines]
    for block, spot in title_block.placed_blocks(room, pattern, piece, sizes, wording, surface):
        arrows = _arrows(
            room.without(spot.shape(4.0)), spot, block.width > _WIDE * block.height, inked, wording, surface
        )
        if arrows:
            return (*block.labels(spot), *arrows)
    return ()


def _arrows(room: Room, spot: Spot, wide: bool, inked: _Inked, wording: Wording, surface: Surface) -> tuple[Item, ...]:
    """Grain and stretch beside the words, or nothing if not both fit."""
    piece, body = inked.piece, inked.outlines[0].body
    left, low = spot.at(-spot.width / 2 - 9.0, 0), spot.at(0, spot.height / 2 + 12.0)
    right = spot.at(spot.width / 2 + 60.0, 0)
    grain, taken = grain_arrow(room, piece.grain[body] * FLIP, left, wording, surface)
    room = room.without(taken.shape(4.0)) if taken else room
    if not piece.stretches:
        return grain
    stretch, _ = stretch_arrow(room, piece.stretch[body] * FLIP, right if wide else low, wording, surface)
    return (*grain, *stretch) if grain and stretch else ()


def _outside(room: Room, pattern: str, inked: _Inked, wording: Wording, surface: Surface) -> tuple[Item, ...]:
    """Words, and arrows that the piece cannot hold either, on the paper below it."""
    block, spot, leader = words_outside(inked.outlines, pattern, wording, surface)
    arrows = _arrows(room, spot, False, inked, wording, surface)
    arrows = arrows or _arrows(paper_beside(spot, surface), spot, False, inked, wording, surface)
    return (*block.labels(spot), *leader, *arrows)


def _tagged(inked: _Inked, shared: Sequence[Item], surface: Surface) -> tuple[tuple[Item, ...], ...]:
    import shapely

    edges = [surface.edges] if surface.edges is not None else []
    clutter = Clutter([*inked.line_shapes, *shapes_of(shared), *edges])
    sizes = []
    for index, one in enumerate(inked.outlines):
        shape = one.sewing_shape if inked.lines == "sewing" else one.cutting_shape
        shapely.prepare(shape)
        sizes.append(tags.Tagged(one.size, index, inked.tagged_rulers[index], shape, inked.other_lines[index]))
    shapes = [one.cutting_shape for one in inked.outlines]
    named = mark_tags.Sizes([one.size for one in inked.outlines], shapes, surface)
    marked = mark_tags.mark_tags(families(inked.outlines), named, clutter)
    labels = tags.tags_of(sizes, clutter, surface)
    found = with_names_on_lines(sizes, labels, clutter, surface) if surface.level else labels
    return tuple((*items, *marks, *tagged) for items, marks, tagged in zip(inked.sized, marked, found, strict=True))


def _tagged_lines(one: Outlines, lines: ShownLines) -> list[Floats]:
    if lines == "sewing":
        return [edge.segments[one.body] * FLIP for edge in one.piece.edges if not edge.on_fold]
    return [line for _, line in one.cutting_edges]


def _footprint(inked: _Inked, shared: Sequence[Item], wording: Wording) -> Footprint:
    """The paper that the piece needs: all its sizes, and its words where they had to stand outside."""
    import shapely

    words = [
        one.shape() if isinstance(one, Spot) else shapely.box(*one.box().ravel())
        for one in (label_spot(item) if isinstance(item, Label) else item for item in shared)
    ]
    together = inked.outlines[0].together
    alone, by_size = together.cut_of_any, tuple(tuple(rings_of(shape)) for shape in together.cutting_shapes)
    needed = shapely.union_all([alone, *words])
    outline = tuple(rings_of(alone)) if needed.area > alone.area + _LABEL_AREA else ()
    return Footprint(wording.title(inked.piece), wording.cut(inked.piece), tuple(rings_of(needed)), by_size, outline)
