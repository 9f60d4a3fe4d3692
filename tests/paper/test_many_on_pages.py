"""Many pieces on pages: apart, on the sheet, whole where they must be, upright where they must be."""

import numpy as np
import pytest
import shapely

from draft.paper.pages import packing
from draft.paper.pages.packing import pack_on_pages
from draft.paper.pages.packing_rules import CELL, COARSE, Rules

LIVE = (190.0, 254.0)


def rectangle(wide, tall):
    return [np.array([(0, 0), (wide, 0), (wide, tall), (0, tall), (0, 0)], dtype=float)]


PIECES = [rectangle(60 + 37 * (k % 6), 40 + 71 * (k % 7)) for k in range(40)]


def laid(pieces, packed):
    return [
        shapely.union_all([shapely.Polygon(turn.points(ring)) for ring in rings])
        for rings, turn in zip(pieces, packed.turns, strict=True)
    ]


def closest(shapes):
    return min(a.distance(b) for k, a in enumerate(shapes) for b in shapes[:k])


@pytest.mark.parametrize(
    "rules", (Rules(), Rules(whole=True, cell=COARSE), Rules(roll=True, cell=COARSE, upright=(3, 5)))
)
def test_pieces_lie_apart_on_the_sheet(rules):
    live = (900.0, 300.0) if rules.roll else LIVE
    packed = pack_on_pages(PIECES, live, rules)
    shapes = laid(PIECES, packed)
    sheet = shapely.box(-0.01, -0.01, packed.columns * live[0] + 0.01, packed.rows * live[1] + 0.01)
    assert all(sheet.contains(shape) for shape in shapes)
    assert closest(shapes) >= rules.cell - 0.3
    assert all(packed.turns[k].quarters == 0 for k in rules.upright)
    assert not rules.roll or packed.columns == 1


def test_the_pages_are_few():
    packed = pack_on_pages(PIECES, LIVE)
    shapes = laid(PIECES, packed)
    pages = [
        shapely.box(c * LIVE[0], r * LIVE[1], (c + 1) * LIVE[0], (r + 1) * LIVE[1]).buffer(-0.01)
        for c in range(packed.columns)
        for r in range(packed.rows)
    ]
    used = sum(any(page.intersects(shape) for shape in shapes) for page in pages)
    filled = sum(shape.buffer(CELL / 2, join_style="mitre").area for shape in shapes) / (LIVE[0] * LIVE[1])
    assert used <= 1.25 * filled + 2


def test_a_piece_that_fits_on_a_page_lies_on_one():
    packed = pack_on_pages(PIECES, LIVE, Rules(whole=True))
    for rings, shape in zip(PIECES, laid(PIECES, packed), strict=True):
        wide, tall = np.ptp(rings[0], axis=0)
        if max(wide, tall) + CELL < LIVE[0]:
            left, top, right, bottom = shape.bounds
            assert int(left // LIVE[0]) == int((right - 0.01) // LIVE[0])
            assert int(top // LIVE[1]) == int((bottom - 0.01) // LIVE[1])


def test_a_piece_wider_than_any_strip_that_was_tried():
    pieces = [*PIECES[:17], rectangle(5_000, 5_000)]
    packed = pack_on_pages(pieces, LIVE)
    assert closest(laid(pieces, packed)) > 3.5


def test_few_large_pieces_are_laid_by_columns_too(monkeypatch):
    called = []
    real = packing.lay_many
    monkeypatch.setattr(packing, "lay_many", lambda *given: called.append(1) or real(*given))
    pack_on_pages([rectangle(4_000, 3_500)], LIVE)
    assert called
