"""Steps solved level by level against the same matrix solved whole, by numpy."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.toile.block_matrix import BlockMatrix
from draft.toile.by_levels import ByLevels
from draft.toile.conjugate_gradients import solved
from draft.toile.contact import touch
from draft.toile.newton import Pace, Question, settle
from draft.toile.sewn_cloth import SewnCloth, cloth_of
from draft.toile.vertex_levels import levels_of
from tests.toile.made_cloth import Nothing, cylinder, laid_flat, sheet, tube


def _matrix(cloth: SewnCloth, x: Floats) -> BlockMatrix:
    stiff = np.tile(1e-3 * np.eye(3), (cloth.count, 1, 1))
    return BlockMatrix(cloth.pattern, cloth.membrane.with_blocks(x)[2], stiff)


def _whole(matrix: BlockMatrix, count: int) -> Floats:
    each = np.eye(3 * count).reshape(-1, count, 3)
    return np.stack([matrix.times(one).ravel() for one in each], axis=1)


def test_a_step_is_that_of_the_whole_matrix() -> None:
    sewn = tube(400.0, 160.0, 25.0)
    cloth = cloth_of(sewn, (0.5, 0.25))
    random = np.random.default_rng(1)
    x = laid_flat(sewn) + random.normal(0.0, 2.0, (cloth.count, 3))
    matrix, right = _matrix(cloth, x), random.normal(0.0, 1.0, (cloth.count, 3))
    levels = levels_of(cloth.pattern)
    found = ByLevels(levels, matrix, cloth.pattern, cloth.held).solved(right)
    free = ~cloth.held.ravel()
    whole = _whole(matrix, cloth.count)
    assert np.allclose(found.ravel()[free], np.linalg.solve(whole[np.ix_(free, free)], right.ravel()[free]), rtol=1e-8)
    assert not found.ravel()[~free].any()
    assert len(levels.own) > 3 and sorted(levels.order.tolist()) == list(range(3 * cloth.count))


def test_of_two_halves_what_joins_them_is_made_up_for() -> None:
    sewn = sheet(200.0, 120.0, 20.0)
    cloth = cloth_of(sewn, (0.5, 0.25))
    random = np.random.default_rng(2)
    x = np.zeros((cloth.count, 3))
    x[sewn.merged, :2] = sewn.rest - [100.0, 0.0]
    x += random.normal(0.0, 1.0, x.shape)
    matrix, right = _matrix(cloth, x), random.normal(0.0, 1.0, (cloth.count, 3))
    near = ByLevels(levels_of(cloth.pattern, x[:, 0] < 0), matrix, cloth.pattern, cloth.held).solved
    found = solved(matrix, right, cloth.held, 1e-9, 200, near)
    assert np.allclose(matrix.times(found), right, atol=1e-6)
    few = [np.abs(matrix.times(solved(matrix, right, cloth.held, 1e-9, 30, by)) - right).max() for by in (near, None)]
    assert few[0] < 0.1 * few[1]


def test_both_ways_come_to_one_rest() -> None:
    sewn = tube(360.0, 120.0, 24.0)
    cloth, question = cloth_of(sewn, (0.5, 0.25)), Question(cylinder(65.0))
    start = settle(cloth, laid_flat(sewn, -60.0) * [1, 14, 1], question, Pace(1e-5, 30, 0.1)).x
    pace = Pace(1e-5, 60, 1e-4, 1e-4, 2000)
    one = settle(cloth, start, question, pace)
    other = settle(cloth, start, question, replace(pace, by_levels=True))
    assert np.abs(one.x - other.x).max() < 0.02 and other.steps <= one.steps


def test_stiffer_cloth_bends_less_and_weighs_the_same() -> None:
    cloth = cloth_of(sheet(100.0, 60.0, 20.0), (0.5, 0.25))
    stiff = cloth.bent_by(5.0)
    x = np.random.default_rng(3).normal(0.0, 1.0, (cloth.count, 3))
    assert np.allclose(stiff.pattern.bent_by(x), 5 * cloth.pattern.bent_by(x))
    assert np.array_equal(stiff.weights, cloth.weights) and stiff.membrane is cloth.membrane


@pytest.mark.parametrize("away", [0.0, 0.3, 0.49, 0.7, 1.2])
def test_the_form_presses_as_its_energy_says(away: float) -> None:
    field, areas = cylinder(50.0), np.array([2.0])
    at = np.array([[50.0 + away, 0.0, 0.0]])
    one, step = touch(at, areas, field, 0.1, 0.5, None), np.array([[1e-5, 0.0, 0.0]])
    before, after = (touch(at + sign * step, areas, field, 0.1, 0.5, None) for sign in (-1, 1))
    assert one.gradient[0, 0] == pytest.approx((after.energy - before.energy) / 2e-5, abs=1e-6)
    assert one.blocks[0, 0, 0] == pytest.approx((after.gradient - before.gradient)[0, 0] / 2e-5, abs=1e-4)
    assert touch(np.array([[60.0, 0.0, 0.0]]), areas, field, 0.1, 0.5, None).energy == 0.0
    assert Nothing().at(at)[0][0] > 0
