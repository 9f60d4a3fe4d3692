"""A lay moved together as one: never longer, still a lay, the same every time, and tight where anybody can see it."""

import numpy as np
import pytest

from draft.cloth.batches import Shelf, open_batches
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import made
from draft.cloth.effort import Effort
from draft.cloth.lay import Strip
from draft.cloth.lays import lay_as, lay_of
from draft.cloth.many_pieces import column_step, lay_many
from draft.cloth.search import Put, StripLay
from draft.cloth.verify import faults
from tests.cloth.made_up import ell, rectangle

pytest.importorskip("scipy")

from draft.cloth.compacted import _walls, compacted

WIDTH = 900.0


def checked(laid, cut_pieces):
    return faults(lay_of("open", WIDTH, [(Strip(0.0, WIDTH), laid)], Effort()), cut_pieces)


def mixed():
    """Forty pieces, hollow and full, that columns leave gaps between."""
    ells = [
        made(k, f"ell {k}", "M", 4, ell(150 + 13.7 * k, 220 - 3.1 * k, 61.3, 47.9), "as a pair") for k in range(1, 7)
    ]
    bars = [made(k, f"bar {k}", "M", 4, rectangle(81.7 + 9.3 * k, 57.1 + 7.7 * k)) for k in range(7, 11)]
    return (*ells, *bars)


def laid_loosely(cut_pieces, shelf):
    batches = open_batches(cut_pieces, shelf, False)
    return lay_many(batches, WIDTH, column_step(WIDTH, cut_pieces), shelf, Effort(pieces=0))


def test_bars_above_one_another_close_up_to_the_last_hair():
    shelf, cut_pieces = Shelf(), (made(1, "bar", "M", 3, rectangle(600, 100)),)
    shape = shelf.shape(cut_pieces[0], 1, 1)
    loose = StripLay.of([Put(0, shape, 50.0 + 100 * k, 20.0 + 130.0 * k) for k in range(3)])
    found = compacted(loose, WIDTH, shelf)
    assert found.length == pytest.approx(300.0, abs=3 * 1.0)  # outlines grow by up to half a mm for the search
    assert checked(found, cut_pieces) == []


def test_a_lay_by_columns_becomes_shorter_and_stays_one():
    shelf, cut_pieces = Shelf(), mixed()
    loose = laid_loosely(cut_pieces, shelf)
    found = compacted(loose, WIDTH, shelf)
    assert found.length < loose.length - 1.0
    assert checked(found, cut_pieces) == []
    assert [(put.batch, put.shape) for put in found.puts] == [(put.batch, put.shape) for put in loose.puts]


def test_the_same_lay_gives_the_same_every_time():
    places = []
    for _ in range(2):
        shelf = Shelf()
        found = compacted(laid_loosely(mixed(), shelf), WIDTH, shelf)
        places.append([(put.x, put.y) for put in found.puts])
    assert places[0] == places[1]


def test_what_is_tight_already_stays_as_it_is():
    shelf, cut_pieces = Shelf(0.0), (made(1, "bar", "M", 4, rectangle(450, 100)),)
    lay = lay_as("open", cut_pieces, Cloth(WIDTH), Effort(), shelf)
    assert lay.length == pytest.approx(200.0, abs=0.01)
    shape = shelf.shape(cut_pieces[0], 1, 1)
    tight = StripLay.of([Put(0, shape, 450.0 * (k % 2), 100.0 * (k // 2)) for k in range(4)])
    assert compacted(tight, WIDTH, shelf).length == pytest.approx(tight.length, abs=0.01)


def test_walls_part_a_place_in_a_hollow_from_all_that_is_about_it():
    import shapely

    hollow = shapely.Polygon([(-9, -9), (9, -9), (9, 9), (2, 9), (2, -2), (-2, -2), (-2, 9), (-9, 9)])
    walls = _walls(hollow, np.array([0.5, 1.0]))
    assert sorted((*way.round(6).tolist(), round(room, 6)) for way, room in walls) == [
        (-1.0, 0.0, 1.5), (0.0, 1.0, 3.0), (1.0, 0.0, 2.5),
    ]  # fmt: skip
    assert _walls(hollow, np.array([0.0, -5.0])) is None  # it lies within
    assert _walls(shapely.Polygon(), np.array([0.0, 0.0])) == []
