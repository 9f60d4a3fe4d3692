"""Curves of a wanted length: met to a hundredth of a millimetre, ends and directions kept, or out of reach."""

from __future__ import annotations

import numpy as np
from fontTools.misc.bezierTools import calcCubicArcLength
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.geometry import cubic
from draft.geometry.ends import end_directions
from draft.geometry.length import length
from draft.geometry.of_length import ENOUGH, of_length
from draft.geometry.spline import hobby

ARCH = hobby(np.array([[[0, 0], [120, 0]]], dtype=float), [np.array([[0.0, 1.0]]), np.array([[0.0, -1.0]])])


@settings(max_examples=40, deadline=None)
@given(st.floats(1.001, 2.2), st.integers(0, 500))
def test_the_length_is_met_with_ends_and_directions_kept(share: float, seed: int) -> None:
    rng = np.random.default_rng(seed)
    ways = [cubic.unit(rng.uniform([0.05, -1], [1, 1], (4, 2))) for _ in range(2)]
    knots = np.stack([np.zeros((4, 2)), rng.uniform([60, -40], [200, 40], (4, 2))], axis=1)
    path = hobby(knots, ways)
    chord = cubic.norm(knots[:, 1])
    found, fits = of_length(path, share * chord)
    assert np.abs(length(found) - share * chord)[fits].max(initial=0.0) <= ENOUGH
    assert np.array_equal(found[:, 0, 0], path[:, 0, 0]) and np.array_equal(found[:, -1, 3], path[:, -1, 3])
    for now, before in zip(end_directions(found), end_directions(path), strict=True):
        assert np.allclose(now[fits], before[fits], atol=1e-6)


def test_the_length_is_fonttools_too() -> None:
    for wanted in (125.0, 180.0, 230.0):
        found, fits = of_length(ARCH, np.array([wanted]))
        theirs = sum(calcCubicArcLength(*map(tuple, seg), tolerance=1e-7) for seg in found[0])
        assert fits.all() and abs(theirs - wanted) < ENOUGH + 1e-3


def test_its_own_length_leaves_a_curve_as_it_is() -> None:
    found, fits = of_length(ARCH, length(ARCH))
    assert fits.all() and np.allclose(found, ARCH, atol=1e-3)


def test_shorter_than_its_chord_or_far_too_long_cannot_be_drawn() -> None:
    path = np.repeat(ARCH, 4, axis=0)
    found, fits = of_length(path, np.array([119.9, 0.0, -5.0, 5000.0]))
    assert not fits.any() and np.isfinite(found).all()


def test_a_straight_line_is_only_as_long_as_it_is() -> None:
    path = np.repeat(cubic.line([[0, 0]], [[100, 0]])[:, None], 2, axis=0)
    _, fits = of_length(path, np.array([100.0, 101.0]))
    assert fits.tolist() == [True, False]


def test_a_longer_wish_gives_a_longer_curve_further_out() -> None:
    path = np.repeat(ARCH, 5, axis=0)
    found, fits = of_length(path, np.array([130.0, 150, 170, 190, 210]))
    tops = cubic.bounds(found)[:, 1, 1]
    assert fits.all() and (np.diff(tops) > 5).all()


def test_a_body_alone_has_the_same_curve() -> None:
    path, wanted = np.repeat(ARCH, 3, axis=0) * np.array([1, 1.2, 2])[:, None, None, None], np.array([180.0, 90, 400])
    everyone, fits = of_length(path, wanted)
    for k in range(3):
        alone, met = of_length(path[k : k + 1], wanted[k : k + 1])
        assert np.array_equal(alone[0], everyone[k]) and met[0] == fits[k]
