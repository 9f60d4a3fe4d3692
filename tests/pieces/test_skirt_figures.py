"""The Ropewalk skirt against what drafting handbooks say of a straight skirt.

Figures of handbooks are from memory, given as ranges that several of them share; facts about bodies are computed from
data, named beside them.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.bodies.bodies import Bodies
from draft.drafting.drafting import draft_plan
from draft.garment.garment import Edge, Takeup
from draft.plan.library import find
from tests.asking import bundled
from tests.outside.women import real_women, study
from tests.pieces.bundled import chosen, finished, place_on, points
from tests.pieces.wearing import whole
from tests.written import make_plan

M = 2  # the place of size M in the chart


def _takeup(piece: str, name: str) -> Takeup:
    return next(takeup for takeup in bundled("ropewalk").garment.piece(piece).takeups if takeup.name == name)


DARTS = {("front", "dart"): 2, ("back", "inner_dart"): 2, ("back", "outer_dart"): 2}  # how many the skirt has


def _length(piece: str, name: str) -> Floats:
    """From the middle of its mouth to its point, cm."""
    takeup = _takeup(piece, name)
    edge = bundled("ropewalk").garment.piece(piece).edge("waist")
    assert takeup.to is not None
    return np.hypot(*(place_on(edge, takeup.at) - takeup.to).T) / 10


def test_darts_and_side_seams_close_the_difference_between_hip_and_waist() -> None:
    """Suppression = hip with its ease less waist with its ease (common practice). The waist's curve is a little longer
    than the straight way across, which leaves up to a centimetre to the side seams."""
    garment = bundled("ropewalk").garment
    darts = sum(_takeup(*key).width * count for key, count in DARTS.items()) / 10
    sides = 4 * chosen(garment, "side_in") / 10
    difference = finished(garment, "hip") - finished(garment, "waist")
    assert np.all((darts + sides - difference >= 0) & (darts + sides - difference < 1.0))


def test_side_seams_take_about_half_of_it() -> None:
    """Four of some eight parts in handbook drafts for misses' sizes; from memory."""
    garment = bundled("ropewalk").garment
    share = 4 * chosen(garment, "side_in") / 10 / (finished(garment, "hip") - finished(garment, "waist"))
    assert np.all((share > 0.45) & (share < 0.65))


def test_no_dart_is_wider_than_will_press_flat() -> None:
    """About 2 to 2.5 cm each in a middle size, 3.5 cm at most; from memory."""
    for key in DARTS:
        width = _takeup(*key).width / 10
        assert 1.8 < width[M] < 2.6
        assert np.all((width > 0.5) & (width < 3.5))


def test_the_front_dart_is_shorter_than_the_back_darts() -> None:
    """The belly lies higher than the seat: 9 to 11 cm in front, 12 to 15 cm behind, the inner longer; from memory."""
    front, inner, outer = (_length(*key)[M] for key in DARTS)
    assert 9 < front < 11
    assert 12 < outer < inner < 15


def test_darts_end_above_the_hip() -> None:
    garment = bundled("ropewalk").garment
    level = garment.piece("front").edge("side").segments[:, 1, 0, 1]  # where the hip curve meets the straight
    for key in DARTS:
        to = _takeup(*key).to
        assert to is not None and np.all(to[:, 1] > level + 40.0)


def test_the_hip_lies_about_20_cm_below_the_waist() -> None:
    """18 to 22 cm for women of usual height; from memory."""
    level = bundled("ropewalk").garment.piece("front").edge("side").segments[:, 1, 0, 1]
    assert np.all((-level / 10 >= 18) & (-level / 10 <= 22))


def test_the_back_waist_dips_and_the_side_rises_by_a_centimetre_or_so() -> None:
    """0.5 to 1.5 cm at the centre back, 1 to 2 cm at the side; from memory."""
    garment = bundled("ropewalk").garment
    back, front = (garment.piece(name).edge("waist").segments for name in ("back", "front"))
    dip = (front[:, 0, 0, 1] - back[:, 0, 0, 1]) / 10
    rise = (front[:, -1, 3, 1] - front[:, 0, 0, 1]) / 10
    assert np.all((dip >= 0.5) & (dip <= 1.5) & (rise >= 1.0) & (rise <= 2.0))


def test_ease_at_hip_and_waist_is_that_of_woven_cloth() -> None:
    """0.5 to 2.5 cm round the waist and 3 to 6 cm round the hip; from memory."""
    found = bundled("ropewalk")
    waist = finished(found.garment, "waist") - found.bodies.values["waist_girth"] / 10
    hip = finished(found.garment, "hip") - found.bodies.values["hip_girth"] / 10
    assert np.all((waist >= 0.5) & (waist <= 2.5))
    assert np.all((hip >= 3.0) & (hip <= 6.0))


@pytest.mark.parametrize("name", ["front", "back"])
def test_the_waist_runs_on_smoothly_over_closed_darts(name: str) -> None:
    """Fold each dart, and its two legs meet the waist at 180 deg together (common practice: a waist is trued with its
    darts closed)."""
    piece = bundled("ropewalk").garment.piece(name)
    waist = piece.edge("waist")
    for takeup in piece.takeups:
        inside = sum(_angle_at_leg(waist, takeup, side) for side in (-1, 1))
        assert np.all(np.abs(inside - 180) < 1.0), takeup.name


@pytest.mark.parametrize("name", ["front", "back"])
def test_the_closed_waist_rises_evenly_from_the_centre_to_the_side(name: str) -> None:
    """Its slope, with the spread of every closed dart added, never falls, and it ends square to the side seam."""
    piece = bundled("ropewalk").garment.piece(name)
    slope, at = _slopes(piece.edge("waist"))
    mouths = np.zeros_like(at, dtype=bool)
    for takeup in piece.takeups:
        legs = [_leg(piece.edge("waist"), takeup, side) for side in (-1, 1)]
        cosine = np.sum(legs[0] * legs[1], axis=1) / np.hypot(*legs[0].T) / np.hypot(*legs[1].T)
        slope = slope + np.where(at > takeup.at[:, None], np.degrees(np.arccos(cosine))[:, None], 0.0)
        mouths |= np.abs(at - takeup.at[:, None]) < takeup.width[:, None] / 2 + 1.0
    for rising, within in zip(slope, mouths, strict=True):
        climbs = rising[~within & np.isfinite(rising)]
        assert np.all(climbs - np.maximum.accumulate(climbs) > -2.0)  # deg
        assert abs(climbs[0]) < 0.5


def _leg(waist: Edge, takeup: Takeup, side: int) -> Floats:
    """From one leg's end on the waist to the dart's point."""
    assert takeup.to is not None
    return np.asarray(takeup.to - place_on(waist, takeup.at + side * takeup.width / 2))


def _angle_at_leg(waist: Edge, takeup: Takeup, side: int) -> Floats:
    """The angle between a leg and the waist beside it, degrees."""
    along = place_on(waist, takeup.at + side * (takeup.width / 2 + 0.5)) - place_on(
        waist, takeup.at + side * takeup.width / 2
    )
    leg = _leg(waist, takeup, side)
    cosine = np.sum(along * leg, axis=1) / np.hypot(*along.T) / np.hypot(*leg.T)
    return np.asarray(np.degrees(np.arccos(cosine)))


def _slopes(waist: Edge) -> tuple[Floats, Floats]:
    """The slope of a waist, degrees, and the distance along it, mm, at many places; none where two are one."""
    line = points(waist, 40)
    steps = np.diff(line, axis=1)
    length = np.hypot(steps[..., 0], steps[..., 1])
    slope = np.where(length > 1e-6, np.degrees(np.arctan2(steps[..., 1], steps[..., 0])), np.nan)
    return slope, np.cumsum(length, axis=1) - length / 2


@pytest.mark.parametrize("drop", [-80.0, 0.0, 30.0])
def test_a_straight_figure_gets_no_dart_less_than_nothing(drop: float) -> None:
    """Waist as large as the hip, or larger: the darts go, and the side seams run straight up or out."""
    hip = np.array([980.0])
    values = {"hip_girth": hip, "waist_girth": hip - drop, "hip_depth": np.array([205.0])}
    plan = make_plan(find("ropewalk"))
    found = draft_plan(plan, whole(plan, Bodies(("straight",), values)))
    assert found.notes == ()
    for piece in found.garment.pieces:
        for takeup in piece.takeups:
            assert takeup.width[0] >= 0
    assert finished(found.garment, "waist")[0] == pytest.approx((980 - drop) / 10 + 1, abs=0.01)


def test_a_knee_is_about_the_share_of_the_hip_that_the_skirt_takes_it_for() -> None:
    """The skirt allows 37 % of the hip for both knees. bdims (Heinz and others 2003): the girth of one knee."""
    women = study()
    share = np.asarray(women["kne_gi"] / women["hip_gi"])
    assert np.mean(share) == pytest.approx(0.37, abs=0.01)


def test_a_step_opens_the_hem_by_four_fifths_of_its_depth() -> None:
    """A step is about 41 % of the stature and a leg, from the hip joint down, about half of it; from memory."""
    step, leg = 0.41, 0.50  # of the stature
    assert step / leg == pytest.approx(0.80, abs=0.03)


def test_every_woman_of_a_study_gets_a_skirt() -> None:
    plan = make_plan(find("ropewalk"))
    found = draft_plan(plan, whole(plan, real_women()))
    assert found.outcome.drafted.all()
    assert np.all(chosen(found.garment, "side_in") > 0)
