"""The Tidemill tee against what drafting handbooks say of a set-in sleeve in knit cloth.

Figures of handbooks are from memory, given as ranges that several of them share.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.drafting.drafting import draft_plan
from draft.plan.library import find
from tests.asking import bundled
from tests.outside.women import real_women
from tests.pieces.bundled import PATTERNS, chord_length, chosen, finished, points
from tests.written import make_plan

M = 2  # the place of size M in the chart


def _edge(piece: str, edge: str) -> Floats:
    """The length of an edge, cm."""
    return chord_length(bundled("tidemill").garment.piece(piece).edge(edge)) / 10


def test_the_cap_goes_into_the_armhole_with_little_ease() -> None:
    """0 to 3 % for knits; from memory."""
    ease = _edge("sleeve", "cap") / (_edge("front", "armhole") + _edge("back", "armhole")) - 1
    assert np.all((ease >= 0) & (ease <= 0.03))
    assert np.allclose(ease, 0.01, atol=2e-4)  # as the style asks by default


@pytest.mark.parametrize("wanted", [0, 2, 4])
def test_the_ease_of_the_cap_is_what_the_style_says(wanted: int) -> None:
    garment = bundled("tidemill", cap_ease=f"{wanted} %").garment
    cap = chord_length(garment.piece("sleeve").edge("cap"))
    armhole = sum(chord_length(garment.piece(name).edge("armhole")) for name in ("front", "back"))
    assert np.allclose(cap / armhole - 1, wanted / 100, atol=2e-4)


def test_the_cap_is_about_a_third_as_high_as_the_armhole_is_long() -> None:
    """Round both halves together: 25 to 36 %, flatter in knits than in woven cloth; from memory."""
    garment = bundled("tidemill").garment
    share = chosen(garment, "cap_height") / 10 / finished(garment, "armhole")
    assert np.all((share > 0.25) & (share < 0.36))


def test_the_sleeve_is_about_three_quarters_as_wide_as_the_armhole_is_long() -> None:
    """70 to 85 %; from memory."""
    garment = bundled("tidemill").garment
    share = finished(garment, "upper_arm") / finished(garment, "armhole")
    assert np.all((share > 0.70) & (share < 0.85))


def test_the_armhole_of_a_middle_size_measures_40_to_46_cm() -> None:
    """A tee for a bust of 92 to 96 cm; from memory."""
    assert 40 < finished(bundled("tidemill").garment, "armhole")[M] < 46


def test_front_and_back_armhole_differ_by_less_than_two_centimetres() -> None:
    """The front is cut deeper, the back longer; one sleeve fits both, its top at the shoulder; from memory."""
    assert np.all(np.abs(_edge("front", "armhole") - _edge("back", "armhole")) < 2.0)


def test_the_top_of_the_cap_meets_the_shoulder_seam() -> None:
    """Each half of the cap goes into its own half of the armhole."""
    garment = bundled("tidemill").garment
    cap = points(garment.piece("sleeve").edge("cap"))
    steps = np.hypot(*np.moveaxis(np.diff(cap, axis=1), -1, 0))
    top = np.argmax(cap[..., 1], axis=1)
    front = np.array([row[:k].sum() for row, k in zip(steps, top, strict=True)]) / 10
    assert np.allclose(front, _edge("front", "armhole") * 1.01, atol=0.1)


def test_one_notch_for_the_front_and_two_for_the_back() -> None:
    """Common practice, so that a sleeve is not set in the wrong way round."""
    garment = bundled("tidemill").garment
    strokes = {
        name: [notch.strokes for notch in garment.piece(name).notches if notch.edge in ("armhole", "cap")]
        for name in ("front", "back", "sleeve")
    }
    assert strokes == {"front": [1], "back": [2], "sleeve": [1, 1, 2]}


def test_the_armhole_lies_below_the_armpit() -> None:
    """2.5 to 5 cm for a tee; from memory."""
    found = bundled("tidemill")
    depth = -found.garment.piece("back").edge("armhole").segments[:, -1, 3, 1]
    below = (depth - found.bodies.values["armpit_depth"]) / 10
    assert np.all((below >= 2.5) & (below <= 5.0))


def test_the_chest_is_narrower_than_the_back_and_neither_bites_into_the_shoulder() -> None:
    """The front is hollowed 0.5 to 1.5 cm more; either lies at most 4 cm inside the shoulder point; from memory."""
    garment = bundled("tidemill").garment
    inmost = {name: garment.piece(name).edge("armhole").segments[:, 3, 3, 0] / 10 for name in ("front", "back")}
    tip = garment.piece("back").edge("shoulder").segments[:, -1, 3, 0] / 10
    hollow = inmost["back"] - inmost["front"]
    assert np.all((hollow >= 0.5) & (hollow <= 1.5))
    for inside in inmost.values():
        assert np.all((tip - inside > 0) & (tip - inside < 4))


def test_the_sleeve_hangs_as_long_as_the_style_says_in_proportion_to_the_arm() -> None:
    for asked in (22, 58):
        drafted = bundled("tidemill", sleeve_length=f"{asked} cm")
        arms = drafted.outcome.bodies.values["outer_arm_length"] / 10
        assert np.allclose(finished(drafted.garment, "sleeve"), asked * arms / 54, atol=0.05)


def test_the_hem_lies_lower_on_the_tall() -> None:
    """20 cm below the waist on a stature of 164 cm; the back neck lies 1 to 2.5 cm below the nape."""
    drafted = bundled("tidemill")
    bodies = drafted.outcome.bodies.values
    from_nape = bodies["back_waist_length"] / 10 + 20 * bodies["stature"] / 1640
    below = from_nape - finished(drafted.garment, "back_length")
    assert np.ptp(below) < 0.01 and np.all((below > 1) & (below < 2.5))


def test_the_neckband_is_shorter_than_the_neck_and_passes_over_the_head() -> None:
    """Self-fabric bands 0.80 to 0.90 of the opening; from memory."""
    found = bundled("tidemill")
    band = _edge("neckband", "long")
    ratio = band / finished(found.garment, "neckline")
    assert np.all((ratio >= 0.80) & (ratio <= 0.90))
    assert np.all(band * 1.5 > found.bodies.values["head_girth"] / 10)


def test_every_woman_of_a_study_gets_a_tee() -> None:
    """And for nineteen of twenty the sleeve's cap is no higher than half of the sleeve's width."""
    found = draft_plan(make_plan(find("tidemill")), real_women())
    assert found.outcome.drafted.all()
    share = chosen(found.garment, "cap_height") / 10 / finished(found.garment, "upper_arm")
    assert np.mean(share <= 0.5) > 0.90
    assert "tidemill" in PATTERNS
