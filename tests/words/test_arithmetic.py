"""Rounding to steps, and shares: exact trade fractions, halves, and steps of nothing."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.units import MM_PER_INCH
from draft.solve import evaluate
from draft.words import WORDS
from tests.written import people, planned

EIGHTH = MM_PER_INCH / 8


@pytest.mark.parametrize(
    ("word", "eighths", "gives"),
    [
        ("rounded_to", 3, 3),
        ("rounded_to", 3.4, 3),
        ("rounded_to", 3.6, 4),
        ("rounded_to", 2.5, 3),
        ("rounded_to", 3.5, 4),
        ("rounded_to", -0.4, 0),
        ("rounded_up_to", 3.01, 4),
        ("rounded_up_to", 3, 3),
        ("rounded_up_to", -3.5, -3),
        ("rounded_down_to", 3.99, 3),
        ("rounded_down_to", 3, 3),
        ("rounded_down_to", -3.5, -4),
    ],
)
def test_rounding_to_eighths_of_an_inch(word: str, eighths: float, gives: float) -> None:
    found, fits = WORDS[word].run(np.array([eighths * EIGHTH]), np.array([EIGHTH]))
    assert fits.all() and found[0] == pytest.approx(gives * EIGHTH, abs=1e-9)


@settings(max_examples=60)
@given(st.integers(-400, 400), st.sampled_from([MM_PER_INCH / 8, MM_PER_INCH / 16, 0.1, 5.0, 1 / 3]))
def test_whole_steps_stay_as_they_are_whatever_their_last_digit(count: int, step: float) -> None:
    value = np.array([sum([step] * abs(count)) * (1 if count >= 0 else -1)])  # with the rounding of every sum
    for word in ("rounded_to", "rounded_up_to", "rounded_down_to"):
        found, _ = WORDS[word].run(value, np.array([step]))
        assert found[0] == pytest.approx(count * step, abs=1e-9)


@settings(max_examples=60)
@given(st.floats(-1e4, 1e4), st.floats(0.01, 100))
def test_up_down_and_nearest_bracket_the_value(value: float, step: float) -> None:
    up, near, down = (
        WORDS[word].run(np.array([value]), np.array([step]))[0][0]
        for word in ("rounded_up_to", "rounded_to", "rounded_down_to")
    )
    slack = 1e-8 * step + 1e-12 * abs(value)
    assert down - slack <= value <= up + slack and up - down <= step * (1 + 1e-9)
    assert abs(near - value) <= step / 2 + slack and near in (up, down)


def test_steps_of_nothing_and_division_by_nothing_fail_and_stay_finite() -> None:
    for word in ("rounded_to", "rounded_up_to", "rounded_down_to"):
        for step in (0.0, -2.0):
            found, fits = WORDS[word].run(np.array([5.0]), np.array([step]))
            assert not fits.any() and np.isfinite(found).all()
    found, fits = WORDS["over"].run(np.array([5.0, 6.0]), np.array([0.0, 2.0]))
    assert fits.tolist() == [False, True] and found[1] == 3 and np.isfinite(found).all()


@pytest.mark.parametrize("rounded", ["rounded to", "rounded up to", "rounded down to"])
def test_it_is_told_that_steps_of_nothing_cannot_be_rounded_to(rounded: str) -> None:
    plan = planned(f"body\n    bust_girth\nlet\n    width = bust_girth {rounded} (bust_girth - 90 cm)\n")
    ((_, fact, where),) = evaluate(plan, people(bust_girth=[95.0, 90.0])).trace.failures
    assert fact == "there is no rounding to steps of nothing" and where.tolist() == [False, True]
