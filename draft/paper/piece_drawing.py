"""A piece on paper: its lines for one size or several, its marks and its words.

The sizes of a nest share the piece's own origin and its fold, so that the lines show the grading.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from draft.geometry import cubic
from draft.paper import folds, label_block, marks, outline, piece_lines, styles, tags
from draft.paper.drawing import Item, Label, Path, Turn
from draft.paper.piece_lines import FLIP, Lines, Outlines
from draft.paper.room import Room, label_spot, rings_of
from draft.piece import Garment, Piece

Floats = NDArray[np.float64]

_WORDS_IN = 3.0
"""Words keep this many mm away from every line."""
_UNDER = 110.0
"""Side of the paper below a small piece, in mm: enough for its words in the most generous setting."""
_WIDE = 2.5
"""Words so many times as wide as high stand in a band: the arrows go beside them, not below."""


@dataclass(frozen=True)
class PieceDrawing:
    """What is drawn of a piece: items that all sizes share, items of each size, and the outlines that it covers."""

    name: str
    shared: tuple[Item, ...]
    sized: tuple[tuple[Item, ...], ...]
    areas: tuple[Floats, ...]

    def moved(self, turn: Turn) -> PieceDrawing:
        """The same piece elsewhere on the paper."""
        return PieceDrawing(
            self.name,
            tuple(item.moved(turn) for item in self.shared),
            tuple(tuple(item.moved(turn) for item in items) for items in self.sized),
            tuple(turn.points(area) for area in self.areas),
        )


def draw_piece(garment: Garment, piece: Piece, bodies: Sequence[int], lines: Lines = "both") -> PieceDrawing:
    """The piece for these bodies (indices into `garment.sizes`), in mm with y down, about the piece's own origin."""
    outlines = [Outlines.of(garment, piece, body) for body in bodies]
    sized = [_of_size(one, index, len(bodies), lines) for index, one in enumerate(outlines)]
    shared = _shared(garment, piece, outlines, sized, lines)
    if len(bodies) > 1:
        sized = _tagged(outlines, sized, shared, lines)
    return PieceDrawing(piece.name, shared, tuple(tuple(items) for items in sized), _areas(outlines, shared))


def _of_size(one: Outlines, index: int, count: int, lines: Lines) -> list[Item]:
    end = f".{one.size}" if count > 1 else ""
    return [*piece_lines.of_size(one, index, end, lines), *folds.of_size(one, index, end)]


def _shared(
    garment: Garment, piece: Piece, outlines: Sequence[Outlines], sized: Sequence[Sequence[Item]], lines: Lines
) -> tuple[Item, ...]:
    """Fold, words and arrows: all within the piece, or the words and arrows under it where it is too small for them."""
    room = _room(outlines, sized)
    fold: list[Item] = []
    if piece.on_fold:
        fold, taken = _fold(outlines, lines)
        room = room.without(taken)
    sizes = [one.size for one in outlines]
    body = outlines[0].body
    words = _words(room, garment, piece, sizes, body) or _words(_under(outlines), garment, piece, sizes, body)
    taken = [shape for items in (*sized, fold, words) for item in items for shape in _shapes(item)]
    return (*fold, *words, *folds.gathered(outlines, room.shape, taken))


def _words(room: Room, garment: Garment, piece: Piece, sizes: Sequence[str], body: int) -> tuple[Item, ...]:
    """The words, the grain and the stretch of a piece; nothing if they do not all fit."""
    placed = label_block.place(room, garment, piece, sizes)
    if placed is None:
        return ()
    block, spot = placed
    room, wide = room.without(spot.shape(4.0)), block.width > _WIDE * block.height
    left, low = spot.at(-spot.width / 2 - 9.0, 0), spot.at(0, spot.height / 2 + 12.0)
    right = spot.at(spot.width / 2 + 60.0, 0)
    grain, taken = marks.grain(room, piece.grain[body] * FLIP, left)
    room = room.without(taken.shape(4.0)) if taken else room
    stretch, _ = marks.stretch(room, piece.stretch[body] * FLIP, right if wide else low)
    return (*block.labels(spot), *grain, *stretch) if grain and stretch else ()


def _under(outlines: Sequence[Outlines]) -> Room:
    """Paper below a piece that is too small for its own words."""
    import shapely

    left, _, right, bottom = shapely.union_all([one.cut_shape for one in outlines]).bounds
    return Room(shapely.box(left, bottom + _WORDS_IN, max(right, left + _UNDER), bottom + _WORDS_IN + _UNDER))


def _room(outlines: Sequence[Outlines], sized: Sequence[Sequence[Item]]) -> Room:
    """What lies inside the sewing lines of all sizes and clear of every line."""
    import shapely

    inside = shapely.intersection_all([one.seam_shape for one in outlines])
    lines = [_line_shape(item) for items in sized for item in items if isinstance(item, Path)]
    near = shapely.intersection(lines, inside)
    taken = shapely.union_all(shapely.buffer(near[~shapely.is_empty(near)], _WORDS_IN, quad_segs=2))
    return Room(inside.buffer(-_WORDS_IN).difference(taken))


def _fold(outlines: Sequence[Outlines], lines: Lines) -> tuple[list[Item], Any]:
    """The fold line as long as the longest size's, and the bracket along what all sizes share of it."""
    piece = outlines[0].piece
    edge = next(edge for edge in piece.edges if edge.on_fold)
    folds = [one.fold for one in outlines if one.fold]
    start, along = folds[0][0], cubic.unit(folds[0][1] - folds[0][0])
    sewn = [_reach(along, start, np.array(fold)) for fold in folds]
    drawn = [_reach(along, start, _on_fold(one, lines)) for one in outlines]
    line = cubic.line(start + along * min(a for a, _ in drawn), start + along * max(b for _, b in drawn))
    inside = cubic.right_of(along)
    middle = np.array(outlines[0].seam_shape.centroid.coords[0])
    inside = inside if cubic.dot(inside, middle - start) > 0 else -inside
    low, high = max(a for a, _ in sewn), min(b for _, b in sewn)
    bracket, taken = marks.fold(start + along * low, start + along * high, inside)
    data = (("piece", piece.name), ("edge", edge.name), ("source", str(edge.span)))
    return [Path((line[None],), styles.FOLD, id=f"{piece.name}.{edge.name}", data=data), *bracket], taken


def _on_fold(one: Outlines, lines: Lines) -> Floats:
    """The points `(n, 2)` at which the drawn outline lies on the fold."""
    assert one.fold
    segments = one.seam if lines == "sewing" else one.cut
    on_fold = segments[outline.on_line(segments, *one.fold)]
    return np.concatenate([np.array(one.fold), on_fold[:, [0, 3]].reshape(-1, 2)])


def _reach(along: Floats, start: Floats, points: Floats) -> tuple[float, float]:
    reach = cubic.dot(along, points - start)
    return float(reach.min()), float(reach.max())


def _line_shape(path: Path) -> Any:
    import shapely

    return shapely.MultiLineString([outline.points(run) for run in path.runs])


def _tagged(
    outlines: Sequence[Outlines], sized: Sequence[Sequence[Item]], shared: Sequence[Item], lines: Lines
) -> list[list[Item]]:
    every = [item for items in (*sized, shared) for item in items]
    clutter = tags.Clutter([shape for item in every for shape in _shapes(item)])
    chains = [_tagged_lines(one, lines) for one in outlines]
    tagged = []
    for index, (one, items) in enumerate(zip(outlines, sized, strict=True)):
        shape = one.seam_shape if lines == "sewing" else one.cut_shape
        others = tags.joined([chain for k, some in enumerate(chains) if k != index for chain in some])
        labels = [
            label
            for chain in chains[index]
            for label in tags.along(one.size, chain, index, len(outlines), shape, others, clutter)
        ]
        tagged.append([*items, *labels])
    return tagged


def _tagged_lines(one: Outlines, lines: Lines) -> list[Floats]:
    if lines == "sewing":
        return [edge.segments[one.body] * FLIP for edge in one.piece.edges if not edge.on_fold]
    return [chain for _, chain in one.cut_edges]


def _shapes(item: Item) -> list[Any]:
    """What an item covers, for keeping tags off it."""
    if isinstance(item, Label):
        return [label_spot(item).shape()]
    return list(_line_shape(item).geoms)


def _areas(outlines: Sequence[Outlines], shared: Sequence[Item]) -> tuple[Floats, ...]:
    """The paper that the piece needs: all its sizes, and its words where they had to stand outside."""
    import shapely

    words = [
        label_spot(item).shape() if isinstance(item, Label) else shapely.box(*item.box().ravel()) for item in shared
    ]
    return tuple(rings_of(shapely.union_all([*(one.cut_shape for one in outlines), *words])))
