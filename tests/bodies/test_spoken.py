"""Measures as people write them down."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from draft.base.notes import Problems, show
from draft.base.units import Kind, QuantityError
from draft.bodies.person import read_person
from draft.bodies.spoken import read_spoken

INCH = 25.4


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("5 ft 6 in", 66 * INCH),
        ("5'6\"", 66 * INCH),
        ("5′ 6½″", 66.5 * INCH),
        ("39 3/4 inches", 39.75 * INCH),
        ("39¾ in", 39.75 * INCH),
        ("¾ inch", 0.75 * INCH),
        ("101 Centimetres", 1010.0),
        ("1 m 68 cm", 1680.0),
        ("1.68 metres", 1680.0),
        ("16 cm 5 mm", 165.0),
    ],
)
def test_they_are_read(text: str, mm: float) -> None:
    found = read_spoken(text)
    assert found.kind is Kind.LENGTH
    assert math.isclose(found.value, mm)


def test_an_angle_is_read() -> None:
    assert math.isclose(read_spoken("21°").value, math.radians(21))


REFUSED = ("", "101", "5 in 6 ft", "6 in 5 in", "1 m 2 cm 3 mm", "101 elbows", "about 101 cm", "- 5 cm")


@pytest.mark.parametrize("text", REFUSED)
def test_anything_else_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read_spoken(text)


@pytest.mark.parametrize(
    ("written", "fix"),
    [
        ("1,010 mm", "1010 mm"),
        ("101,5 cm", "101.5 cm"),
        ("39,5 in", "39.5 in"),
    ],
)
def test_a_comma_is_read_as_what_can_be_a_body(tmp_path: Path, written: str, fix: str) -> None:
    path = tmp_path / "me.toml"
    path.write_text(f'[measures]\nbust_girth = "{written}"\n', encoding="utf-8")
    with pytest.raises(Problems) as told:
        read_person(path)
    assert f'try `bust_girth = "{fix}"`' in show(told.value.notes)


def test_a_person_may_write_them(tmp_path: Path) -> None:
    path = tmp_path / "me.toml"
    path.write_text('[measures]\nbust_girth = "39 3/4 inches"\nstature = "5 ft 6 in"\n', encoding="utf-8")
    person = read_person(path)
    assert math.isclose(person.values["stature"][0], 66 * INCH)
    assert math.isclose(person.values["bust_girth"][0], 39.75 * INCH)


def test_a_text_of_a_megabyte_is_no_measure_and_is_not_searched() -> None:
    with pytest.raises(QuantityError, match=r"^`1 1 1.{70,90}\.\.\.` is not a quantity$"):
        read_spoken("1 " * 500_000)
