"""The words of a piece that is too small to hold them: on the paper below it, with a fine line that leads to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from draft.geometry.cubic import lines_through
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Item, Path, Stroke, circle
from draft.paper.drawing.room import Room, Spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece.opened import with_other_half
from draft.paper.piece.piece_lines import Outlines
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import TitleBlock, beside_blocks

_LEAST_WIDE = 60.0
"""Words may always be so many mm wide, however narrow the piece."""
_BELOW = 5.0
"""From the piece to its words, mm."""
_BELOW_NAMES = 13.0
"""The same where names of sizes are large and stand in between."""
_ARROWS = 26.0
"""Height of the paper for arrows beside the words, mm: for short ones, side by side."""
_DEEP = (8.0, 6.0, 4.0, 2.0, 1.0, 0.0)
"""The line ends so many mm inside of the piece, the first that it has."""
_STEP = 5.0
"""Words that a page's edge would cut are moved along the piece in such steps, mm."""
_OFF_EDGE = 1.5
"""So far from the edge of a page they stand, mm."""
_DOT = 0.8
"""Radius of the dot with which the line ends on the piece, mm."""


def words_outside(
    outlines: Sequence[Outlines], room: Any, pattern: str, wording: Wording, surface: Surface
) -> tuple[TitleBlock, Spot, tuple[Item, ...]]:
    """The block, where it stands, and the line that leads from it to the piece: into its room, if it has any."""

    sizes = [one.size for one in outlines]
    shape, fold = outlines[0].together.cut_of_any, outlines[0].fold
    left, _, right, low = (with_other_half(shape, fold) if fold and surface.opened else shape).bounds
    wide = max((right - left) / surface.enlarged, _LEAST_WIDE)
    top = low + (_BELOW_NAMES if surface.level and len(sizes) > 1 else _BELOW) * surface.enlarged
    blocks = [
        block.enlarged(surface.enlarged)
        for block in beside_blocks(pattern, outlines[0].piece, sizes, wording, surface.opened, wide)
    ]
    spots = [list(_below(block, (left, right), top, surface)) for block in blocks]
    whole = (
        (block, spot) for block, row in zip(blocks, spots, strict=True) for spot in row if _is_whole(spot, surface)
    )
    block, spot = next(whole, (blocks[0], spots[0][0]))
    inside = outlines[0].together.sewn_of_all
    return block, spot, _leader(inside if room.is_empty else room, spot, surface)


def _below(block: TitleBlock, ends: tuple[float, float], top: float, surface: Surface) -> Iterator[Spot]:
    """Places for words below a piece between two ends, the first from its left one on."""
    left, right = ends
    x = max((left + right) / 2, left + block.width / 2) if block.width > right - left else left + block.width / 2
    for k in range(max(int((right - x - block.width / 2) / _STEP), 0) + 1):
        yield Spot(x + k * _STEP, top + block.height / 2, block.width, block.height, surface.upright)


def _is_whole(spot: Spot, surface: Surface) -> bool:
    return not surface.cross(spot.shape(_OFF_EDGE))


def _leader(inside: Any, spot: Spot, surface: Surface) -> tuple[Item, ...]:
    """From above the beginning of the words to a dot within the piece."""
    import shapely

    if inside.is_empty:
        return ()
    deep = next(part for k in _DEEP if not (part := inside.buffer(-k * surface.enlarged)).is_empty)
    top = spot.y - spot.height / 2 - 1.0
    words = shapely.LineString([(spot.x - spot.width / 2, top), (spot.x + spot.width / 2, top)])
    at = shapely.Point(shapely.get_coordinates(shapely.shortest_line(deep, words))[0])
    start = min(max(at.x, spot.x - spot.width / 2), spot.x + spot.width / 2), top
    ink, radius = line_styles.sign_stroke().colour, _DOT * surface.enlarged
    line = Stroke(line_styles.FINE, colour=ink)
    return (
        Path((lines_through([start, (at.x, at.y)]),), line),
        Path((circle(at.x, at.y, radius),), fill=ink, closed=True),
    )


def paper_beside(spot: Spot, surface: Surface) -> Room:
    """The paper to the right of the words, for the arrows of the piece."""
    import shapely

    side, left, top = _ARROWS * surface.enlarged, spot.x + spot.width / 2, spot.y - spot.height / 2
    return Room(shapely.box(left, top, left + 3.2 * side, top + side))
