"""A grid of room that has something taken out of it, or is turned a quarter, is that of what is left, turned."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from draft.base.arrays import Floats
from draft.paper.drawing.room import CLEAR, Room
from draft.paper.drawing.room_grid import Grid

STAR = shapely.Polygon([(0, 0), (200, 10), (260, 120), (90, 70), (40, 190)])


def middles(grid: Grid) -> Floats:
    """Of its free cells, on paper."""
    rows, columns = np.nonzero(grid.free)
    found = (grid.origin + grid.cell * np.stack([columns + 0.5, rows + 0.5], axis=-1)) @ grid.turn
    return np.asarray(found[np.lexsort(np.round(found, 3).T)])


@given(st.floats(0, 90, exclude_max=True), st.integers(-4, 4))
def test_a_quarter_turn_reads_the_same_cells(angle: float, quarters: int) -> None:
    grid = Grid.of(STAR, angle, 3.0)
    turned = grid.turned(angle + 90.0 * quarters, quarters)
    assert middles(turned) == pytest.approx(middles(grid), abs=1e-6)


@given(st.floats(-180, 180), st.floats(0, 260), st.floats(0, 190), st.floats(1, 90), st.floats(0, 5))
def test_no_cell_that_is_left_comes_near_what_was_taken(
    angle: float, x: float, y: float, w: float, about: float
) -> None:
    taken = shapely.box(x, y, x + w, y + w / 2)
    grid = Grid.of(STAR, angle, 3.0)
    left = grid.without(taken, about)
    both, off = middles(grid), 0.69 * grid.cell + 0.92 * about  # arcs are drawn as chords, a little within
    far = shapely.distance(taken, shapely.points(both))
    assert (shapely.distance(taken, shapely.points(middles(left))) > off).all()
    assert left.free.sum() >= (far > 0.76 * grid.cell + about).sum()
    assert not (left.free & ~grid.free).any()


@given(st.floats(-180, 180), st.floats(5, 60), st.floats(2, 30))
def test_what_is_placed_in_the_rest_of_a_room_lies_there(angle: float, width: float, height: float) -> None:
    room = Room(STAR).without(shapely.box(60, 30, 110, 60)).without(shapely.LineString([(0, 0), (40, 190)]), 4.0)
    spot = room.find(width, height, angle, clear=(0.0,))
    if spot is not None:
        assert room.shape.buffer(1e-6).covers(spot.shape())
    taken = STAR.difference(shapely.box(60, 30, 110, 60)).difference(
        shapely.LineString([(0, 0), (40, 190)]).buffer(4.0)
    )
    assert room.shape.symmetric_difference(taken).area < 0.02 * taken.area


@given(st.integers(0, 10**6), st.floats(2, 40), st.integers(1, 80))
def test_places_apart_are_those_that_are_apart_one_by_one(seed: int, width: float, most: int) -> None:
    near = tuple(np.random.default_rng(seed).uniform(0, 200, 2).tolist())
    grid = Grid.of(STAR, 0.0, 3.0)
    found = list(grid.places(width, 4.0, near, most))
    every, expected = list(grid.places(width, 4.0, near, 1)), list[tuple[float, float]]()
    left = _middles(grid, width, 4.0)
    order = np.argsort(np.round(np.sum((left - grid.turn @ np.array(near)) ** 2, axis=1), 3), kind="stable")
    for x, y in left[order].tolist():
        if all(abs(x - a) > width / 2 - 1e-9 or abs(y - b) > 2.0 - 1e-9 for a, b in expected):
            expected.append((x, y))
    assert found == expected[:most] and every == expected[:1]


@given(st.floats(2, 90), st.floats(2, 60), st.floats(-180, 180), st.integers(1, len(CLEAR)))
def test_the_widest_margin_is_the_first_that_fits(width: float, height: float, angle: float, count: int) -> None:
    grid, room, clear = Grid.of(STAR, angle, 3.0), Room(STAR), CLEAR[-count:]
    room._grids[angle] = grid
    found = (grid.place(width + 2 * margin, height + 2 * margin, room.middle) for margin in clear)
    first = next((place for place in found if place), None)
    spot = room.find(width, height, angle, clear=clear)
    assert (spot and (spot.x, spot.y)) == first


def _middles(grid: Grid, width: float, height: float) -> Floats:
    """Of all free rectangles of a size, on a grid that is not turned."""
    wide, high = (int(np.ceil(side / grid.cell)) for side in (width, height))
    windows = np.lib.stride_tricks.sliding_window_view(grid.free, (high, wide))
    rows, columns = np.nonzero(windows.all(axis=(2, 3)))
    return np.asarray(grid.origin + grid.cell * np.stack([columns + wide / 2, rows + high / 2], axis=-1))
