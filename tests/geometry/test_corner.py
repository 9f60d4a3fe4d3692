"""What is drawn between parallels: where a hardly hollow corner trims them, what may be trimmed, and gaps bridged."""

from __future__ import annotations

import numpy as np
import pytest

from draft.geometry.arc import arc
from draft.geometry.corner import bridged, corner, is_forward
from draft.geometry.cubic import line
from draft.geometry.parallel import parallel
from draft.geometry.tangle import place_point

REACH = 200.0


def straight(*points: tuple[float, float]) -> np.ndarray:
    at = np.array(points, dtype=float)
    return line(at[:-1], at[1:])


def circle(sweep: float) -> np.ndarray:
    """An arc of a radius of 10 mm about the origin, so many degrees on from where it heads up."""
    end = np.radians(sweep)
    return arc(np.zeros((1, 2)), np.array([[10.0, 0.0]]), 10 * np.array([[np.cos(end), np.sin(end)]]))[0][0]


@pytest.mark.parametrize("turn", [0.01, 0.04])
def test_a_hardly_hollow_corner_trims_both_parallels_to_where_they_cross(turn: float) -> None:
    end = (100 * np.cos(turn), -100 * np.sin(turn))
    a, b = (parallel(one, 20.0) for one in (straight((-100, 0), (0, 0)), straight((0, 0), end)))
    found = corner(a, b, 1, REACH)
    crossing = (-20 * np.tan(turn / 2), -20.0)
    assert len(found.between) == 0
    for path, place in ((a, found.leave), (b, found.enter)):
        assert place_point(path.carried(REACH), place) == pytest.approx(crossing, abs=20 * turn**3)


@pytest.mark.parametrize("at", [(0, 0), (300, 200), (-300, -200), (300, -200)])
def test_what_is_trimmed_off_runs_forwards_wherever_on_the_paper_it_lies(at: tuple[float, float]) -> None:
    x, y = at
    assert is_forward(straight((x, y), (x + 9, y)), np.array([1.0, 0.0]))
    assert not is_forward(straight((x, y), (x - 9, y)), np.array([1.0, 0.0]))
    assert is_forward(circle(80) + np.array(at), np.array([0.0, 1.0]))
    assert not is_forward(circle(150) + np.array(at), np.array([0.0, 1.0]))  # it winds by more than a quarter turn


def test_a_gap_is_bridged_from_where_a_path_ends_though_it_has_been_there_before() -> None:
    first, second = straight((0, 0), (90, 0), (90, 60)), straight((90, 0), (40, -50), (0, 0))
    found = bridged([first, second])
    assert np.allclose(found[:, 0], [[0, 0], [90, 0], [90, 60], [90, 0], [40, -50]])
    assert np.array_equal(found[:, 3], np.roll(found[:, 0], -1, axis=0))
