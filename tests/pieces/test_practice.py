"""Garments written with the tutorials alone, held to what is known of such garments from elsewhere."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.fit.stretch import needed_stretches
from draft.garment.elastics import elastics
from draft.geometry.length import length
from tests.asking import asked

GOOD = Path(__file__).parents[1] / "good"
CROTCH = np.array([641.0, 660.0, 682.0])
"""The crotch length of the sizes of legs.csv, mm; the trousers do not ask for it."""


@cache
def drafted(name: str) -> Drafted:
    return draft_and_check(asked(GOOD / f"{name}.piece"))


def body(name: str, measure: str) -> Floats:
    return drafted(name).outcome.bodies.values[measure]


def of_edge(name: str, piece: str, edge: str) -> Floats:
    return length(drafted(name).garment.piece(piece).edge(edge).segments)


def test_a_circle_skirt_has_its_waist_on_a_circle_of_that_round() -> None:
    """The radius is the round by 2 pi: geometry."""
    wanted = body("circle_skirt", "waist_girth") + 10
    np.testing.assert_allclose(4 * of_edge("circle_skirt", "skirt", "waist"), wanted, atol=0.01)
    start = drafted("circle_skirt").garment.piece("skirt").edge("waist").segments[:, 0, 0]
    np.testing.assert_allclose(np.hypot(*start.T), wanted / (2 * np.pi), atol=1e-6)


def test_a_set_in_sleeve_of_woven_cloth_has_2_to_4_cm_of_ease_in_its_cap() -> None:
    """Common practice."""
    values = drafted("bodice_block").outcome.trace.values
    armhole = length(values["bodice_front.armhole"]) + length(values["bodice_back.armhole"])
    ease = length(values["sleeve_block.cap"]) - armhole
    assert np.all((ease >= 20) & (ease <= 40))


def test_trousers_go_between_the_legs_as_handbooks_draft_them() -> None:
    """In front by a 16th to a 24th of the hip, behind by an 8th to a 12th; as long as the body there, or by up to 4 cm
    longer (all from memory)."""
    hip, values = body("trousers", "hip_girth"), drafted("trousers").outcome.trace.values
    for piece, least, most in (("front", 1 / 24, 1 / 16), ("back", 1 / 12, 1 / 8)):
        goes = np.abs(values[f"{piece}.centre_crotch"][:, 0] - values[f"{piece}.fork"][:, 0]) / hip
        assert np.all((goes >= least) & (goes <= most)), piece
    room = of_edge("trousers", "front", "centre") + of_edge("trousers", "back", "centre")
    room = room - CROTCH
    assert np.all((room >= 0) & (room <= 40))


@pytest.mark.parametrize(("name", "ease"), [("circle_skirt", 10.0), ("trousers", 20.0)])
def test_a_waistband_is_as_long_as_the_waist_and_its_ease(name: str, ease: float) -> None:
    """Common practice: to within 3 mm, the lap left out."""
    band = of_edge(name, "waistband", "seam")
    np.testing.assert_allclose(band, body(name, "waist_girth") + ease, atol=3)


@pytest.mark.parametrize("name", ["gathered_in", "tiered_skirt", "leggings"])
def test_elastic_holds_at_the_waist_and_lets_the_hip_pass(name: str) -> None:
    garment = drafted(name).garment
    (waist,) = [finished for finished in garment.finished if finished.flat is not None]
    assert waist.flat is not None and np.all(waist.values < body(name, "waist_girth"))
    whole = sum(one.length * one.count for one in elastics(garment))
    np.testing.assert_allclose(whole, waist.values)  # what is bought is what lies round the body
    worn, passed = [needed for needed in needed_stretches(garment) if needed.where == "waist"]
    np.testing.assert_allclose(worn.share, body(name, "waist_girth") / waist.flat - 1)
    np.testing.assert_allclose(passed.share, body(name, "hip_girth") / waist.flat - 1)
