"""Places by chords: near enough to the exact ones for what is drawn along a line."""

from __future__ import annotations

import numpy as np
import pytest

from draft.geometry.arc import arc
from draft.geometry.cubic import lines_through, norm
from draft.geometry.length import length
from draft.geometry.ruler import Ruler, chord_length, places_along, places_on
from draft.geometry.spline import hobby

BENT = hobby(np.array([[[0.0, 0.0], [120.0, 80.0], [300.0, -40.0], [310.0, 200.0]]]), [None] * 4)[0]


def test_the_length_falls_short_of_the_exact_one_by_less_than_a_ten_thousandth() -> None:
    exact = float(length(BENT[None])[0])
    assert exact * 0.9999 < chord_length(BENT) < exact


def test_places_along_straight_lines_are_exact() -> None:
    ruler = Ruler(lines_through([(0.0, 0.0), (300.0, 0.0), (300.0, 400.0)]))
    assert ruler.length == pytest.approx(700.0)
    for at, point, way in ((150.0, (150.0, 0.0), (1.0, 0.0)), (500.0, (300.0, 200.0), (0.0, 1.0))):
        assert ruler.place(at)[0] == pytest.approx(point) and ruler.place(at)[1] == pytest.approx(way)
    points, ways = ruler.places(np.array([150.0, 500.0]))
    assert points == pytest.approx(np.array([[150.0, 0.0], [300.0, 200.0]]))
    assert ways == pytest.approx(np.array([[1.0, 0.0], [0.0, 1.0]]))


def test_many_places_are_those_found_one_by_one_to_a_tenth_of_a_millimetre() -> None:
    ruler = Ruler(BENT)
    at = np.linspace(0.0, ruler.length, 57)
    one_by_one = np.stack([ruler.place(float(distance))[0] for distance in at])
    assert norm(ruler.places(at)[0] - one_by_one).max() < 0.1


def test_past_the_ends_is_the_end() -> None:
    ruler = Ruler(BENT)
    assert ruler.place(-5.0)[0] == pytest.approx(BENT[0, 0])
    assert ruler.place(ruler.length + 5.0)[0] == pytest.approx(BENT[-1, 3])
    assert ruler.places(np.array([-5.0, ruler.length + 5.0]))[0] == pytest.approx(BENT[[0, -1], [0, 3]])


def test_an_arc_is_as_long_as_its_angle_says() -> None:
    quarter = arc(np.zeros((1, 2)), np.array([[100.0, 0.0]]), np.array([[0.0, 100.0]]))[0][0]
    assert chord_length(quarter) == pytest.approx(50 * np.pi, abs=0.05)


def test_rulers_made_at_once_measure_as_each_alone() -> None:
    paths = [BENT, lines_through([(0.0, 0.0), (300.0, 0.0), (300.0, 400.0)]), BENT[:1]]
    at = [np.linspace(-5.0, 1.1 * Ruler(path).length, 17) for path in paths]
    together, alone = Ruler.each(paths), [Ruler(path) for path in paths]
    assert [one.length for one in together] == [one.length for one in alone]
    for found, one_by_one in (
        (places_on(together, at), [one.place_each(some) for one, some in zip(alone, at, strict=True)]),
        (places_along(together, at), [one.places(some) for one, some in zip(alone, at, strict=True)]),
    ):
        for part, each in zip(found, zip(*one_by_one, strict=True), strict=True):
            assert np.array_equal(part, np.concatenate(each))
    assert Ruler.each([]) == []
