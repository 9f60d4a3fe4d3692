"""A piece on paper: its lines for one size or several, its marks, its signs and its words.

The sizes of a nest share the piece's own origin and its fold, so that the lines show the grading.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from draft.base.record import dataclass
from draft.garment.garment import Garment, Piece
from draft.paper.drawing.drawing import Footprint, Item, Label, Path, Turn
from draft.paper.drawing.polygons import rings_of
from draft.paper.drawing.room import Room, Spot, label_spot, spot_shapes
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.piece import edge_words, notch_words, piece_marks, pleat_words, title_block
from draft.paper.piece.across_lines import Levels, levels_of
from draft.paper.piece.arrows import grain_arrow, stretch_arrow
from draft.paper.piece.common_lines import names_on_common_lines
from draft.paper.piece.covered import shapes_of
from draft.paper.piece.fold_drawn import fold_by_size, fold_drawn
from draft.paper.piece.inked_piece import Inked, Sizes, inked_piece
from draft.paper.piece.level_places import level_places
from draft.paper.piece.names_of_sizes import sized_with_names
from draft.paper.piece.opened import Fold, lines_of_both, stopped, with_other_half
from draft.paper.piece.piece_lines import FLIP, ShownLines, outlines_of
from draft.paper.piece.room_for_levels import room_for_levels
from draft.paper.piece.surface import ANYWHERE, Surface
from draft.paper.piece.words_outside import paper_beside, words_outside

_OFF_PAGE_EDGE = 2.0
"""Words keep so many mm from the edge of a page: a cut a little beside the frame takes no letter."""
_NARROW_IN = 2.0
"""Arrows in a piece that is too narrow for words keep so many mm away from its lines."""
_OFF_LEADER = 1.5
"""Arrows so many mm away from the line that leads to the words."""
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


@lru_cache(maxsize=128)  # ten pieces on three papers, and their sizes one by one
def _drawn(
    told: _Told, piece: Piece, sizes: Sizes, lines: ShownLines, wording: Wording, surface: Surface
) -> PieceDrawing:
    inked = inked_piece(piece, sizes, lines, level_places(outlines_of(piece, sizes), surface))
    shared = _shared(told, inked, wording, surface)
    sized = inked.sized
    if len(sizes) > 1:
        sized = sized_with_names(inked, shared, told.seams, wording, surface)
        if piece.on_fold:  # each size has its own part of the fold, so that none runs on where it alone is shown
            own = fold_by_size(inked.outlines, inked.lines, shared[0], shared[1:] if surface.opened else ())
            sized, shared = tuple((line, *items) for line, items in zip(own, sized, strict=True)), shared[1:]
    fold = inked.outlines[0].fold if surface.opened else None
    beside = (item for items in sized for item in items if isinstance(item, Label)) if surface.level else ()
    footprint = _footprint(inked, (*shared, *beside), wording, fold)
    if fold:
        shared, sized = lines_of_both(shared, fold), tuple(lines_of_both(items, fold, inked.once) for items in sized)
    return PieceDrawing(piece.name, shared, sized, footprint)


def _shared(told: _Told, inked: Inked, wording: Wording, surface: Surface) -> tuple[Item, ...]:
    """Fold, words and arrows: all within the piece, or the words and arrows under it where it is too small for them."""
    import shapely

    room, fold = inked.room, list[Item]()
    if inked.piece.on_fold:
        fold, taken = fold_drawn(inked.outlines, inked.lines, room.shape, wording, surface)
        whole = surface.opened and inked.outlines[0].fold
        room = inked.whole_room(whole) if whole else room.without(taken)
        fold = fold[:1] if whole else fold  # without what says to lay it on a fold
    apart = room if surface.edges is None else room.without(surface.edges.buffer(_OFF_PAGE_EDGE, quad_segs=1))
    still = replace(surface, quarters=0, edges=None)  # as it is drawn before it is laid out
    kept = room_for_levels(inked.together, room.shape, wording, surface) if surface.level else []
    tries = [(room.without(shapely.union_all(kept[:k])), surface) for k in range(len(kept), 0, -1)]
    tries += [(apart, surface)] if surface.edges is not None else []
    tries += [(room, surface), (room, still)]
    found = ((where, _words(where, told.title, inked, wording, on)) for where, on in tries)
    where, words = next(((where, items) for where, items in found if items), (tries[0][0], ()))
    room = where if kept else room
    words = words or _outside(room, told.title, inked, wording, replace(surface, quarters=0))
    taken = [*inked.line_shapes, *shapes_of((*fold, *words))]
    taken += [surface.edges] if surface.edges is not None else []
    along = edge_words.gathered(inked.outlines, room.shape, taken, wording, surface)
    taken += shapes_of(along)
    pleats = pleat_words.pleat_words(inked.outlines, room.shape, taken, wording, surface)
    taken += shapes_of(pleats)
    marks = piece_marks.mark_words(inked.together, told.levels, room.shape, taken, wording, surface)
    taken += shapes_of(marks)
    notches = notch_words.notch_words(inked.together, taken, surface, wording)
    taken += shapes_of(notches)
    insides = [apart.shape, room.shape, inked.inside]
    insides += [inked.hem_room] if surface.level and inked.hem_room is not None else []
    lettered = edge_words.seam_words(inked.outlines, told.seams, insides, inked.hem_room, taken, wording, surface)
    taken += shapes_of(lettered)
    common = names_on_common_lines(inked.outlines, inked.hem_room, taken, surface)
    said = (*words, *along, *pleats, *marks, *notches, *lettered, *common)
    if surface.opened:
        fold = [stopped(line, said) for line in fold if isinstance(line, Path)]
    return (*fold, *said)


def _words(room: Room, pattern: str, inked: Inked, wording: Wording, surface: Surface) -> tuple[Item, ...]:
    """The words, the grain and the stretch of a piece; nothing if they do not all fit."""
    piece, sizes = inked.piece, [one.size for one in inked.outlines]
    for block, spot in title_block.placed_blocks(room, pattern, piece, sizes, wording, surface):
        arrows = _arrows(
            room.without(spot.shape(4.0)), spot, block.width > _WIDE * block.height, inked, wording, surface
        )
        if arrows:
            return (*block.labels(spot), *arrows)
    return ()


def _arrows(room: Room, spot: Spot, wide: bool, inked: Inked, wording: Wording, surface: Surface) -> tuple[Item, ...]:
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


def _outside(room: Room, pattern: str, inked: Inked, wording: Wording, surface: Surface) -> tuple[Item, ...]:
    """Words, and arrows that the piece cannot hold either, on the paper below it."""
    import shapely

    block, spot, leader = words_outside(inked.outlines, room.shape, pattern, wording, surface)
    lines = shapely.union_all(shapes_of(leader)).buffer(_OFF_LEADER) if leader else shapely.Polygon()
    arrows = _arrows(room.without(lines), spot, False, inked, wording, surface)
    arrows = arrows or _arrows(inked.room_off(_NARROW_IN).without(lines), spot, True, inked, wording, surface)
    if surface.level and inked.hem_room is not None:  # nothing is drawn at the seams: large words may stand there too
        whole = Room(inked.hem_room.difference(inked.about_lines)).without(lines)
        arrows = arrows or _arrows(whole, spot, True, inked, wording, surface)
    arrows = arrows or _arrows(paper_beside(spot, surface), spot, False, inked, wording, surface)
    return (*block.labels(spot), *leader, *arrows)


def _footprint(inked: Inked, said: Sequence[Item], wording: Wording, fold: Fold | None) -> Footprint:
    """The paper that the piece needs: all its sizes, and its words where they had to stand outside.

    A piece that is shown whole has its `fold`.
    """
    import shapely

    words = [*spot_shapes([label_spot(item) for item in said if isinstance(item, Label)])]
    words += [shapely.box(*item.box().ravel()) for item in said if not isinstance(item, Label)]
    together = inked.outlines[0].together
    alone, shapes = together.cut_of_any, list(together.cutting_shapes)
    if fold:
        alone, shapes = with_other_half(alone, fold), [with_other_half(shape, fold) for shape in shapes]
    by_size = tuple(tuple(rings_of(shape)) for shape in shapes)
    shapely.prepare(alone)
    needed = shapely.union_all([alone, *(word for word in words if not alone.contains_properly(word))])
    outline = tuple(rings_of(alone)) if needed.area > alone.area + _LABEL_AREA else ()
    return Footprint(wording.title(inked.piece), wording.cut(inked.piece), tuple(rings_of(needed)), by_size, outline)
