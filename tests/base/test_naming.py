"""Bodies are named as a reader knows them, and counted where they are many."""

from __future__ import annotations

import numpy as np

from draft.base.naming import SHOWN_BODIES, listed, plain, shortened


def test_sizes_and_people_are_named() -> None:
    names = ("XS", "M", "2XL", "42")
    assert listed(names, np.array([True, False, False, False])) == "size XS"
    assert listed(names, np.array([True, False, True, True])) == "sizes XS, 2XL, 42"
    assert listed(("Ines", "Mo"), np.array([True, True])) == "Ines, Mo"


def test_many_bodies_are_counted() -> None:
    names = tuple(f"woman {k}" for k in range(260))
    some = np.arange(260) < SHOWN_BODIES + 1
    assert listed(names, some) == f"{SHOWN_BODIES + 1} of 260 bodies"


def test_names_are_said_with_spaces_and_quoted_short() -> None:
    assert plain("upper_arm") == "upper arm"
    assert shortened("hips") == "`hips`"
    assert len(shortened("x" * 5000)) < 50
