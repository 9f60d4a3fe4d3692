"""What is bought: rounded up as shops sell, with the ends and what washing takes allowed for."""

import pytest

from draft.base.units import MM_PER_INCH
from draft.cloth.amount import EIGHTH_YARD, FIVE_CENTIMETRES, in_metres, in_yards, rounded_up
from draft.cloth.bolt import Cloth, width_words


@pytest.mark.parametrize(
    "inches, words",
    [(4.5, "1/8 yd"), (4.6, "1/4 yd"), (18, "1/2 yd"), (36, "1 yd"), (36.1, "1 1/8 yd"), (53.9, "1 1/2 yd")],
)
def test_eighths_of_a_yard(inches, words):
    assert in_yards(inches * MM_PER_INCH) == words


@pytest.mark.parametrize("mm, words", [(1, "0.05 m"), (950, "0.95 m"), (951, "1.00 m"), (1301, "1.35 m")])
def test_steps_of_five_centimetres(mm, words):
    assert in_metres(mm) == words


def test_rounding_up_never_gives_less_and_at_most_a_step_more():
    for length in range(1, 3000, 7):
        for step in (EIGHTH_YARD, FIVE_CENTIMETRES):
            assert 0 <= rounded_up(length, step) - length < step + 0.02


def test_rounding_of_a_float_does_not_cost_a_step():
    assert rounded_up(3 * EIGHTH_YARD + 1e-9, EIGHTH_YARD) == pytest.approx(3 * EIGHTH_YARD)


def test_what_is_bought_leaves_the_lay_after_washing_and_straightening():
    """100 cm of lay, 2.5 cm at both ends, 5 % lost in the wash: 105 / 0.95 = 110.5 cm."""
    cloth = Cloth(1500.0, shrink_across=0.04, shrink_down=0.05, ends=25.0)
    assert cloth.bought(1000.0) == pytest.approx(1105.263, abs=0.001)
    assert cloth.left(cloth.bought(1000.0)) == pytest.approx(1000.0)
    assert cloth.usable == pytest.approx(1440.0)


def test_widths_are_said_as_they_are_sold():
    assert width_words(58 * MM_PER_INCH) == "58 in (148 cm)"
    assert width_words(1470.0) == "147 cm (58 in)"
    assert width_words(57.5 * MM_PER_INCH) == "57 1/2 in (147 cm)"


def test_what_is_kept_free_at_the_selvedges_is_not_laid_on():
    cloth = Cloth(1500.0, shrink_across=0.04, selvedge=20.0)
    assert cloth.usable == pytest.approx(1400.0)
    assert cloth.width_for(cloth.usable) == pytest.approx(1500.0)
