"""Bodies as arrays: choosing among them, and what keeps them from being drafted."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.notes import Problems
from draft.bodies.bodies import Bodies, body_notes

THREE = Bodies(
    ("S", "M", "L"), {"bust_girth": np.array([860.0, 940, 1030]), "hip_girth": np.array([950.0, 1010, 1080])}
)


def test_selected_bodies_keep_their_own_figures_in_the_order_asked() -> None:
    two = THREE.select(["L", "S", "L"])
    assert two.names == ("L", "S") and len(two) == 2
    assert two.values["bust_girth"].tolist() == [1030, 860]
    assert two.values["hip_girth"].tolist() == [1080, 950]


def test_an_unknown_size_is_named_with_the_choice() -> None:
    with pytest.raises(Problems) as caught:
        THREE.select(["XS", "M", "3XL"])
    assert [n.message for n in caught.value.notes] == ["there is no size `XS`", "there is no size `3XL`"]
    assert caught.value.notes[0].hints == ("choose from S, M, L",)
    with pytest.raises(Problems, match="no size was asked for"):
        THREE.select([])


def test_arrays_of_another_length_are_refused() -> None:
    with pytest.raises(ValueError, match="2 bodies"):
        Bodies(("S", "M"), {"bust_girth": np.array([860.0])})


def test_a_missing_measure_says_how_to_take_it() -> None:
    (note,) = body_notes(THREE, ["bust_girth", "hip_depth", "hip_depth"])
    assert note.message == "`hip_depth` is missing for S, M, L"
    assert note.hints[0].startswith("measure it: at the side, from the waist")


def test_a_gap_in_one_body_names_that_body_alone() -> None:
    some = Bodies(("S", "M"), {"bust_girth": np.array([860.0, np.nan])})
    (note,) = body_notes(some, ["bust_girth"])
    assert note.message == "`bust_girth` is missing for M"
    assert body_notes(some, []) == []


def test_many_bodies_give_one_short_note() -> None:
    many = Bodies(tuple(f"woman {k}" for k in range(2000)), {"bust_girth": np.full(2000, 360.0)})
    missing, wrong = body_notes(many, ["hip_girth"])
    assert missing.message.endswith("woman 6 and 1993 more")
    assert wrong.message.startswith("`bust_girth` is 36 cm for woman 0 (and 1999 more), outside")


def test_a_word_that_is_no_measure_is_named() -> None:
    (note,) = body_notes(THREE, ["bust_grith"])
    assert note.message == "`bust_grith` is not a body measure" and note.hints == ("try `bust_girth`",)
