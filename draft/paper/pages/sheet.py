"""All pieces on one sheet: laid out for the screen, or on printed pages, as few as can be."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.drafting.drawable import stop_if_not_drawable
from draft.garment.garment import Garment
from draft.paper.drawing.box_rows import in_rows, square_limit
from draft.paper.drawing.drawing import Drawing, Footprint, Item, Layer, Turn
from draft.paper.drawing.polygons import rings_of
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.pages import key
from draft.paper.pages.sign_key import signs_of
from draft.paper.piece.piece_drawing import PieceDrawing, draw_piece
from draft.paper.piece.piece_lines import ShownLines
from draft.paper.piece.surface import surface_of
from draft.seams.allowance import cut_together

if TYPE_CHECKING:  # what lays pieces on pages is read where that is done
    from draft.paper.pages.packing_rules import Packing

SHARED = "shared"
_MARGIN = 15.0
_GAP = 18.0
_LAID_AGAIN = 4
"""Pieces are laid so often until no word lies on another of them; once mostly does."""
_SHAPE = 1.69
"""Pieces on a screen are laid in rows about so many times as wide as high."""


@dataclass(frozen=True)
class PatternDrawing:
    """The pieces of a garment, drawn for some of its sizes."""

    garment: Garment
    bodies: tuple[int, ...]
    lines: ShownLines
    wording: Wording
    pieces: tuple[PieceDrawing, ...]

    @property
    def title(self) -> str:
        """The pattern's name as it is printed."""
        return self.wording.titled(self.garment)

    @property
    def sizes(self) -> tuple[str, ...]:
        """The names of the sizes, in order."""
        return tuple(self.garment.sizes[body] for body in self.bodies)

    def worded(self, packing: Packing, live: tuple[float, float]) -> list[PieceDrawing]:
        """The pieces, first of what is packed, with words set anew for the pages that they are moved to."""
        return [
            draw_piece(
                *(self.garment, piece, self.bodies, self.lines, self.wording),
                surface_of(turn, still.footprint.rings, live),
            )
            for piece, still, turn in zip(self.garment.pieces, self.pieces, packing.turns, strict=False)
        ]


def draw_pattern(
    garment: Garment, bodies: Sequence[int], lines: ShownLines | None = None, wording: Wording = ENGLISH
) -> PatternDrawing:
    """Draw every piece for these bodies. One size shows both lines unless `lines` says so; a nest its cutting lines."""
    chosen: ShownLines = lines or ("both" if len(bodies) == 1 else "cutting")
    return _drawn(garment, tuple(bodies), chosen, wording)


@lru_cache(maxsize=16)
def _drawn(garment: Garment, bodies: tuple[int, ...], lines: ShownLines, wording: Wording) -> PatternDrawing:
    cut_together(garment.pieces)
    pieces = tuple(draw_piece(garment, piece, bodies, lines, wording) for piece in garment.pieces)
    return PatternDrawing(garment, bodies, lines, wording, pieces)


def drafted_bodies(garment: Garment) -> list[int]:
    """The bodies that have an outline for every piece. Raises Problems for more than are drawn at once."""
    stop_if_not_drawable(garment)
    edges = [edge.segments for piece in garment.pieces for edge in piece.edges]
    finite = [np.asarray(np.isfinite(segments).all(axis=(1, 2, 3))) for segments in edges]
    return [body for body in range(len(garment.sizes)) if all(each[body] for each in finite)]


def on_pages(pattern: PatternDrawing, live: tuple[float, float]) -> Drawing:
    """The pieces on a sheet that is cut into pages with this printed area in mm, on as few as a short search finds."""
    from draft.paper.pages.nudge import nudge
    from draft.paper.pages.nudge_pieces import pieces_nudged
    from draft.paper.pages.packing import pack_on_pages
    from draft.paper.pages.packing_rules import Rules

    def pack(footprints: Sequence[Footprint]) -> Packing:
        still = worded_beside(footprints)
        rules = Rules(upright=still, together=still)
        packing = nudge(pack_on_pages([one.rings for one in footprints], live, rules), footprints, live)
        return pieces_nudged(packing, footprints, live)

    packing, moved = laid_out(pattern, pack, lambda _: live)
    return drawing_of(pattern, moved, packing.columns * live[0], packing.rows * live[1])


def worded_beside(footprints: Sequence[Footprint]) -> tuple[int, ...]:
    """The numbers of the pieces whose words stand beside them."""
    return tuple(number for number, one in enumerate(footprints) if one.outline)


def laid_out(
    pattern: PatternDrawing,
    pack: Callable[[Sequence[Footprint]], Packing],
    live_of: Callable[[Packing], tuple[float, float]],
    beside: PieceDrawing | None = None,
) -> tuple[Packing, list[PieceDrawing]]:
    """The pieces, and what lies beside them, laid by `pack` on pages with the printed area that a packing has.

    Words stand elsewhere once the pages are known, those of a small piece beside it: where they came to lie on another
    piece, both are laid again with room for them there too. Raises RuntimeError for pieces that still overlap.
    """
    rest = [beside] if beside else []
    footprints = [piece.footprint for piece in (*pattern.pieces, *rest)]
    for _ in range(_LAID_AGAIN):
        packing = pack(footprints)
        drawn = [*pattern.worded(packing, live_of(packing)), *rest]
        moved = [piece.moved(turn) for piece, turn in zip(drawn, packing.turns, strict=True)]
        if not _overlapping(moved):
            break
        footprints = [_with_room(one, piece.footprint) for one, piece in zip(footprints, drawn, strict=True)]
    stop_if_overlapping(moved)
    return packing, moved


def _with_room(footprint: Footprint, also: Footprint) -> Footprint:
    import shapely

    rings = rings_of(shapely.union_all([shapely.Polygon(ring) for ring in (*footprint.rings, *also.rings)]))
    return replace(footprint, rings=tuple(rings))


def stop_if_overlapping(pieces: Sequence[PieceDrawing]) -> None:
    """A check apart from the search: paper on which pieces overlap must never be printed. Raises RuntimeError."""
    found = _overlapping(pieces)
    if found:
        raise RuntimeError(f"{found[0].name} lies on {found[1].name}: this is a fault of the program")


def _overlapping(pieces: Sequence[PieceDrawing]) -> tuple[PieceDrawing, PieceDrawing] | None:
    import shapely

    shapes = [shapely.union_all([shapely.Polygon(ring) for ring in piece.footprint.rings]) for piece in pieces]
    first, second = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    found = next(((k, other) for k, other in zip(first, second, strict=True) if other < k), None)
    return (pieces[found[0]], pieces[found[1]]) if found else None


def on_screen(pattern: PatternDrawing) -> Drawing:
    """The pieces in rows, in the order of the garment, under a heading with test squares and the key of the sizes."""
    subtitle = pattern.wording.sizes(pattern.sizes)
    heading, top = key.heading(pattern.title, subtitle, pattern.sizes, _MARGIN, _MARGIN, pattern.wording)
    moved, width, height = pieces_in_rows(pattern.pieces, top + _GAP, _MARGIN, _GAP, key.WIDTH)
    return drawing_of(pattern, moved, width + _MARGIN, height + _MARGIN, heading)


def pieces_alone(pattern: PatternDrawing) -> Drawing:
    """The pieces in rows and nothing else, for pictures of another scale: no square that somebody might measure."""
    moved, width, height = pieces_in_rows(pattern.pieces, 0.0, 0.0, _GAP, 0.0)
    return drawing_of(pattern, moved, width, height)


def pieces_in_rows(
    pieces: Sequence[PieceDrawing], top: float, margin: float, gap: float, least: float
) -> tuple[list[PieceDrawing], float, float]:
    """The pieces in rows from a top on, and how far right and down they reach; rows are at least `least` mm wide."""
    boxes = [_box(piece.footprint.rings) for piece in pieces]
    limit = max(least, square_limit(boxes, gap, _SHAPE))
    moves, width, bottom = in_rows(boxes, limit, gap, (margin, top))
    moved = [piece.moved(Turn(0, *move)) for piece, move in zip(pieces, moves, strict=True)]
    return moved, margin + max(width, least), bottom


def _box(rings: Sequence[Floats]) -> Floats:
    points = np.concatenate(rings)
    return np.stack([points.min(axis=0), points.max(axis=0)])


def drawing_of(
    pattern: PatternDrawing, pieces: Sequence[PieceDrawing], width: float, height: float, heading: Sequence[Item] = ()
) -> Drawing:
    """The pieces as one drawing. The largest size lies lowest, so that where lines meet the smallest is seen."""
    shared = (*heading, *(item for piece in pieces for item in piece.shared))
    sized = [
        Layer(f"size-{size}", tuple(item for piece in pieces for item in piece.sized[index]), size)
        for index, size in enumerate(pattern.sizes)
    ]
    layers = (*reversed(sized), Layer(SHARED, shared))
    footprints = tuple(piece.footprint for piece in pieces)
    sizes, subtitle = pattern.sizes, pattern.wording.sizes(pattern.sizes)
    signs = signs_of(pattern.garment, pattern.lines, pattern.bodies)
    return Drawing(pattern.title, width, height, layers, footprints, subtitle, sizes, signs)
