"""The tape round one section, against girths that are known in closed form or by another library."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from draft.form.section import around, of_aspect, ring, taped, taped_with, with_girth


def _one(value: float) -> np.ndarray:
    return np.array([value])


def test_round_a_circle_and_an_ellipse() -> None:
    assert taped(ring(_one(100), _one(100), _one(2)))[0] == pytest.approx(200 * np.pi, rel=2e-4)
    h = ((150 - 100) / (150 + 100)) ** 2  # Ramanujan's second formula for the girth of an ellipse
    known = np.pi * 250 * (1 + 3 * h / (10 + np.sqrt(4 - 3 * h)))
    assert taped(ring(_one(150), _one(100), _one(2)))[0] == pytest.approx(known, rel=3e-4)


def test_round_a_rectangle() -> None:
    half = np.array([[(0, -100), (150, -100), (150, 100), (0, 100)]], dtype=float)
    assert taped(half)[0] == pytest.approx(1000.0, abs=0.1)


def test_a_hollow_is_bridged() -> None:
    half = np.array([[(0, -60), (70, -110), (150, 0), (100, 90), (0, 70)]], dtype=float)
    whole = np.concatenate([half[0], half[0] * [-1, 1]])
    assert taped(half)[0] == pytest.approx(shapely.MultiPoint(whole).convex_hull.length, abs=0.05)
    assert around(half)[0] > taped(half)[0]


def test_round_the_arms_too() -> None:
    half = ring(_one(150), _one(100), _one(2))
    found = taped_with(half, np.array([[200.0, 10.0]]), _one(50.0))[0]
    discs = [shapely.Point(x, 10.0).buffer(50.0, quad_segs=400) for x in (-200, 200)]
    known = shapely.union_all([*discs, shapely.Polygon(np.concatenate([half[0], half[0, ::-1] * [-1, 1]]))])
    assert found == pytest.approx(known.convex_hull.length, abs=0.1)


def test_a_section_of_a_girth_keeps_breadth_and_depth_while_the_exponent_can() -> None:
    wanted = around(ring(_one(170), _one(120), _one(2.37)))
    breadth, depth, exponent = with_girth(wanted, _one(170), _one(120))
    assert exponent[0] == pytest.approx(2.37, abs=0.01)
    assert breadth[0] == pytest.approx(170, abs=0.05) and depth[0] == pytest.approx(120, abs=0.05)
    assert taped(ring(breadth, depth, exponent))[0] == pytest.approx(wanted[0], abs=0.03)


def test_a_girth_that_no_exponent_gives_scales_both() -> None:
    breadth, depth, exponent = with_girth(_one(1200.0), _one(170), _one(120))
    assert exponent[0] == 2.8 and breadth[0] / depth[0] == pytest.approx(170 / 120)
    assert taped(ring(breadth, depth, exponent))[0] == pytest.approx(1200.0, abs=0.1)


def test_a_section_of_an_aspect() -> None:
    breadth, depth = of_aspect(_one(900.0), _one(0.7), 2.7)
    assert depth[0] == pytest.approx(0.7 * breadth[0])
    assert taped(ring(breadth, depth, _one(2.7)))[0] == pytest.approx(900.0, abs=0.1)
