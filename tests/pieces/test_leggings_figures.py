"""The Slipway leggings against common practice for close-fitting knits; handbook figures from memory."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.fit.stretch import needed_stretches
from draft.garment.elastics import elastics
from draft.garment.garment import Garment
from tests.asking import bundled
from tests.pieces.bundled import chord_length, finished, points


def _garment() -> Garment:
    return bundled("slipway").garment


def _body(name: str) -> Floats:
    return bundled("slipway").bodies.values[name] / 10


@pytest.mark.parametrize("where", ["hip", "thigh", "knee"])
def test_leggings_are_smaller_than_the_body_by_a_twentieth_to_a_fifth(where: str) -> None:
    """5 to 20 % for jersey with elastane; from memory."""
    share = finished(_garment(), where) / _body(f"{where}_girth")
    assert np.all((share > 0.80) & (share < 0.95))


def test_worn_they_stretch_the_cloth_by_no_more_than_half_of_what_it_gives_and_leave_a_sixth() -> None:
    """Half of the cloth's stretch, and 16 % left for moving, in the loosest cloth that the pattern allows: 45 %."""
    garment = bundled("slipway", closeness="86%").garment
    worn = [one for one in needed_stretches(garment) if one.where in ("hip", "thigh", "knee")]
    assert len(worn) >= 3
    for one in worn:
        assert np.all((one.share < 0.45 / 2) & (one.share < 0.45 - 0.16)), one.where


def test_the_elastic_is_a_tenth_shorter_than_the_waist_and_the_band_lets_the_hip_pass() -> None:
    """8 to 15 % shorter is common practice."""
    (one,) = elastics(_garment())
    np.testing.assert_allclose(one.length / 10, 0.9 * _body("waist_girth"))
    band = chord_length(_garment().piece("waistband").edge("long")) / 10
    assert np.all(band > one.length / 10) and np.all(band * 1.6 > _body("hip_girth"))


def test_the_fork_is_smaller_than_that_of_trousers() -> None:
    """Front about a 30th to a 20th of the hip, back a 17th to a 10th, in knits; from memory."""
    for piece, least, most in (("front", 0.025, 0.055), ("back", 0.05, 0.105)):
        line = points(_garment().piece(piece).edge("crotch")) / 10
        hip = np.array(
            [np.interp(y, row[::-1, 1], row[::-1, 0]) for y, row in zip(line[:, -1, 1] + 6, line, strict=True)]
        )
        share = (hip - line[:, -1, 0]) / _body("hip_girth")
        assert np.all((share > least) & (share < most)), piece


@pytest.mark.parametrize(("legs", "least", "most"), [("ankle", 0.84, 0.96), ("calf", 0.55, 0.75), ("knee", 0.42, 0.55)])
def test_legs_reach_where_they_say(legs: str, least: float, most: float) -> None:
    """The inseam as a share of the inside of the leg."""
    inseam = chord_length(bundled("slipway", legs=legs).garment.piece("front").edge("inseam")) / 10
    share = (inseam + 3) / _body("inside_leg_length")  # the crotch hangs about 3 cm lower
    assert np.all((share > least) & (share < most))
