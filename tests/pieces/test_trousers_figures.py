"""The Boatyard trousers against what drafting handbooks say of trousers for men.

Figures of handbooks are from memory, given as ranges that several of them share.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.garment.garment import Garment
from tests.asking import bundled
from tests.pieces.bundled import chord_length, finished, points

M = 2  # the place of size M in the chart


def _garment() -> Garment:
    return bundled("boatyard").garment


def _body(name: str) -> Floats:
    return bundled("boatyard").bodies.values[name] / 10


def _corner(piece: str, edge: str, last: bool = False) -> Floats:
    """The first or last point `(B, 2)` of an edge, cm."""
    return points(_garment().piece(piece).edge(edge))[:, -1 if last else 0] / 10


@pytest.mark.parametrize(("piece", "least", "most"), [("front", 1 / 20, 1 / 16), ("back", 1 / 12, 1 / 8)])
def test_the_fork_reaches_between_the_legs_by_a_share_of_the_hip(piece: str, least: float, most: float) -> None:
    """In front about a sixteenth of the hip, behind an eighth to a tenth or a little less; from memory."""
    line = points(_garment().piece(piece).edge("crotch")) / 10
    low = line[:, :, 1].min(axis=1) + 5.5  # cm above the fork the curve has left the straight centre
    upright = np.array([np.interp(y, row[::-1, 1], row[::-1, 0]) for y, row in zip(low, line, strict=True)])
    share = (upright - _corner(piece, "crotch", last=True)[:, 0]) / _body("hip_girth")
    assert np.all((share > least - 0.005) & (share < most + 0.005))


def test_the_crotch_hangs_below_the_body_by_two_to_six_centimetres() -> None:
    """1 to 2 cm below the level of the seat when sitting, which is some 2 cm below the bones; from memory."""
    side = _corner("front", "side", last=True)[:, 1] - _corner("front", "crotch", last=True)[:, 1]
    depth = side - 1.0 + finished_band() + 2.0  # the side is raised by 1 cm, the band lies 2 cm below the waist
    room = depth - _body("crotch_depth")
    assert np.all((room > 2) & (room < 6))


def finished_band() -> float:
    """The finished width of the waistband, cm."""
    return float(chord_length(_garment().piece("waistband").edge("lap_edge"))[0] / 10)


def test_the_seam_through_the_legs_is_longer_than_the_body_by_2_to_5_cm() -> None:
    """From memory; the waistband's upper edge lies 2 cm below the waist in front and behind."""
    room = finished(_garment(), "through_legs") + 4 - _body("crotch_length")
    assert np.all((room > 1.9) & (room < 5))


def test_ease_is_that_of_straight_trousers() -> None:
    """1 to 3 cm round the waist, 6 to 12 cm round the hip, 5 to 14 cm round the thigh; from memory."""
    garment = _garment()
    assert np.all(np.abs(finished(garment, "hip") - _body("hip_girth") - 8) < 0.01)
    thigh = finished(garment, "thigh") - _body("thigh_girth")
    assert np.all((thigh > 5) & (thigh < 14))
    waist = next(one for one in garment.finished if one.name == "waist")
    assert waist.over is not None
    ease = (waist.values - waist.over[1]) / 10
    assert np.all((ease > 1) & (ease < 3))


def test_the_waistband_is_as_long_as_the_waist_and_its_lap() -> None:
    """Waist with its ease, to within 3 mm, and a lap of 3 to 5 cm (common practice)."""
    band = _garment().piece("waistband")
    waist = finished(_garment(), "waist")
    np.testing.assert_allclose(chord_length(band.edge("long")) / 10, waist, atol=0.3)
    lap = chord_length(band.edge("lap")) / 10
    assert np.all((lap >= 3) & (lap <= 5))
    shield = chord_length(_garment().piece("fly_shield").edge("top")) / 10
    np.testing.assert_allclose(lap, shield)


def test_the_back_rises_and_the_front_dips() -> None:
    """The back's centre lies 3 to 8 cm above the front's, the front's 0.5 to 1.5 cm below its side; from memory."""
    front = _corner("front", "waistline", last=True)[:, 1]
    dip = _corner("front", "waistline")[:, 1] - front
    rise = _corner("back", "waistline", last=True)[:, 1] - front
    assert np.all((dip >= 0.5) & (dip <= 1.5))
    assert np.all((rise >= 3) & (rise <= 8))


def test_the_seat_leans_by_five_to_fifteen_degrees() -> None:
    """How far the straight part of the centre back leans off the grain; from memory."""
    line = points(_garment().piece("back").edge("crotch"))
    way = line[:, 0] - line[:, 40]
    lean = np.degrees(np.arctan2(way[:, 0], way[:, 1]))
    assert np.all((lean > 5) & (lean < 15))


@pytest.mark.parametrize("piece", ["front", "back"])
def test_the_grain_is_the_crease_and_halves_hem_and_knee(piece: str) -> None:
    """Common practice: the crease hangs in the middle of the leg from the knee down, along the grain."""
    drafted = _garment().piece(piece)
    np.testing.assert_allclose(drafted.grain, np.tile([0.0, 1.0], (len(drafted.grain), 1)), atol=1e-9)
    middle = (_corner(piece, "hem") + _corner(piece, "hem", last=True)) / 2
    whole = points(drafted.edge("crotch")) / 10
    hip = points(drafted.edge("side")) / 10
    np.testing.assert_allclose(middle[:, 0], 0, atol=1e-6)
    # and between fork and side at the crotch
    level = whole[:, -1, 1]
    out = np.array([np.interp(y, row[:, 1], row[:, 0]) for y, row in zip(level, hip, strict=True)])
    assert np.all(np.abs(out + whole[:, -1, 0]) < 1.0)


@pytest.mark.parametrize("piece", ["front", "back"])
def test_the_crotch_is_square_to_the_inseam_and_bends_one_way(piece: str) -> None:
    drafted = _garment().piece(piece)
    crotch, inseam = points(drafted.edge("crotch"), 60), points(drafted.edge("inseam"), 400)
    arriving, leaving = crotch[:, -1] - crotch[:, -2], inseam[:, 1] - inseam[:, 0]
    cosine = np.sum(arriving * leaving, axis=1) / np.hypot(*arriving.T) / np.hypot(*leaving.T)
    assert np.all(np.abs(np.degrees(np.arccos(cosine)) - 90) < 1.5)
    steps = np.diff(crotch, axis=1)
    turns = steps[:, :-1, 0] * steps[:, 1:, 1] - steps[:, :-1, 1] * steps[:, 1:, 0]
    assert np.all(turns < 1e-6) or np.all(turns > -1e-6)


def test_both_sides_of_the_fly_have_one_front_each() -> None:
    """The facing is sewn to the left front and the shield to the right one: their seams are as long as its edge."""
    fly = chord_length(_garment().piece("front").edge("fly_edge"))
    for piece in ("fly_facing", "fly_shield"):
        np.testing.assert_allclose(chord_length(_garment().piece(piece).edge("seam")), fly)
    assert np.all((fly / 10 > 11) & (fly / 10 < 18))


def test_more_room_at_the_crotch_lengthens_the_way_through_the_legs_and_not_the_side() -> None:
    wide = bundled("boatyard", crotch_room="5cm").garment
    assert np.all(finished(wide, "through_legs") > finished(_garment(), "through_legs"))
    assert np.all(finished(wide, "side_length") == pytest.approx(finished(_garment(), "side_length")))


def test_a_hand_goes_into_the_front_pockets_and_they_end_above_the_crotch() -> None:
    """The mouth of a pocket in front is 13.5 to 19 cm long (from memory); the pocket is clear of crease and crotch."""
    pocket = _garment().piece("hip_pocket")
    mouth = chord_length(pocket.edge("pocket_mouth")) / 10
    assert np.all((mouth >= 13.5) & (mouth <= 19)), mouth
    base, inner = points(pocket.edge("pocket_base")), points(pocket.edge("pocket_inner"))
    fork = _corner("front", "crotch", last=True)[:, 1]
    assert np.all(base[..., 1].min(axis=1) / 10 > fork + 1), "a pocket that reached the fork would pull"
    assert np.all(inner[..., 0].min(axis=1) > 5), "the crease lies at 0"
