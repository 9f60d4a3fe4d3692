"""Allowances: their width, their area by formula, closed lines, folds that open out, and random half tops."""

from __future__ import annotations

import time
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from outlines import ALLOWANCE, HEM, TOPS, backwards, curve, edge, half_top, is_a_garment, piece, polygon
from shapely import Polygon, hausdorff_distance, points
from shapely import distance as apart

from draft.garment.garment import Piece
from draft.geometry import cubic
from draft.geometry.area import outline_area
from draft.geometry.cubic import line
from draft.geometry.flatten import flatten
from draft.geometry.length import length
from draft.geometry.spline import hobby
from draft.geometry.tangle import self_crossings
from draft.seams.allowance import cutting_line, opened_out, sewing_line
from draft.seams.around import around

FINE = np.linspace(0, 1, 17)


def spread(path: np.ndarray) -> np.ndarray:
    """Many points on a path."""
    return cubic.point(path[:, None], FINE[None]).reshape(-1, 2)


def region(path: np.ndarray) -> Polygon:
    return Polygon(flatten(path, 1e-3))


def is_closed(path: np.ndarray) -> bool:
    return bool(np.array_equal(path[:, 3], np.roll(path[:, 0], -1, axis=0)))


def even_top() -> Piece:
    """A half top with the same allowance all round but for its fold, and every corner met."""
    top = half_top(hem="meet")
    return piece(*(e if e.on_fold else replace(e, allowance=ALLOWANCE) for e in top.edges))


def ring() -> Piece:
    """A round patch of one edge."""
    return piece(
        edge(
            "rim",
            hobby(np.array([[[80, 0], [10, 70], [-90, 20], [-20, -60]]], dtype=float), [None] * 4, closed=True)[0],
        )
    )


def test_around_a_rectangle_lie_its_perimeter_and_four_corner_squares() -> None:
    cut = cutting_line(polygon([(0, 0), (300, 0), (300, 200), (0, 200)]), 0)
    formula = 1000 * ALLOWANCE + 4 * ALLOWANCE**2
    assert outline_area(cut) - 300 * 200 == pytest.approx(formula, abs=1e-6)
    assert np.allclose(cubic.bounds(cut), [[-ALLOWANCE] * 2, [300 + ALLOWANCE, 200 + ALLOWANCE]], atol=1e-9)
    assert len(cut) == 4 and is_closed(cut)


def test_around_a_curve_lies_the_area_of_steiners_formula() -> None:
    # J. Steiner (1840), from memory: a closed curve's parallel adds L w + pi w^2 where it makes no loop.
    patch = ring()
    seam, cut = sewing_line(patch, 0), cutting_line(patch, 0)
    formula = length(seam[None])[0] * ALLOWANCE + np.pi * ALLOWANCE**2
    assert outline_area(cut) - outline_area(seam) == pytest.approx(formula, abs=0.01 * length(cut[None])[0])
    assert is_closed(cut)


def test_the_area_inside_an_outline_is_that_of_a_dense_polygon() -> None:
    for path in (sewing_line(half_top(), 0), cutting_line(half_top(), 0)):
        assert outline_area(path) == pytest.approx(region(path).area, abs=0.5)
        assert outline_area(cubic.reverse(path)) == pytest.approx(-outline_area(path))


def test_around_a_half_top_it_is_shapelys_buffer() -> None:
    # Its mitred buffer of the whole top; 0.05 mm, since it straightens hollows a little before it offsets them.
    top = even_top()
    cut = region(opened_out(cutting_line(top, 0), top, 0))
    buffered = Polygon(flatten(opened_out(sewing_line(top, 0), top, 0), 1e-5)).buffer(
        ALLOWANCE, join_style="mitre", mitre_limit=6, quad_segs=64
    )
    assert hausdorff_distance(cut.exterior, buffered.exterior) < 0.05
    assert cut.area == pytest.approx(buffered.area, abs=0.01 * buffered.length)


def test_every_edge_keeps_its_own_allowance() -> None:
    top = half_top()
    for body_edge in top.edges:
        fine = region(cutting_line(top, 0)).exterior
        middle = cubic.point(body_edge.segments[0][:, None], np.linspace(0.3, 0.7, 9)[None]).reshape(-1, 2)
        width = 0.0 if body_edge.on_fold else body_edge.allowance
        # on the outside of a bend another part of the sewing line may lie nearer; none does along these edges
        if body_edge.name != "underarm":
            assert np.abs(apart(fine, points(middle)) - width).max() < 0.02


def test_every_point_lies_an_allowance_off_or_at_a_corner() -> None:
    top = even_top()
    seam = region(opened_out(sewing_line(top, 0), top, 0))
    cut = spread(opened_out(cutting_line(top, 0), top, 0))
    off = apart(seam, points(cut)) - ALLOWANCE
    corners = np.concatenate(
        [cubic.ends(e.segments)[0] for e in top.edges if e.name in ("hem", "side", "cuff", "overarm", "neck")]
    )
    corners = np.concatenate([corners, corners * [-1, 1]])
    beside = cubic.norm(cut[:, None] - corners[None]).min(axis=1) < 2 * ALLOWANCE
    assert np.abs(off[~beside]).max() < 0.011
    assert off.min() > -0.011


def test_the_sewing_line_is_the_outline_as_drafted() -> None:
    top = half_top()
    seam = sewing_line(top, 0)
    assert np.array_equal(seam, np.concatenate([e.segments[0] for e in top.edges]))


@settings(max_examples=25, deadline=None)
@given(TOPS)
def test_a_random_top_has_a_cutting_line_that_closes_and_never_crosses_itself(measures: dict[str, float]) -> None:
    top = half_top(**measures)
    assume(is_a_garment(top))
    seam = region(sewing_line(top, 0))
    cut = cutting_line(top, 0)
    opened = opened_out(cut, top, 0)
    for path in (cut, opened):
        assert np.isfinite(path).all() and is_closed(path)
        assert len(self_crossings(path, closed=True)) == 0
        assert region(path).is_valid and outline_area(path) > 0
    assert outline_area(opened) == pytest.approx(2 * outline_area(cut), rel=1e-9)
    assert region(cut).buffer(1e-3).contains(seam)
    other = region(cutting_line(backwards(top), 0))
    assert region(cut).symmetric_difference(other).area < 0.03 * opened.shape[0]


@settings(max_examples=15, deadline=None)
@given(TOPS)
def test_a_random_top_is_nowhere_nearer_to_its_sewing_line_than_its_allowance(measures: dict[str, float]) -> None:
    top = half_top(**measures)
    assume(is_a_garment(top))
    seam = region(opened_out(sewing_line(top, 0), top, 0))
    assert apart(seam.exterior, points(spread(opened_out(cutting_line(top, 0), top, 0)))).min() > ALLOWANCE - 0.015


def test_the_half_ends_on_the_fold_and_its_mirrored_whole_closes() -> None:
    top = half_top()
    cut = cutting_line(top, 0)
    on_fold = np.abs(cut[..., 0]).max(axis=1) == 0.0
    assert on_fold.sum() == 1
    opened = opened_out(cut, top, 0)
    assert is_closed(opened) and len(self_crossings(opened, closed=True)) == 0
    assert np.allclose(cubic.reverse(opened) * [-1, 1], opened, atol=1e-9)
    assert len(opened) == 2 * (len(cut) - 1)


def test_a_slanting_fold_opens_out_about_itself() -> None:
    turned = polygon([(0, 0), (80, 10), (70, 110), (30, 100)], [ALLOWANCE, ALLOWANCE, ALLOWANCE, 0], e3="fold")
    opened = opened_out(cutting_line(turned, 0), turned, 0)
    assert is_closed(opened)
    along = cubic.unit(np.array([3.0, 10.0]))
    reflected = 2 * cubic.dot(along, opened)[..., None] * along - opened
    assert region(reflected).symmetric_difference(region(opened)).area < 1e-3


def test_a_piece_off_the_fold_is_whole_already() -> None:
    square = polygon([(0, 0), (50, 0), (50, 50), (0, 50)])
    cut = cutting_line(square, 0)
    assert np.array_equal(opened_out(cut, square, 0), cut)


def test_without_allowance_the_cutting_line_is_the_sewing_line() -> None:
    square = polygon([(0, 0), (50, 0), (50, 50), (0, 50)], 0.0)
    assert np.array_equal(cutting_line(square, 0), sewing_line(square, 0))


def test_an_outline_run_clockwise_has_its_allowance_outside_too() -> None:
    square = backwards(polygon([(0, 0), (50, 0), (50, 50), (0, 50)]))
    cut = cutting_line(square, 0)
    assert outline_area(cut) == pytest.approx(-((50 + 2 * ALLOWANCE) ** 2))


def test_an_edge_without_length_changes_nothing() -> None:
    square = polygon([(0, 0), (50, 0), (50, 50), (0, 50)])
    still = edge("still", np.full((1, 4, 2), [50.0, 0.0]), HEM)
    more = piece(square.edges[0], still, *square.edges[1:])
    assert np.array_equal(cutting_line(more, 0), cutting_line(square, 0))


def test_a_piece_without_area_is_finite() -> None:
    assert np.isfinite(cutting_line(polygon([(0, 0), (50, 0)]), 0)).all()
    assert np.isfinite(cutting_line(polygon([(7, 7), (7, 7), (7, 7)]), 0)).all()


def test_a_fold_without_length_leaves_a_cutting_line_whose_plain_one_fails() -> None:
    """A piece that bends back beside such a fold, and cannot be drawn by parallels alone."""
    bent = np.array([[[0.0, 0.0], [164.5, 0.0], [271.8, 172.6], [199.0, 320.1]]])
    lower = np.array([[[205.0, 200.2], [137.4, 213.4], [68.8, 220.0], [0.0, 220.0]]])
    edges = [edge("upper", bent, ALLOWANCE), edge("side", line([[199.0, 320.1]], [[205.0, 200.2]]), ALLOWANCE)]
    fold = replace(edge("mid", np.zeros((1, 4, 2)), 0.0), on_fold=True)
    strip = piece(*edges, edge("lower", lower, ALLOWANCE), fold)
    assert len(around(strip, 0, sewing_line(strip, 0))) > 3
    assert region(cutting_line(strip, 0)).buffer(0.01).contains(region(sewing_line(strip, 0)).buffer(0))


def test_each_body_has_its_own_cutting_line() -> None:
    tops = [half_top(bust=bust) for bust in (820, 940, 1100)]
    edges = zip(*(top.edges for top in tops), strict=True)
    crowd = piece(*(replace(same[0], segments=np.concatenate([e.segments for e in same])) for same in edges))
    for body, top in enumerate(tops):
        assert np.array_equal(cutting_line(crowd, body), cutting_line(top, 0))
        assert np.array_equal(sewing_line(crowd, body), sewing_line(top, 0))


def test_a_curved_edge_stays_in_few_segments() -> None:
    assert len(cutting_line(half_top(), 0)) <= 35


def test_a_cutting_line_is_quick() -> None:
    top = half_top()
    start = time.process_time()
    cutting_line(top, 0)
    assert time.process_time() - start < 0.5  # some 20 ms; the rest is for a slow machine


def test_a_lens_of_two_edges_has_both_its_points() -> None:
    lens = piece(
        edge("below", curve([(-60, 0), (0, -25), (60, 0)], None, None)),
        edge("above", curve([(60, 0), (0, 25), (-60, 0)], None, None)),
    )
    cut = cutting_line(lens, 0)
    assert is_closed(cut) and len(self_crossings(cut, closed=True)) == 0
    assert cubic.bounds(cut)[1, 0] > 60 + 1.3 * ALLOWANCE
