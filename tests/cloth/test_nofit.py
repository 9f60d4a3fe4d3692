"""No-fit regions, against shapely laying the one outline on the other at many places."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.cloth import nofit
from draft.cloth.nofit import SLACK, region, reversed_region
from draft.cloth.simplified import counterclockwise, flipped
from tests.cloth.made_up import ell, rectangle
from tests.cloth.shapes_drawn import rings

NEAR = 0.05
"""mm: nearer to touching than this, rounding may decide either way."""


@given(rings(), rings(), st.integers(0, 2**32 - 1))
@settings(max_examples=60, deadline=None)
def test_a_region_holds_just_the_moves_that_overlap(fixed, moving, seed):
    fixed, moving = counterclockwise(fixed), counterclockwise(moving)
    low, high = fixed.min(axis=0) - moving.max(axis=0) - 20, fixed.max(axis=0) - moving.min(axis=0) + 20
    moves = np.random.default_rng(seed).uniform(low, high, (200, 2))
    found = region(fixed, moving)
    inside = shapely.contains_xy(found, moves)
    laid = shapely.polygons(moving[None] + moves[:, None])
    deep = shapely.intersects(shapely.Polygon(fixed).buffer(-NEAR), shapely.buffer(laid, -NEAR))
    clear = shapely.distance(shapely.Polygon(fixed), laid) > NEAR
    assert not (deep & ~inside).any()
    assert not (clear & inside).any()


@given(rings(), rings(), st.booleans(), st.sampled_from([(1, 1), (-1, 1), (1, -1), (-1, -1)]))
@settings(max_examples=60, deadline=None)
def test_crossings_as_exact_as_numbers_are_give_the_region_of_the_grid(fixed, other, itself, turned):
    """A ring beside itself, mirrored, has many sides on one line: there ends may miss one another by a hair."""
    fixed = counterclockwise(fixed)
    moving = flipped(fixed if itself else counterclockwise(other), *turned)
    found = region(fixed, moving)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(nofit, "_nearly_meet", lambda _net: True)
        on_grid = region(fixed, moving)
    assert found.symmetric_difference(on_grid).area < 1e-3 * found.length


def test_an_end_that_misses_a_line_by_a_hair_is_found():
    square = [[(0, 0), (50, 0)], [(50, 0), (50, 50)], [(50, 50), (0, 50)]]
    gap = np.array([*square, [(0, 50), (0, 3e-4)]])
    assert nofit._nearly_meet(shapely.linestrings(gap))
    whole = np.array([*square, [(0, 50), (0, 0)]])
    assert not nofit._nearly_meet(shapely.linestrings(whole))
    assert not nofit._nearly_meet(shapely.linestrings(np.array([*whole, [(50, 50), (70, 50)]])))


def test_two_rectangles_by_hand():
    """The sum of 300 x 40 and 100 x 70 turned end for end is 400 x 110, from (-100, -70)."""
    found = region(rectangle(300, 40), rectangle(100, 70))
    assert found.bounds == pytest.approx((-100 + SLACK, -70 + SLACK, 300 - SLACK, 40 - SLACK))
    assert found.area == pytest.approx(400 * 110, abs=3)


def test_a_gap_between_two_pieces_exactly_as_wide_as_a_third_is_free():
    """Bars of 50 mm stand 50 mm apart; only the line between their two regions is free, and slack keeps it."""
    bar = rectangle(50, 200)
    left = region(bar, bar)
    right = shapely.transform(left, lambda points: points + np.array([100, 0]))
    free = shapely.box(0, 0, 100, 0.5).difference(shapely.union(left, right))
    assert free.covers(shapely.Point(50, 0))
    assert not free.covers(shapely.Point(50.1, 0))


def test_a_closed_pocket_is_a_hole_of_the_region():
    """A C that nearly closes leaves room inside for a small square, though it cannot be slid in."""
    c = np.array(
        [(0, 0), (200, 0), (200, 90), (150, 90), (150, 50), (50, 50), (50, 150), (150, 150), (150, 110), (200, 110),
         (200, 200), (0, 200)], dtype=float,
    )  # fmt: skip
    found = region(c, rectangle(40, 40))
    assert len(found.interiors) == 1
    assert not found.contains(shapely.Point(80, 80))


def test_turning_both_turns_the_region():
    a, b = ell(200, 300, 60, 80), ell(150, 120, 50, 40)
    straight, turned = region(a, b), region(-a, -b)
    back = shapely.transform(turned, lambda points: -points)
    assert straight.symmetric_difference(back).area < 1.0


def test_the_other_one_moving_is_the_region_reversed():
    a, b = ell(200, 300, 60, 80), rectangle(150, 120)
    assert region(b, a).symmetric_difference(reversed_region(region(a, b))).area < 0.1
