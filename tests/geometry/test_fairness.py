"""How fair lines are: circles, straight lines and waves have closed forms; cusps and stubs stay finite."""

from __future__ import annotations

import numpy as np
import pytest
from degenerate import PATHS, SEGMENTS
from fontTools.misc.bezierTools import segmentPointAtT, splitCubicAtT
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.geometry import cubic
from draft.geometry.arc import arc
from draft.geometry.fairness import PLACES, SHARPEST, combs, fairness
from draft.geometry.spline import hobby


def circle(radius: float, sweep: float, start: float = 0.0, centre: tuple[float, float] = (0.0, 0.0)) -> np.ndarray:
    """An arc `(1, 4, 4, 2)` about a centre, from an angle, through `sweep` degrees (under 180)."""
    at = np.radians([start, start + sweep])
    ends = np.array(centre) + radius * np.stack([np.cos(at), np.sin(at)], axis=-1)
    path, fits = arc(np.array([centre]), ends[:1], ends[1:])
    assert fits.all()
    return path


def wave(length_mm: float, height: float, humps: int) -> np.ndarray:
    """So many half waves of a sine, as a spline through its crests and crossings."""
    x = np.linspace(0, length_mm, 8 * humps + 1)
    knots = np.stack([x, height * np.sin(np.pi * humps * x / length_mm)], axis=-1)
    return hobby(knots[None], [None] * len(knots))


def test_an_arc_has_its_own_radius_and_nothing_else_to_say() -> None:
    for radius in (5.0, 80.0, 1500.0):
        found = fairness(circle(radius, 170))
        assert found.radius[0] == pytest.approx(radius, rel=2e-3)  # four cubics are no circle
        assert found.corner[0] < 1e-6 and found.turns[0] == 0
        assert found.unevenness[0] < 0.1  # an S of two such arcs has some 12


def test_the_combs_of_an_arc_are_all_alike_and_point_the_way_it_turns() -> None:
    left, right = combs(circle(40, 90)), combs(circle(40, -90))
    assert left.shape == (1, 4, PLACES + 1)
    assert np.allclose(left, 1 / 40, rtol=2e-3) and np.allclose(right, -1 / 40, rtol=2e-3)


def test_a_straight_line_has_no_radius_and_no_turns() -> None:
    path = cubic.line([[0, 0], [5, 5]], [[300, 400], [5, 105]])[:, None]
    found = fairness(path)
    assert np.isinf(found.radius).all()
    assert not (found.corner.any() or found.turns.any())
    assert (found.unevenness < 1e-12).all()


@pytest.mark.parametrize("angle", [0.5, 5.0, 90.0, 179.0])
def test_a_corner_has_its_angle(angle: float) -> None:
    away = 100 * np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])
    bent = np.stack([cubic.line([[-100, 0]], [[0, 0]]), cubic.line([[0, 0]], [away])], axis=1)
    assert fairness(bent).corner[0] == pytest.approx(angle, abs=1e-6)


def test_a_stub_between_two_lines_hides_no_corner_and_makes_none() -> None:
    first, after = cubic.line([[-100, 0]], [[0, 0]]), cubic.line([[0, 0]], [[0, 100]])
    stub = cubic.line([[0, 0]], [[0.01, 0.3]])
    still = np.zeros((1, 4, 2))
    for between in (stub, still):
        assert fairness(np.stack([first, between, after], axis=1)).corner[0] == pytest.approx(90)
        straight = np.stack([first, between, cubic.line([[0, 0]], [[100, 0]])], axis=1)
        assert fairness(straight).corner[0] == 0
        assert fairness(np.stack([between, first], axis=1)).corner[0] == 0


@pytest.mark.parametrize("humps", [1, 2, 3, 5])
def test_a_wave_turns_the_other_way_once_between_two_humps(humps: int) -> None:
    assert fairness(wave(400, 20, humps)).turns[0] == humps - 1


def test_a_wave_that_nobody_sees_is_none() -> None:
    # a half wave 100 mm long and h high turns by 4 h / 100 rad or so: 0.1 mm is under half a degree, 1 mm is over
    assert fairness(wave(400, 0.1, 4)).turns[0] == 0
    assert fairness(wave(400, 1.0, 4)).turns[0] == 3


def test_straight_parts_between_two_bends_count_for_nothing() -> None:
    first, last = circle(50, 60, -90), circle(50, -60, 150, (150.0, 25.0))
    joined = np.concatenate([first, cubic.line(first[:, -1, 3], last[:, 0, 0])[:, None], last], axis=1)
    assert fairness(joined).turns[0] == 1


def test_an_ellipse_is_tightest_at_its_end() -> None:
    # half axes a and b: the radius at the end of the long one is b^2 / a
    ellipse = circle(1.0, 179, 0.5) * np.array([100.0, 40.0])
    assert fairness(ellipse).radius[0] == pytest.approx(40**2 / 100, rel=0.02)


def test_a_jump_of_the_curvature_is_uneven_by_as_much() -> None:
    # a line of 100 mm that runs on into a quarter circle of radius 50: the curvature jumps by 1/50 on the way
    arch = circle(50, 90, -90)
    joined = np.concatenate([cubic.line([[-100, -50]], [[0, -50]])[:, None], arch], axis=1)
    expected = (100 + 25 * np.pi) / 50
    assert fairness(joined).unevenness[0] == pytest.approx(expected, rel=0.01)
    assert fairness(joined).corner[0] < 1e-6


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 10_000), st.floats(0.2, 5), st.floats(-3, 3))
def test_turned_mirrored_backwards_and_larger_it_is_as_fair(seed: int, size: float, angle: float) -> None:
    knots = np.cumsum(np.random.default_rng(seed).uniform([40, -60], [120, 60], (1, 5, 2)), axis=1)
    path = hobby(knots, [None] * 5)
    c, s = np.cos(angle), np.sin(angle)
    plain = fairness(path)
    for other, scale in [
        (cubic.reverse(path), 1.0),
        (path * [-1, 1], 1.0),
        (path @ np.array([[c, s], [-s, c]]), 1.0),
        (path * size, size),
    ]:
        found = fairness(other)
        assert np.allclose(found.radius, plain.radius * scale, rtol=1e-6)
        assert np.allclose(found.corner, plain.corner, atol=1e-5)
        assert np.allclose(found.unevenness, plain.unevenness, rtol=1e-6)
        assert np.array_equal(found.turns, plain.turns)


def test_the_curvature_is_that_of_a_circle_through_three_near_points_of_fonttools() -> None:
    path = hobby(np.array([[[0, 0], [90, 40], [200, 30], [260, 120]]], dtype=float), [None] * 4)
    for seg, found in zip(path[0], combs(path)[0], strict=True):
        controls = [tuple(point) for point in seg]
        for k in (2, 7, 13):
            t = k / PLACES
            a, b, c = (np.array(segmentPointAtT(controls, t + step)) for step in (-1e-3, 0.0, 1e-3))
            area = cubic.cross(b - a, c - a)
            around = 2 * area / (cubic.norm(b - a) * cubic.norm(c - b) * cubic.norm(c - a))
            assert found[k] == pytest.approx(around, rel=1e-3)


def test_two_halves_of_a_segment_are_as_fair_as_the_whole() -> None:
    seg = np.array([[0, 0], [60, 90], [160, -30], [220, 20]], dtype=float)
    halves = np.array(splitCubicAtT(*map(tuple, seg), 0.5))
    whole, parts = fairness(seg[None, None]), fairness(halves[None])
    assert parts.corner[0] < 1e-5 and parts.turns[0] == whole.turns[0] == 1
    assert parts.unevenness[0] == pytest.approx(whole.unevenness[0], rel=0.02)


@pytest.mark.parametrize("name", ["cusp", "loop", "folded back"])
def test_a_line_that_turns_back_is_too_tight_wherever_its_point_lies(name: str) -> None:
    seg = SEGMENTS[name]
    for share in (0.0, 0.02, 0.055):  # cut short at its end, so that the point moves against the places
        part, _ = cubic.split(seg, 1.0 - share)
        assert fairness(part[None, None]).radius[0] < (15.0 if name == "loop" else 4.0)


def test_whatever_it_is_given_it_stays_finite() -> None:
    found = fairness(PATHS)
    assert np.isfinite(found.corner).all() and np.isfinite(found.turns).all() and np.isfinite(found.unevenness).all()
    assert (found.radius >= 1 / SHARPEST).all()
    assert np.isfinite(combs(PATHS)).all()
    still = list(SEGMENTS).index("zero length")
    assert np.isinf(found.radius[still]) and found.unevenness[still] == 0


def test_a_body_alone_is_as_fair_as_in_company() -> None:
    path = hobby(np.random.default_rng(2).uniform(-200, 200, (12, 6, 2)), [None] * 6)
    everyone = fairness(path)
    for k in range(12):
        alone = fairness(path[k : k + 1])
        for name in ("corner", "radius", "turns", "unevenness"):
            assert np.array_equal(getattr(alone, name)[0], getattr(everyone, name)[k])
