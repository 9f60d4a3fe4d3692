"""Of figures that are alike the first is named, whatever is rounded off."""

from __future__ import annotations

import numpy as np

from draft.base.worst import worst_of


def test_the_greatest_is_found() -> None:
    assert worst_of(np.array([1.0, 4.0, 3.9999])) == 1
    assert worst_of(np.array([-np.inf, -2.0, -3.0])) == 1
    assert worst_of(np.array([0.0, np.inf, np.inf])) == 1
    assert worst_of(np.array([0.01, 0.0101])) == 1


def test_of_those_that_are_alike_the_first_is() -> None:
    for seed in range(50):
        values = np.array([1.0, 4.3, 4.3, 4.3]) + np.random.default_rng(seed).normal(0, 1e-12, 4)
        assert worst_of(values) == 1
        assert worst_of(1e9 * values) == 1
