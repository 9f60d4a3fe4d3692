"""Figures beside a size: one trait more or less than it, held to what a body can be."""

from __future__ import annotations

import numpy as np
import pytest

from draft.bodies.beside_a_size import TRAITS, beside
from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES

SIZES = Bodies(
    ("S", "M"), {"waist_girth": np.array([700.0, 780.0]), "shoulder_slope": np.radians([20.0, 20.0]),
                 "back_waist_length": np.array([400.0, 405.0])},
)  # fmt: skip


def test_the_sizes_come_first_as_they_are() -> None:
    found = beside(SIZES, 1, tuple(SIZES.values))
    assert found.names[:2] == ("S", "M")
    assert found.values["waist_girth"][:2].tolist() == [700.0, 780.0]


def test_each_figure_differs_in_its_trait_alone_by_two_standard_deviations() -> None:
    found = beside(SIZES, 1, tuple(SIZES.values))
    assert found.names[2:] == (
        "M with a fuller waist", "M with a smaller waist", "M with longer limbs and back",
        "M with shorter limbs and back", "M with sloping shoulders", "M with square shoulders",
    )  # fmt: skip
    assert found.values["waist_girth"][2:4] == pytest.approx([780 * 1.11, 780 * 0.89])
    assert found.values["waist_girth"][4:].tolist() == [780.0] * 4
    assert np.degrees(found.values["shoulder_slope"][6:]) == pytest.approx([31.2, 8.8])


def test_only_traits_of_what_a_pattern_asks_for_are_there() -> None:
    assert len(beside(SIZES, 0, ("waist_girth",))) == 4
    assert len(beside(Bodies(("one size",), {}), 0, ())) == 1


def test_no_figure_leaves_what_a_body_can_be() -> None:
    extreme = Bodies(("L",), {"waist_girth": np.array([1840.0])})
    assert beside(extreme, 0, ("waist_girth",)).values["waist_girth"][1] == MEASURES["waist_girth"].high


def test_every_measure_of_a_trait_is_a_body_measure() -> None:
    assert {name for trait in TRAITS for name in trait.measures} <= MEASURES.keys()
