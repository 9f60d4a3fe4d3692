"""One half of the cloth mirrored, and what has no twin beside it: nothing overlaps, nothing is missing."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.cloth.batches import Batch, Shelf, open_batches
from draft.cloth.cut_pieces import CutPiece, made
from draft.cloth.effort import Effort
from draft.cloth.laid_beside import laid_beside
from draft.cloth.lay import Lay, Strip
from draft.cloth.lays import lay_of
from draft.cloth.many_pieces import column_step, lay_many
from draft.cloth.search import Put, StripLay
from draft.cloth.twins import opened, twins_of
from draft.cloth.verify import faults
from tests.cloth.made_up import ell, rectangle
from tests.cloth.shapes_drawn import cut_pieces

WIDTH = 1200.0


def lay(puts: list[Put]) -> Lay:
    return lay_of("open", WIDTH, [(Strip(0.0, WIDTH), StripLay.of(puts))], Effort())


def pieces() -> tuple[CutPiece, ...]:
    """Sleeves as pairs, bars that mirror themselves, and one of each sort that has no twin."""
    return (
        made(1, "sleeve", "M", 6, ell(300, 400, 110, 90), "as a pair"),
        made(2, "bar", "M", 5, rectangle(180, 70)),
        made(3, "belt", "M", 1, rectangle(700, 40)),
        made(4, "tab", "M", 1, ell(60, 80, 20, 30), "right side up"),
    )


def test_what_comes_in_twos_has_a_twin_and_all_else_is_left() -> None:
    found = twins_of(pieces(), Shelf(), False, WIDTH)
    assert found
    assert [(batch.shapes[0].cut_piece.name, batch.count) for batch in found.batches] == [("sleeve", 3), ("bar", 2)]
    left = [(batch.shapes[0].cut_piece.name, batch.count) for batch in found.left]
    assert left == [("bar", 1), ("belt", 1), ("tab", 1)]  # the belt is wider than half of the cloth


def test_of_cloth_one_way_nothing_is_turned_and_nothing_comes_of_it_where_much_has_no_twin() -> None:
    found = twins_of(pieces(), Shelf(), True, WIDTH)
    assert found and all(len(batch.shapes) == 1 for batch in found.batches)
    one_hand = tuple(made(k, "cuff", "M", 2, ell(300, 400, 110, 90), "right side up") for k in range(4))
    assert twins_of(one_hand, Shelf(), False, WIDTH) is None
    assert twins_of((*pieces(), *one_hand), Shelf(), False, WIDTH) is None


def test_the_other_half_is_the_mirror_of_the_first() -> None:
    shelf = Shelf()
    sleeve, bar = pieces()[:2]
    first = [Put(0, shelf.shape(sleeve, 1, 1), 10.0, 0.0), Put(1, shelf.shape(bar, 1, 1), 330.0, 20.0)]
    found = lay(opened(first, WIDTH, shelf)).copies()
    for own, twin in zip(found[::2], found[1::2], strict=True):
        mirrored = own.ring * (-1.0, 1.0) + (WIDTH, 0.0)
        assert sorted(map(tuple, twin.ring.round(6))) == sorted(map(tuple, mirrored.round(6)))
    assert [one.move.face_down for one in found] == [False, True, False, False]


@settings(max_examples=25, deadline=None)
@given(cut_pieces(3), st.booleans(), st.integers(1100, 1700))
def test_twins_and_what_is_left_make_a_lay_that_can_be_cut(
    drawn: tuple[CutPiece, ...], one_way: bool, wide: int
) -> None:
    """Random pieces among many pairs: by columns on one half, mirrored, and the rest beside, always alike."""
    whole = (
        made(90, "panel", "M", 12, ell(500, 900, 180, 300), "as a pair"),
        made(91, "band", "M", 12, rectangle(400, 300)),
    )
    own, width, lays = (*whole, *drawn), float(wide), list[list[Put]]()
    for _ in range(2):
        shelf = Shelf()
        found = twins_of(own, shelf, one_way, width)
        if found is None:
            return
        half = lay_many(found.batches, width / 2, column_step(width, own), shelf, Effort(pieces=50))
        assert half
        laid = laid_beside(opened(half.puts, width, shelf), found.left, width, column_step(width, own))
        assert laid
        lays.append(laid)
    whole_lay = lay_of("open", width, [(Strip(0.0, width), StripLay.of(lays[0]))], Effort())
    assert faults(whole_lay, own) == []
    assert [(put.x, put.y) for put in lays[0]] == [(put.x, put.y) for put in lays[1]]


def test_what_is_left_goes_into_a_gap_that_holds_it() -> None:
    shelf = Shelf()
    bar, tab = made(1, "bar", "M", 2, rectangle(500, 300)), made(2, "tab", "M", 1, rectangle(150, 100))
    shape, step = shelf.shape(bar, 1, 1), 5.0
    apart = [Put(0, shape, 0.0, 0.0), Put(0, shape, 700.0, 0.0)]
    beside = twins_of((bar, tab), shelf, False, WIDTH)
    assert beside is None or beside.left
    (*_, put) = laid_beside(apart, _alone(tab, shelf), WIDTH, step) or []
    assert put.y == pytest.approx(0.0, abs=0.5) and 500.0 <= put.x <= 550.0
    wide = made(3, "wide", "M", 1, rectangle(1300, 100))
    assert laid_beside(apart, _alone(wide, shelf), WIDTH, step) is None
    (*_, over) = laid_beside(apart, _alone(made(4, "over", "M", 1, rectangle(1200, 40)), shelf), WIDTH, step) or []
    assert over.y == pytest.approx(300.0, abs=1.0) and np.isclose(over.x, 0.0)


def _alone(cut_piece: CutPiece, shelf: Shelf) -> list[Batch]:
    return open_batches([cut_piece], shelf, False)
