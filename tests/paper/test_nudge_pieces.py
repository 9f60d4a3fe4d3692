"""Lines of pieces are kept out of the tape between pages, where a piece has room to be moved: no page more for it."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from draft.paper.drawing.drawing import Footprint, Turn
from draft.paper.pages.nudge_pieces import lines_in_tape, pieces_nudged
from draft.paper.pages.packing_rules import Packing
from draft.paper.pages.paged_sheet import PagedSheet
from tests.paper.patterns import on_paper
from tests.pieces.bundled import PATTERNS

LIVE = (200.0, 250.0)
TAPED = 2.0


def _square(side: float) -> Footprint:
    ring = np.array([(0, 0), (side, 0), (side, side), (0, side), (0, 0)], dtype=float)
    return Footprint("square", "", (ring,), ((ring,),))


def _packed(*turns: Turn) -> Packing:
    return Packing(turns, columns=2, rows=1)


def test_a_line_in_the_tape_is_moved_out_of_it() -> None:
    packing = _packed(Turn(0, 99.0, 50.0))  # its right side 1 mm short of the second page
    assert lines_in_tape(_square(100.0), packing.turns[0], packing, LIVE) == pytest.approx(100.0)
    (turn,) = pieces_nudged(packing, [_square(100.0)], LIVE).turns
    assert abs(turn.dx + 100.0 - LIVE[0]) >= TAPED and abs(turn.dx - 99.0) <= 5.0 and turn.dy == 50.0


def test_a_piece_without_room_stays_and_no_page_more_is_needed() -> None:
    shut_in = _packed(Turn(0, 99.0, 50.0), Turn(0, 0.0, 48.0))  # at its left lies another piece, at its right a page
    squares = [_square(100.0), _square(98.0)]
    assert pieces_nudged(shut_in, squares, LIVE).turns == shut_in.turns


def test_a_piece_clear_of_tape_is_not_moved() -> None:
    packing = _packed(Turn(0, 50.0, 50.0))
    assert pieces_nudged(packing, [_square(100.0)], LIVE) == packing


@pytest.mark.parametrize(("pattern", "sizes"), [("tidemill", ("M",)), ("netloft", ()), ("marlpit", ())])
def test_bundled_patterns_have_hardly_a_line_in_the_tape(pattern: str, sizes: tuple[str, ...]) -> None:
    for paper in ("letter", "a4"):
        assert _taped(pattern, paper, *sizes) < 20.0


def test_a_line_stays_in_the_tape_where_its_piece_would_need_a_page_more() -> None:
    """The hem of Netloft's front in M, on A4: a little higher or lower it touches another page."""
    sheet = on_paper("netloft", "a4", "M")
    front = next(one for one in sheet.drawing.footprints if one.name == "Front")
    others = [one for one in sheet.drawing.footprints if one is not front]
    pages = _pages(sheet, [*others, front], (0.0, 0.0))
    moves = [(x, y) for x in (-3.0, 0.0, 3.0) for y in (-5.0, -3.0, 3.0, 5.0)]
    assert _taped("netloft", "a4", "M") > 500.0
    assert all(len(_pages(sheet, others, (0.0, 0.0)) | _pages(sheet, [front], move)) > len(pages) for move in moves)


def _pages(sheet: PagedSheet, pieces: list[Footprint], move: tuple[float, float]) -> set[tuple[int, int]]:
    """The columns and rows of pages that pieces of a finished sheet touch, moved so far."""
    wide, tall = sheet.grid.paper.live
    shape = shapely.MultiPolygon([shapely.Polygon(ring + np.array(move)) for one in pieces for ring in one.rings])
    columns, rows = round(sheet.drawing.width / wide) + 1, round(sheet.drawing.height / tall) + 1
    cells = {
        (x, y): shapely.box(x * wide, y * tall, (x + 1) * wide, (y + 1) * tall)
        for x in range(-1, columns)
        for y in range(-1, rows)
    }
    return {at for at, cell in cells.items() if shapely.intersects(shape, cell)}


@pytest.mark.slow
def test_how_much_of_all_patterns_lies_in_the_tape() -> None:
    found = {
        (pattern, paper, sizes): _taped(pattern, paper, *sizes)
        for pattern in PATTERNS for paper in ("letter", "a4") for sizes in ((), ("M",))
    }  # fmt: skip
    print("\nmm of cutting lines in the tape:", {key: round(mm) for key, mm in found.items() if mm >= 15.0})
    assert sum(found.values()) < 1000.0  # 5,211 without moving pieces; 524 with it


def _taped(pattern: str, paper: str, *sizes: str) -> float:
    """How many mm of cutting lines run within 2 mm of an inner edge of a page, read off the finished sheet."""
    sheet = on_paper(pattern, paper, *sizes)
    found, sides = 0.0, (sheet.drawing.width, sheet.drawing.height)
    for ring in (ring for one in sheet.drawing.footprints for size in one.by_size for ring in size):
        ways, middles = np.diff(ring, axis=0), (ring[:-1] + ring[1:]) / 2
        for axis, (step, whole) in enumerate(zip(sheet.grid.paper.live, sides, strict=True)):
            along = np.abs(ways[:, axis]) < 0.1 * np.abs(ways[:, 1 - axis])
            edges = step * np.arange(1, round(whole / step))
            near = np.abs(middles[:, axis, None] - edges).min(axis=1, initial=np.inf) < TAPED
            found += float(np.abs(ways[along & near, 1 - axis]).sum())
    return found
