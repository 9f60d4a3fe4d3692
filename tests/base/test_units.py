"""Quantities as people write them, and lengths as makers read them."""

from __future__ import annotations

import math
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from draft.base.units import (
    LONGEST,
    UNITS,
    Kind,
    Quantity,
    QuantityError,
    in_centimetres,
    in_inches,
    in_words,
    read_amount,
    read_quantity,
)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("22 cm", 220.0),
        ("22cm", 220.0),
        ("  22 cm ", 220.0),
        ("1 1/4 in", 31.75),
        ("1\t1/4 in", 31.75),
        ("1  1/4in", 31.75),
        ("7/8 in", 22.225),
        ('7/8"', 22.225),
        ("0.5 m", 500.0),
        (".5 m", 500.0),
        ("3 ft", 914.4),
        ("1 yd", 914.4),
        ("-3 mm", -3.0),
        ("- 1 1/2 in", -38.1),
        ("+2 cm", 20.0),
    ],
)
def test_lengths_are_read_in_millimetres(text: str, mm: float) -> None:
    found = read_quantity(text)
    assert found.kind is Kind.LENGTH
    assert found.value == pytest.approx(mm, rel=1e-12)


def test_angles_are_in_radians_and_shares_are_plain() -> None:
    assert read_quantity("180 deg") == Quantity(pytest.approx(math.pi), Kind.ANGLE)
    assert read_quantity("85 %") == Quantity(pytest.approx(0.85), Kind.NUMBER)
    assert read_quantity("85%") == read_quantity("85 %")
    assert read_quantity("2 1/2") == Quantity(2.5, Kind.NUMBER)


def test_an_inch_is_254_tenths_of_a_millimetre_and_a_foot_twelve_of_them() -> None:
    """International yard and pound agreement, 1959."""
    inch, foot, yard = (UNITS[unit][1] for unit in ("in", "ft", "yd"))
    assert (inch, foot, yard) == pytest.approx((25.4, 304.8, 914.4))


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "is not a quantity"),
        ("wide", "is not a quantity"),
        ("2,5 cm", "is not a quantity"),
        ("1e5 cm", "is not a quantity"),
        ("3 furlongs", "`furlongs` is not a unit"),
        ("3 CM", "is not a quantity"),
        ("1/0 in", "divides by nothing"),
        ("1 2/0 in", "divides by nothing"),
        ("٣ cm", "is not a quantity"),
        ("9" * (LONGEST + 1), "has too many digits"),
        ("3 cm 4", "is not a quantity"),
        ("nan", "is not a quantity"),
        ("inf cm", "is not a quantity"),
    ],
)
def test_what_is_no_quantity_is_refused_with_the_reason(text: str, reason: str) -> None:
    with pytest.raises(QuantityError, match=reason):
        read_quantity(text)


@given(st.text(max_size=12))
def test_any_text_is_a_finite_quantity_or_refused(text: str) -> None:
    with suppress(QuantityError):
        assert math.isfinite(read_quantity(text).value)


def test_the_longest_amount_is_still_a_finite_number() -> None:
    assert math.isfinite(read_amount("9" * LONGEST))


@pytest.mark.parametrize(
    ("mm", "words"),
    [
        (0.0, "0 in"),
        (25.4, "1 in"),
        (244.475, "9 5/8 in"),
        (12.7, "1/2 in"),
        (12.6, "1/2 in"),
        (0.4, "0 in"),
        (-0.4, "0 in"),
        (-31.75, "-1 1/4 in"),
        (25.3, "1 in"),
    ],
)
def test_inches_are_told_in_eighths(mm: float, words: str) -> None:
    assert in_inches(mm) == words


@given(st.floats(-5000, 5000))
def test_told_inches_read_back_to_a_sixteenth(mm: float) -> None:
    assert abs(read_quantity(in_inches(mm)).value - mm) <= 25.4 / 16 + 1e-9


def test_centimetres_are_told_without_idle_noughts() -> None:
    assert [in_centimetres(mm) for mm in (245.0, 240.0, 0.0, -0.1, 1234.56, 3.0)] == [
        "24.5 cm",
        "24 cm",
        "0 cm",
        "0 cm",
        "123.5 cm",
        "0.3 cm",
    ]


def test_a_value_is_told_by_its_kind() -> None:
    assert in_words(31.75, Kind.LENGTH) == "3.2 cm"
    assert in_words(math.radians(22.5), Kind.ANGLE) == "22.5 deg"
    assert in_words(0.85, Kind.NUMBER) == "0.85"
