"""Shapes laid by columns never overlap, lie as low as they can, and in bettered orders never longer than at first."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.geometry.column_profile import UNIT, by_columns, kept_apart
from draft.geometry.ground import Clearances, Ground, Page, Place
from draft.geometry.in_order import InOrder, Kind

STEP = 10.0
corners = st.lists(st.tuples(st.floats(1, 200), st.floats(1, 200)), min_size=3, max_size=9)


def ring_of(points):
    """A ring that begins at 0 across and along: the hull of the points, with one corner pushed in where that can be."""
    hull = shapely.MultiPoint(points).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 50:
        return None
    ring = shapely.get_coordinates(hull.exterior)[:-1]
    dented = ring.copy()
    dented[0] = 0.3 * ring[0] + 0.7 * np.asarray(hull.centroid.coords[0])
    ring = dented if shapely.Polygon(dented).is_valid else ring
    return ring - ring.min(axis=0)


rings = corners.map(ring_of).filter(lambda ring: ring is not None)


def placed(ring, place):
    """A ring where a place puts it."""
    return shapely.Polygon(ring + np.array([place.column * STEP, place.height * UNIT]))


@given(rings)
def test_columns_hold_the_whole_shape(ring):
    columns = by_columns(ring, STEP)
    boxes = [
        shapely.box(k * STEP, low * UNIT, (k + 1) * STEP, high * UNIT)
        for k, (low, high) in enumerate(zip(columns.low, columns.high, strict=True))
    ]
    assert shapely.Polygon(ring).difference(shapely.union_all(boxes)).area < 1e-6
    assert len(columns) == int(np.ceil(ring[:, 0].max() / STEP - 1e-6))


def test_columns_of_a_known_shape():
    """A right triangle, and a vertical side on the edge of a column that belongs to both."""
    columns = by_columns(np.array([(0.0, 0.0), (30.0, 0.0), (0.0, 30.0)]), STEP)
    assert (columns.low * UNIT).tolist() == [0, 0, 0]
    assert (columns.high * UNIT).tolist() == [30, 20, 10]
    stepped = by_columns(np.array([(0.0, 0.0), (20.0, 0.0), (20.0, 5.0), (10.0, 5.0), (10.0, 40.0), (0.0, 40.0)]), STEP)
    assert (stepped.high * UNIT).tolist() == [40, 40]


def test_kept_apart_is_what_it_says():
    square, bar = (
        by_columns(np.array([(0, 0), (w, 0), (w, h), (0, h)], dtype=float), STEP) for w, h in ((20, 20), (10, 5))
    )
    low, high = kept_apart(square, bar)
    assert (low * UNIT).tolist() == [-5, -5] and (high * UNIT).tolist() == [20, 20]


@settings(max_examples=60, deadline=None)
@given(st.lists(rings, min_size=2, max_size=6), st.randoms(use_true_random=False))
def test_laid_shapes_do_not_overlap_and_each_lies_as_low_as_it_can(shapes, chance):
    columns = [by_columns(ring, STEP) for ring in shapes]
    clear = Clearances()
    numbers = clear.numbers([(one, False) for one in columns])
    ground = Ground.empty(clear, 30, 12)
    laid = []
    for _ in range(12):
        k = chance.randrange(len(shapes))
        place = ground.lowest_place(numbers[k])
        assert place == lowest_by_trying(columns, laid, k, numbers[k])
        ground.lay(place)
        laid.append((k, place))
    polygons = [placed(shapes[k], place) for k, place in laid]
    assert shapely.union_all(polygons).area == pytest.approx(sum(one.area for one in polygons), abs=1e-3)


def lowest_by_trying(columns, laid, k, number):
    """The lowest free place, the leftmost of such, found by trying every height at which another piece ends."""
    best = None
    for column in range(30 - len(columns[k]) + 1):
        spans = [span for j, place in laid if (span := kept_by(columns[j], place, columns[k], column))]
        heights = sorted({0, *(high for _, high in spans if high > 0)})
        height = next(h for h in heights if not any(low < h < high for low, high in spans))
        if best is None or height < best.height:
            best = Place(number, column, int(height))
    return best


def kept_by(lying, place, own, column):
    """The heights that a piece keeps from a shape whose first column is `column`; None if they do not meet."""
    met = [(c, at) for c in range(len(own)) if 0 <= (at := column + c - place.column) < len(lying)]
    if not met:
        return None
    low = min(place.height + lying.low[at] - own.high[c] for c, at in met)
    return low, max(place.height + lying.high[at] - own.low[c] for c, at in met)


def test_shapes_that_take_the_same_room_have_one_number():
    clear = Clearances()
    bar = by_columns(np.array([(0, 0), (20, 0), (20, 5), (0, 5)], dtype=float), STEP)
    assert clear.numbers([(bar, False), (bar, False), (bar, True)]) == [0, 0, 1]
    wide = by_columns(np.array([(0, 0), (90, 0), (90, 5), (0, 5)], dtype=float), STEP)
    before = clear.low[0, 0].copy()
    assert clear.numbers([(wide, False)]) == [2]
    kept = slice(clear.reach - len(bar), clear.reach + len(bar) + 1)
    assert np.array_equal(clear.low[0, 0][kept], before) and clear.reach == 9


def test_a_shape_on_the_fold_lies_at_the_left_and_one_too_wide_nowhere():
    clear = Clearances()
    bar, wide = (by_columns(np.array([(0, 0), (w, 0), (w, 5), (0, 5)], dtype=float), STEP) for w in (20, 90))
    on_fold, free, nowhere = clear.numbers([(bar, True), (bar, False), (wide, False)])
    ground = Ground.empty(clear, 5, 4)
    assert ground.lowest_place(nowhere) is None
    for height in (0, 10):
        place = ground.lowest_place(on_fold)
        assert (place.column, place.height) == (0, height)
        ground.lay(place)
    assert ground.lowest_place(free) == Place(free, 2, 0)
    assert ground.lowest_place(free, 0, 1) == Place(free, 0, 20)


def test_shapes_that_fit_on_a_page_lie_on_one():
    clear = Clearances()
    (bar,) = clear.numbers([(by_columns(np.array([(0, 0), (20, 0), (20, 30), (0, 30)], dtype=float), STEP), False)])
    ground = Ground.empty(clear, 6, 9, Page(3, 50.0, frozenset({bar})))
    found = []
    for _ in range(6):
        place = ground.lowest_place(bar)
        ground.lay(place)
        found.append((place.column, place.height * UNIT))
    assert found == [(0, 0.0), (3, 0.0), (0, 50.0), (3, 50.0), (0, 100.0), (3, 100.0)]


def test_a_bettered_order_is_never_longer_and_always_the_same():
    clear = Clearances()
    sizes = [(70, 90), (50, 40), (30, 120), (20, 20), (90, 30), (40, 70)]
    shapes = [by_columns(np.array([(0, 0), (w, 0), (w, h), (0, h)], dtype=float), STEP) for w, h in sizes]
    numbers = clear.numbers([(shape, False) for shape in shapes])
    kinds = [Kind((number,), 3, float(w * h)) for number, (w, h) in zip(numbers, sizes, strict=True)]
    strip = InOrder(kinds, 15, STEP, clear)
    start = strip.start
    best = strip.bettered(start, 400)
    assert best.length < start.length  # 18 bars leave gaps at first
    assert best.length >= sum(3 * w * h for w, h in sizes) / 150
    assert sorted(best.order) == sorted(start.order)
    again = InOrder(kinds, 15, STEP, clear)
    assert again.bettered(again.start, 400).places == best.places
    assert strip.lay(best.order).places == best.places  # laid on from another order, it is laid as from nothing
