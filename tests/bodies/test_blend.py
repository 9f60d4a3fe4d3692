"""A person between sizes: each measure by the girth that governs it, smooth and never past its neighbours."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Problems
from draft.bodies.blend import blended, read_like, read_row
from draft.bodies.bodies import Bodies


def test_one_size_for_all_is_that_size(women: Bodies) -> None:
    like = read_like("bust L, waist L, hip L", women)
    assert like.names == ("bust L, waist L, hip L",)
    for name, row in women.values.items():
        assert like.values[name][0] == pytest.approx(row[3], abs=1e-9), name


def test_each_measure_follows_the_girth_that_governs_it(women: Bodies) -> None:
    like = {n: v[0] for n, v in read_like("bust M, waist L, hip 2XL", women).values.items()}
    at = {name: dict(zip(women.names, row, strict=True)) for name, row in women.values.items()}
    for name in ("bust_girth", "neck_base_girth", "upper_arm_girth", "shoulder_length", "armpit_depth"):
        assert like[name] == at[name]["M"]
    assert like["waist_girth"] == at["waist_girth"]["L"]
    assert like["hip_girth"] == at["hip_girth"]["2XL"] and like["hip_depth"] == at["hip_depth"]["2XL"]
    assert at["back_waist_length"]["M"] < like["back_waist_length"] < at["back_waist_length"]["L"]


def test_a_girth_that_is_not_said_lies_between_the_others(women: Bodies) -> None:
    like = read_like("bust S, hip L", women)
    assert like.values["waist_girth"][0] == women.values["waist_girth"][2]


def test_halfway_and_a_length_are_places_too(women: Bodies) -> None:
    half = read_like("bust M/L", women).values
    assert 940 < half["bust_girth"][0] < 1030
    exact = read_like("bust 97.3 cm, waist 31 in", women).values
    assert exact["bust_girth"][0] == pytest.approx(973, abs=1e-6)
    assert exact["waist_girth"][0] == pytest.approx(787.4, abs=1e-6)
    assert read_like("Bust l", women).values["bust_girth"] == women.values["bust_girth"][3]
    assert read_like("bust L/M", women).values["bust_girth"] == half["bust_girth"]
    assert read_like("bust M/L", women).names == ("bust M L",)  # a file can be called that


@pytest.mark.parametrize(
    ("text", "fact", "fix"),
    [
        ("bsut M", "`bsut` is not one of bust, waist and hip", 'try `--like "bust M, waist L, hip XL"`'),
        ("bust 4XL", "there is no size `4XL`", "choose from XS, S, M, L, XL, 2XL, 3XL, or give a length"),
        ("bust M, bust L", "`bust` is given twice", None),
        ("bust 40 deg", "`40 deg` is an angle", 'try `--like "bust 104 cm"`'),
        ("bust 150 cm", "`bust_girth` of 150 cm lies outside the chart, 78 cm to 137 cm",
         "give all measures in a file, with `--body FILE`"),
        (" ,", "no size is given", 'try `--like "bust M, waist L, hip XL"`'),
        ("bust M/XL", "there is no size `M/XL`", "choose from XS, S, M, L, XL, 2XL, 3XL, or give a length"),
    ],
)  # fmt: skip
def test_a_mistake_is_told_with_a_fix(women: Bodies, text: str, fact: str, fix: str | None) -> None:
    with pytest.raises(Problems) as caught:
        read_like(text, women)
    (note,) = caught.value.notes
    assert note.message == fact and note.hints == ((fix,) if fix else ())


def test_a_row_is_read_smoothly_and_never_falls(women: Bodies) -> None:
    places = np.linspace(0, 6, 1201)
    for name, row in women.values.items():
        read = np.array([read_row(row, p) for p in places])
        assert np.all(np.diff(read) >= -1e-9), name
        slope = np.diff(read)
        assert np.max(np.abs(np.diff(slope))) < 0.01 * max(np.ptp(row), 1e-9), name  # no corner at a size


@settings(max_examples=40, deadline=None)
@given(st.lists(st.floats(0, 6), min_size=3, max_size=3), st.integers(0, 2))
def test_a_larger_girth_never_makes_a_measure_smaller(places: list[float], which: int) -> None:
    chart = Bodies(tuple("abcdefg"), {n: np.array(r, dtype=float) for n, r in _ROWS.items()})
    at = dict(zip(("bust", "waist", "hip"), places, strict=True))
    grown = {**at, list(at)[which]: min(6.0, list(at.values())[which] + 0.3)}
    before, after = blended(chart, at, "a").values, blended(chart, grown, "b").values
    assert all(after[n][0] >= before[n][0] - 1e-9 for n in _ROWS)


_ROWS = {
    "bust_girth": [78, 86, 94, 103, 113, 125, 137],
    "waist_girth": [62, 69, 77, 86, 97, 109, 121],
    "hip_girth": [89, 95, 101, 108, 115, 124, 133],
    "back_waist_length": [39, 39.8, 40.6, 41.6, 42.7, 44, 45.3],
}
