"""What can have been meant by a word, and what merely looks like it."""

from __future__ import annotations

import pytest

from draft.base.misspelt import may_be_meant, slips
from draft.base.notes import nearest


@pytest.mark.parametrize(
    ("written", "other", "count"),
    [("", "abc", 3), ("hem", "hem", 0), ("form", "from", 1), ("strait", "straight", 2), ("cloth", "notch", 3)],
)
def test_slips_are_counted_the_same_both_ways(written: str, other: str, count: int) -> None:
    assert slips(written, other) == slips(other, written) == count


@pytest.mark.parametrize(
    ("written", "other"),
    [
        ("form", "from"),
        ("curved", "curve"),
        ("outine", "outline"),
        ("waist", "waist_girth"),
        ("front_shoulder", "back_shoulder"),
        ("bust_girht", "bust_girth"),
        ("Front", "front"),
    ],
)
def test_a_slip_a_beginning_or_a_part_of_a_name_tells_what_was_meant(written: str, other: str) -> None:
    assert may_be_meant(written, other)
    assert nearest(written, [other, "unlike"]) == (f"try `{other}`",)


@pytest.mark.parametrize(
    ("written", "other"), [("rotate", "stature"), ("slash", "last"), ("cloth", "notch"), ("move", "solve")]
)
def test_words_that_merely_look_alike_are_not_offered(written: str, other: str) -> None:
    assert not may_be_meant(written, other)
    assert nearest(written, [other]) == ()
