"""Corners of cutting lines, one by one, each against what a cutter draws with a ruler."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from outlines import ALLOWANCE, HEM, backwards, curve, edge, half_top, piece, polygon
from shapely import LineString, Polygon, points
from shapely import distance as apart
from shapely.affinity import affine_transform

from draft.garment.garment import Piece
from draft.geometry import cubic
from draft.geometry.corner import LIMIT
from draft.geometry.flatten import flatten
from draft.geometry.tangle import self_crossings
from draft.seams.allowance import cutting_line, opened_out, sewing_line

QUARTER = 4 / 3 * (np.sqrt(2) - 1)


def corners(shape: Piece) -> np.ndarray:
    """The points between the cutting line's segments."""
    return cutting_line(shape, 0)[:, 0]


def has(found: np.ndarray, *expected: tuple[float, float], within: float = 1e-6) -> bool:
    return all(cubic.norm(found - np.array(point)).min() <= within for point in expected)


def region(path: np.ndarray) -> Polygon:
    return Polygon(flatten(path, 1e-4))


def test_at_a_square_corner_the_offsets_are_carried_on_until_they_meet() -> None:
    square = polygon([(0, 0), (90, 0), (90, 60), (0, 60)], 10)
    assert has(corners(square), (-10, -10), (100, -10), (100, 70), (-10, 70))


def test_different_widths_meet_where_both_are_carried_on() -> None:
    shape = polygon([(0, 0), (90, 0), (90, 60), (0, 60)], [10, 20, 5, 8])
    assert has(corners(shape), (-8, -10), (110, -10), (110, 65), (-8, 65))


def test_a_hollow_corner_is_trimmed_where_the_offsets_cross() -> None:
    shape = polygon([(0, 0), (120, 0), (120, 100), (60, 100), (60, 50), (0, 50)], 10)
    assert has(corners(shape), (50, 60))
    assert len(cutting_line(shape, 0)) == 6


def test_a_hollow_corner_between_different_widths_is_trimmed_too() -> None:
    shape = polygon([(0, 0), (120, 0), (120, 100), (60, 100), (60, 50), (0, 50)], [10, 10, 10, 25, 6, 10])
    assert has(corners(shape), (35, 56))


def test_a_half_square_corner_keeps_its_point() -> None:
    shape = polygon([(0, 0), (200, 0), (0, 200)], 10)
    spike = 10 / np.sin(np.pi / 8)
    assert len(cutting_line(shape, 0)) == 3
    assert has(corners(shape), (200 + spike * np.cos(np.pi / 8), -spike * np.sin(np.pi / 8)))


@pytest.mark.parametrize("degrees", [2.0, 10.0, 25.0, 38.0])
def test_a_spike_is_cut_square_at_its_limit(degrees: float) -> None:
    half = np.tan(np.radians(degrees / 2))
    shape = polygon([(0, 0), (-300, 300 * half), (-300, -300 * half)], 10)
    found = corners(shape)
    tip = found[found[:, 0] > 0]
    assert tip.shape == (2, 2) and np.allclose(tip[:, 0], LIMIT * 10, atol=1e-6)
    assert tip[0, 1] == pytest.approx(-tip[1, 1], abs=1e-6)


def test_a_spike_between_different_widths_is_cut_at_its_limit() -> None:
    shape = polygon([(0, 0), (-300, 30), (-300, -30)], [10, 10, 20])
    found = corners(shape)
    tips = found[cubic.norm(found) < 4 * 20]
    middle = tips.mean(axis=0)
    assert len(tips) == 2
    assert cubic.norm(tips).max() < 1.2 * LIMIT * 20
    assert cubic.norm(middle) == pytest.approx(LIMIT * 20, rel=0.1)


def test_a_sharpening_corner_changes_without_a_jump() -> None:
    areas = []
    for degrees in np.linspace(36, 42, 25):
        half = np.tan(np.radians(degrees / 2))
        shape = polygon([(0, 0), (-300, 300 * half), (-300, -300 * half)], 10)
        found = cutting_line(shape, 0)
        areas.append(found[..., 0].max())
    assert np.abs(np.diff(areas)).max() < 0.3


def test_unequal_widths_on_one_straight_line_step_square_to_it() -> None:
    shape = polygon([(0, 0), (50, 0), (100, 0), (100, 60), (0, 60)], [10, 20, 10, 10, 10])
    assert has(corners(shape), (50, -10), (50, -20), (110, -20))


def test_an_edge_without_allowance_is_cut_on_its_line() -> None:
    shape = polygon([(0, 0), (90, 0), (90, 60), (0, 60)], [10, 0, 10, 10])
    assert has(corners(shape), (90, -10), (90, 70), (-10, -10))


def test_an_allowance_beside_none_ends_on_the_other_edges_line() -> None:
    shape = polygon([(0, 0), (90, 0), (120, 60), (-30, 60)], [10, 0, 10, 10])
    assert has(corners(shape), (85, -10), (125, 70))


def test_a_small_nick_in_an_edge_is_passed_over() -> None:
    shape = polygon([(0, 0), (120, 0), (120, 100), (65, 100), (62, 92), (59, 100), (0, 100)])
    cut = cutting_line(shape, 0)
    assert len(self_crossings(cut, closed=True)) == 0
    assert (
        region(cut).symmetric_difference(Polygon([(-12.7, -12.7), (132.7, -12.7), (132.7, 112.7), (-12.7, 112.7)])).area
        < 1e-3
    )


def test_a_slot_narrower_than_two_allowances_is_closed() -> None:
    shape = polygon([(0, 0), (120, 0), (120, 100), (70, 100), (70, 20), (55, 20), (55, 100), (0, 100)])
    assert np.allclose(cubic.bounds(cutting_line(shape, 0)), [[-12.7, -12.7], [132.7, 112.7]], atol=1e-6)
    assert region(cutting_line(shape, 0)).area == pytest.approx(145.4 * 125.4, rel=1e-6)


def test_a_hollow_tighter_than_its_allowance_is_trimmed_to_a_corner() -> None:
    r, c = 6.0, 80.0
    hollow = np.stack([
        cubic.line([0, 0], [c, 0]),
        np.array([[c, 0], [c + r * QUARTER, 0], [c + r, r - r * QUARTER], [c + r, r]]),
        cubic.line([c + r, r], [c + r, 90]),
    ])  # fmt: skip
    box = [(c + r, 90), (140, 90), (140, -60), (0, -60), (0, 0)]
    sides = [edge(f"s{k}", cubic.line(a, b)[None]) for k, (a, b) in enumerate(pairwise(box))]
    shape = backwards(piece(edge("hollow", hollow), *sides))
    assert has(corners(shape), (c + r - ALLOWANCE, ALLOWANCE), within=0.02)
    assert not len(self_crossings(cutting_line(shape, 0), closed=True))


def turned_up(shape: Piece, depth: float = HEM) -> Polygon:
    """The hem allowance below y = 0, turned up about that line."""
    below = region(cutting_line(shape, 0)).intersection(Polygon([(-9e3, -9e3), (9e3, -9e3), (9e3, 0), (-9e3, 0)]))
    assert below.bounds[1] == pytest.approx(-depth, abs=1e-6)
    return affine_transform(below, [1, 0, 0, -1, 0, 0])


@settings(max_examples=25, deadline=None)
@given(st.floats(-50, 90), st.floats(-50, 90), st.floats(0, 20))
def test_a_hem_turned_up_lies_flat_and_as_wide_as_what_it_lies_on(left: float, right: float, seam: float) -> None:
    shape = polygon([(-60, 0), (60, 0), (60 + right, 160), (-60 - left, 160)], [HEM, seam, seam, seam], e0="mirror")
    hem, all_of_it = turned_up(shape), region(cutting_line(shape, 0))
    band = all_of_it.intersection(Polygon([(-9e3, 0), (9e3, 0), (9e3, HEM), (-9e3, HEM)]))
    assert hem.symmetric_difference(band).area < 1e-2


def test_a_hem_matches_a_bending_side_too() -> None:
    side = curve([(60, 0), (75, 40), (80, 160)], (1, 2), (0, 1))
    sides = [
        edge("side", side),
        edge("top", cubic.line([[80, 160]], [[-60, 160]])),
        edge("left", cubic.line([[-60, 160]], [[-60, 0]])),
    ]
    shape = piece(edge("hem", cubic.line([[-60, 0]], [[60, 0]]), HEM, corner="mirror"), *sides)
    band = region(cutting_line(shape, 0)).intersection(Polygon([(-9e3, 0), (9e3, 0), (9e3, HEM), (-9e3, HEM)]))
    assert turned_up(shape).symmetric_difference(band).area < 1e-2


def test_a_hem_is_mirrored_in_either_direction_of_the_outline() -> None:
    shape = polygon([(-60, 0), (60, 0), (90, 160), (-75, 160)], [HEM, ALLOWANCE, ALLOWANCE, 7], e0="mirror")
    there, back = region(cutting_line(shape, 0)), region(cutting_line(backwards(shape), 0))
    assert there.symmetric_difference(back).area < 1e-6


def test_a_bent_hem_keeps_its_depth_and_its_sides_are_mirrored_at_its_corners() -> None:
    hem = curve([(-80, 8), (0, 0), (80, 8)], (1, -0.25), (1, 0.25))
    sides = polygon([(80, 8), (80, 160), (-80, 160), (-80, 8)]).edges[:3]
    shape = piece(edge("hem", hem, HEM, corner="mirror"), *sides)
    cut = cutting_line(shape, 0)
    below = LineString(flatten(cut, 1e-4))
    along = cubic.point(hem[:, None], np.linspace(0, 1, 9)[None]).reshape(-1, 2)[4:-4]
    assert np.abs(apart(below, points(along)) - HEM).max() < 0.011
    turn = np.array([0.25, 1.0]) / np.hypot(0.25, 1)  # square to the hem at its right corner
    x = 80 + ALLOWANCE
    folded_at = np.array([x, 8 + 0.25 * ALLOWANCE])
    beyond = np.array([0.0, 1.0]) - 2 * turn[1] * turn
    assert below.distance(LineString([folded_at, folded_at + 20 * beyond])) < 1e-4


def test_a_hem_that_its_side_bends_into_is_not_mirrored_but_stepped_square_to_it() -> None:
    r, k = 8.0, 8.0 * QUARTER
    bend = np.array([[0, r], [0, r - k], [r - k, 0], [r, 0]])
    shape = piece(
        edge("side", np.concatenate([cubic.line([0, 160], [0, r])[None], bend[None]]), 10),
        edge("hem", cubic.line([r, 0], [150, 0])[None], HEM, corner="mirror"),
        *polygon([(150, 0), (150, 160), (0, 160)], 10).edges[:2],
    )
    for either in (shape, backwards(shape)):
        assert has(corners(either), (r, -10), (r, -HEM))


def test_beside_the_fold_a_hem_ends_on_the_folds_line() -> None:
    shape = polygon([(0, 0), (70, 0), (70, 90), (0, 90)], [HEM, 10, 10, 0], e0="mirror", e3="fold")
    assert has(corners(shape), (0, -HEM), (80, -HEM), (80, 100), (0, 100))


@pytest.mark.parametrize("rise", [5.0, 30.0, 60.0, 150.0])
def test_a_v_at_the_fold_meets_the_folds_line(rise: float) -> None:
    shape = polygon([(0, 0), (70, 0), (70, 90 + rise), (20, 90 + rise), (0, 90)], [10, 10, 10, 10, 0], e4="fold")
    deep = 90 + 10 * np.hypot(20, rise) / 20
    if deep < 90 + rise:
        assert has(corners(shape), (0, deep))
    cut = cutting_line(shape, 0)
    opened = opened_out(cut, shape, 0)
    assert not len(self_crossings(opened, closed=True))
    assert np.array_equal(opened[:, 3], np.roll(opened[:, 0], -1, axis=0))


def test_a_point_on_the_fold_is_cut_square_to_the_fold() -> None:
    shape = polygon([(0, 0), (30, 200), (0, 200)], [10, 10, 0], e2="fold")
    found = corners(shape)
    tip = found[found[:, 1] < 0]
    assert np.allclose(tip[:, 1], -LIMIT * 10, atol=1e-6) and 0.0 in tip[:, 0]


def test_a_neckline_square_to_the_fold_is_cut_square_to_it() -> None:
    top = half_top()
    opened = opened_out(cutting_line(top, 0), top, 0)
    on_fold = opened[np.abs(opened[:, 0, 0]) == 0]
    assert len(on_fold) == 2
    assert np.allclose(np.abs(cubic.start_tangent(on_fold)), [1, 0], atol=1e-3)


def test_the_sewing_line_opens_out_as_well() -> None:
    top = half_top()
    opened = opened_out(sewing_line(top, 0), top, 0)
    assert np.array_equal(opened[:, 3], np.roll(opened[:, 0], -1, axis=0))
    assert region(opened).area == pytest.approx(2 * region(sewing_line(top, 0)).area, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(st.floats(1e-6, 0.3), st.floats(-25, 25), st.floats(-25, 25))
def test_a_hardly_hollow_corner_leaves_no_spur(turn: float, rise_before: float, rise_after: float) -> None:
    start, end = (-90.0, rise_before), (90.0, rise_after - 90 * np.tan(turn))
    rest = [end, (90.0, 150.0), (-90.0, 150.0), start]
    shape = piece(
        edge("before", curve([start, (0, 0)], None, (1, 0))),
        edge("after", curve([(0, 0), end], (np.cos(turn), -np.sin(turn)), None)),
        *(edge(f"s{k}", cubic.line(a, b)[None]) for k, (a, b) in enumerate(pairwise(rest))),
    )
    cut = cutting_line(shape, 0)
    assert not len(self_crossings(cut, closed=True)) and region(cut).is_valid
    off = apart(
        region(sewing_line(shape, 0)), points(cubic.point(cut[:, None], np.linspace(0, 1, 17)[None]).reshape(-1, 2))
    )
    assert off.min() > ALLOWANCE - 0.015


@pytest.mark.parametrize("radius", [2.0, 5.0, 8.0])
def test_a_bend_too_tight_for_its_allowance_beside_a_corner_is_bridged(radius: float) -> None:
    r, k = radius, radius * QUARTER
    bend = np.array([[[60, 0], [60 + k, 0], [60 + r, r - k], [60 + r, r]]], dtype=float)
    bend = bend * [1, -1] + [0, 0]
    rest = [(60 + r, -r), (90.0, -r), (90.0, 100.0), (0.0, 100.0), (0.0, 0.0)]
    shape = piece(
        edge("below", np.concatenate([cubic.line([0, 0], [60, 0])[None], bend])),
        *(edge(f"s{k}", cubic.line(a, b)[None]) for k, (a, b) in enumerate(pairwise(rest))),
    )
    cut = cutting_line(shape, 0)
    assert not len(self_crossings(cut, closed=True))
    assert region(cut).buffer(1e-6).contains(region(sewing_line(shape, 0)))


def test_a_leaf_that_ends_in_no_angle_is_cut_square_at_its_limit() -> None:
    above, below = (
        curve([(0, 0), (-100, 30), (-200, 0)], (-1, 0), None),
        curve([(-200, 0), (-100, -30), (0, 0)], None, (1, 0)),
    )
    for above_width in (ALLOWANCE, HEM):
        leaf = piece(edge("above", above, above_width), edge("below", below))
        found = corners(leaf)
        assert found[:, 0].max() == pytest.approx(LIMIT * above_width, abs=1e-6)
        assert not len(self_crossings(cutting_line(leaf, 0), closed=True))


def test_a_hem_at_a_hollow_corner_is_not_mirrored() -> None:
    hollow = [(0, 0), (120, 0), (120, 100), (60, 100), (60, 50), (0, 50)]
    plain, hemmed = polygon(hollow, 10), polygon(hollow, 10, e4="mirror", e3="meet")
    assert has(corners(plain), (50, 60)) and has(corners(hemmed), (50, 60))
