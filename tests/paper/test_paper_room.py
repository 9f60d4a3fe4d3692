"""Finding room for words, and laying pieces on few pages."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.resources import folder
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from draft.paper.drawing.drawing import Footprint, Turn
from draft.paper.drawing.papers import PAPERS
from draft.paper.drawing.polygons import mask, rings_of
from draft.paper.drawing.room import Room
from draft.paper.pages.nudge import nudge, pages_touched
from draft.paper.pages.packing import pack_on_pages
from draft.paper.pages.packing_rules import CELL, Packing
from draft.paper.pages.page_grid import grid
from draft.paper.pages.sheet import draw_pattern, laid_out, on_pages
from tests.asking import asked
from tests.paper.made_up import SIZES

DRILLED = """pattern vest
    chart "sizes.csv"
body
    bust_girth
style
    shape  plain of plain, sharp, slanted  "how the tab ends"
template half
    input
        reach  length = 10 cm
    let
        tall = 50 cm
    points
        a  at 0, 0
        b  at reach + 20 cm, 0
        c  at reach + 20 cm, tall
    outline
        low    a to b straight
        side   b to c straight
        slant  c to a straight
    marks
        hole   drill at a
    notches
        on low: 5.6 cm from a
    corners
        a  cut
    grain  along a to c
    cut 2
template quarter from half "The same, cut short."
    let
        tall = 30 cm
    points
        d  at 0, 30 cm
    outline
        back   d to a straight
        slant  c to d straight
piece front is half
    points
        b  at 20 cm, 0
        d  at 20 cm, 20 cm
    outline
        slant  c to a curve leaving inward
    marks
        pocket_line  line a to d
    corners
        a  carried
piece tab
        is half
piece pocket
    points
        a  at 0, 0
        b  at 10 cm, 0
        c  at 10 cm, 12 cm
    outline
        low    a to b straight
        side   b to c straight
        slant  c to a straight
    cut 1
"""

LETTER, A4 = PAPERS["letter"].live, PAPERS["a4"].live


@given(
    st.lists(st.floats(0.3, 1.0), min_size=5, max_size=12),
    st.floats(5, 60), st.floats(5, 60), st.floats(-90, 90),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_what_is_found_lies_inside(radii: list[float], width: float, height: float, angle: float) -> None:
    turns = np.linspace(0, 2 * np.pi, len(radii), endpoint=False)
    star = shapely.Polygon(100 * np.array(radii)[:, None] * np.stack([np.cos(turns), np.sin(turns)], axis=-1))
    spot = Room(star).find(width, height, angle)
    if spot is not None:
        assert star.contains(spot.shape())
        assert (spot.width, spot.height, spot.angle) == (width, height, angle)
    else:
        inscribed = shapely.maximum_inscribed_circle(star).length
        assert np.hypot(width + 3, height + 3) > 2 * inscribed - 8  # a rectangle within the largest circle is found


def test_the_widest_margin_wins_then_the_nearest() -> None:
    room = Room(shapely.box(0, 0, 300, 100))
    spot = room.find(20, 10, near=(0, 50))
    assert spot is not None
    assert 48 <= spot.x <= 58 and abs(spot.y - 50) < 4  # 40 mm of air on the left, above and below


def test_no_room_is_none_and_an_empty_room_has_none() -> None:
    assert Room(shapely.box(0, 0, 30, 10)).find(31, 5) is None
    assert Room(shapely.Polygon()).find(1, 1) is None


def test_a_mask_marks_cells_whose_middle_is_inside_holes_left_out() -> None:
    shape = shapely.box(0, 0, 10, 10) - shapely.box(3, 3, 7, 7)
    found = mask(rings_of(shape), np.array([-1.0, -1.0]), (1.0, 1.0), (12, 12))
    x, y = np.meshgrid(np.arange(12) - 0.5, np.arange(12) - 0.5)
    assert np.array_equal(found, shapely.contains_xy(shape, x, y))


@pytest.mark.parametrize("page", [LETTER, A4], ids=["letter", "a4"])
@pytest.mark.parametrize("bodies", [list(range(7)), [0], [2], [6]], ids=["all", "XS", "M", "3XL"])
def test_pieces_lie_apart_on_few_pages(garment: Garment, bodies: list[int], page: tuple[float, float]) -> None:
    drawn = draw_pattern(garment, bodies)
    packing = pack_on_pages([piece.footprint.rings for piece in drawn.pieces], page)
    moved = [piece.moved(turn) for piece, turn in zip(drawn.pieces, packing.turns, strict=True)]
    shapes = [shapely.union_all([shapely.Polygon(ring) for ring in piece.footprint.rings]) for piece in moved]
    for k, shape in enumerate(shapes):
        assert all(shape.distance(other) >= CELL * 0.95 for other in shapes[:k])
    left, top, right, bottom = shapely.union_all(shapes).bounds
    assert left >= 0 and top >= 0 and right <= packing.columns * page[0] and bottom <= packing.rows * page[1]
    sheet = on_pages(drawn, page)
    name = "letter" if page == LETTER else "a4"
    pages = len(grid(sheet, PAPERS[name], 2).pages)
    assert pages <= (18 if len(bodies) > 1 else {0: 14, 2: 15, 6: 18}[bodies[0]]), (SIZES[bodies[0]], pages)


def test_a_nudge_keeps_the_pages_and_spares_the_small_sizes_some(garment: Garment) -> None:
    footprints = [piece.footprint for piece in draw_pattern(garment, range(7)).pieces]
    packing = pack_on_pages([footprint.rings for footprint in footprints], LETTER)
    moved = nudge(packing, footprints, LETTER)

    def pages(turns: tuple[Turn, ...], rings: list[tuple[np.ndarray, ...]]) -> int:
        placed = [t.points(ring) for t, some in zip(turns, rings, strict=True) for ring in some]
        shape = shapely.union_all([shapely.Polygon(ring) for ring in placed])
        return pages_touched(shape, (0.0, 0.0), packing.columns, packing.rows, LETTER)

    whole = [footprint.rings for footprint in footprints]
    assert pages(moved.turns, whole) <= pages(packing.turns, whole)
    by_size = [[footprint.by_size[k] for footprint in footprints] for k in range(7)]
    assert sum(pages(moved.turns, one) for one in by_size) <= sum(pages(packing.turns, one) for one in by_size)


def _rectangles(sides: list[tuple[float, float]]) -> list[list[np.ndarray]]:
    return [[np.array([[0.0, 0], [w, 0], [w, h], [0, h], [0, 0]])] for w, h in sides]


@given(st.lists(st.tuples(st.floats(5, 700), st.floats(5, 500)), min_size=1, max_size=6))
@settings(max_examples=40, deadline=None)
def test_pieces_of_any_size_never_overlap(sides: list[tuple[float, float]]) -> None:
    pieces = _rectangles(sides)
    packing = pack_on_pages(pieces, LETTER, rounds=6)
    shapes = [shapely.Polygon(turn.points(rings[0])) for rings, turn in zip(pieces, packing.turns, strict=True)]
    sheet = shapely.box(0, 0, packing.columns * LETTER[0], packing.rows * LETTER[1])
    for k, shape in enumerate(shapes):
        assert sheet.contains(shape)
        assert all(shape.distance(other) >= CELL * 0.95 for other in shapes[:k])


def test_packing_is_repeatable(garment: Garment) -> None:
    areas = [piece.footprint.rings for piece in draw_pattern(garment, [1]).pieces]
    assert pack_on_pages(areas, LETTER) == pack_on_pages(areas, LETTER)


def test_one_piece_that_fits_one_page_takes_one_page() -> None:
    packing = pack_on_pages(_rectangles([(185, 250)]), LETTER)
    assert (packing.columns, packing.rows) == (1, 1)
    turned = pack_on_pages(_rectangles([(250, 185)]), LETTER)
    assert (turned.columns, turned.rows) == (1, 1) and turned.turns[0].quarters % 2 == 1


def test_many_small_pieces_share_a_page() -> None:
    packing = pack_on_pages(_rectangles([(50, 50)] * 9), LETTER)
    assert packing.columns * packing.rows == 1


def test_words_that_move_once_the_pages_are_known_get_room_there(tmp_path: Path) -> None:
    """A drill mark at a corner has its words beside the piece: turned for few pages, they came to lie on another."""
    (tmp_path / "drilled.piece").write_text(DRILLED)
    (tmp_path / "sizes.csv").write_text((folder("pieces") / "women.csv").read_text())
    garment = draft_and_check(asked(tmp_path / "drilled.piece", sizes=("M", "L"))).to_cut
    drawn = draw_pattern(garment, range(2))
    sheet_of = PAPERS["a4"].live
    laid = []

    def pack(footprints: Sequence[Footprint]) -> Packing:
        laid.append(footprints)
        return nudge(pack_on_pages([one.rings for one in footprints], sheet_of), footprints, sheet_of)

    _, moved = laid_out(drawn, pack, lambda _: sheet_of)
    shapes = [shapely.union_all([shapely.Polygon(ring) for ring in piece.footprint.rings]) for piece in moved]
    assert len(laid) == 2
    assert all(not shape.intersects(other) for k, shape in enumerate(shapes) for other in shapes[:k])
