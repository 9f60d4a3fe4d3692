"""Even curves: they keep ends and directions, and their curvature has no step where the spline's has one."""

from __future__ import annotations

import numpy as np
import pytest

from draft.geometry.bending import bending
from draft.geometry.cubic import curvature, end_tangent, line, start_tangent
from draft.geometry.even_curve import evenly_bent
from draft.geometry.spline import hobby

FREE = np.array([np.nan])


def quarter(wide: float, high: float, turn: float = 90.0) -> np.ndarray:
    """A spline from the left, heading across, to a point so far across and up, heading so many degrees up."""
    way = np.array([[np.cos(np.radians(turn)), np.sin(np.radians(turn))]])
    return hobby(np.array([[[0.0, 0.0], [wide, high]]]), [np.array([[1.0, 0.0]]), way])


@pytest.mark.parametrize(("wide", "high", "turn"), [(100, 100, 90), (80, 35, 70), (60, 130, 80)])
def test_it_keeps_its_ends_and_directions(wide: float, high: float, turn: float) -> None:
    spline = quarter(wide, high, turn)
    even = evenly_bent(spline, FREE, FREE)
    assert np.allclose(even[:, 0, 0], spline[:, 0, 0]) and np.allclose(even[:, -1, 3], spline[:, -1, 3], atol=1e-4)
    assert np.allclose(start_tangent(even[:, 0]), start_tangent(spline[:, 0]))
    assert np.allclose(end_tangent(even[:, -1]), end_tangent(spline[:, -1]), atol=1e-6)


def test_an_arc_stays_an_arc() -> None:
    even = evenly_bent(quarter(50, 50), FREE, FREE)
    places = np.linspace(0, 1, 9)
    assert np.allclose(curvature(even[:, :, None], places), 1 / 50, rtol=0.01)


def test_beside_a_straight_line_it_begins_without_a_step() -> None:
    leg = line([[-60.0, 0.0]], [[0.0, 0.0]])[:, None]
    spline = quarter(50, 50)
    even = evenly_bent(spline, np.zeros(1), FREE)
    before, after = (bending(np.concatenate([leg, path], axis=1)) for path in (spline, even))
    assert before.onset[0] > 0.01 > 0.002 > after.onset[0]


def test_a_line_that_turns_one_way_does_not_bend_back() -> None:
    even = evenly_bent(quarter(60, 110, 80), FREE, FREE)
    assert np.all(curvature(even[:, :, None], np.linspace(0, 1, 9)) > -1e-3)


def test_each_body_is_drawn_alone_as_in_company() -> None:
    both = np.concatenate([quarter(80, 35, 70), quarter(60, 130, 80)])
    free = np.full(2, np.nan)
    assert np.array_equal(evenly_bent(both, free, free)[1:], evenly_bent(both[1:], FREE, FREE))


@pytest.mark.parametrize("between", [0.0, 20.0])
def test_a_hair_more_or_less_at_an_end_moves_it_by_a_hair(between: float) -> None:
    """From one way to an S and back, by hundredths of a degree: 120 mm long, no place moves by a twentieth."""
    arriving = np.radians(np.arange(-15.0, 25.0, 0.01))
    leaving = np.full_like(arriving, np.radians(20.0 + between))
    ways = [np.stack([np.cos(a), np.sin(a)], axis=-1) for a in (-leaving, arriving)]
    knots = np.tile([[0.0, 0.0], [120.0, 0.0]], (len(arriving), 1, 1))
    free = np.full(len(arriving), np.nan)
    even = evenly_bent(hobby(knots, ways), free, free)
    moved = np.linalg.norm(np.diff(even, axis=0), axis=-1)
    assert 0.0 < np.max(moved) < 0.05
