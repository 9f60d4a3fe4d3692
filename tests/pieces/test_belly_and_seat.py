"""Belly and seat, a longer front, an arm held forward: each moves its own lines, and no girth grows."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from draft.answers.fit import fit_files
from draft.answers.shape_followed import shape_report
from draft.base.notes import Severity
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.garment.garment import Piece
from draft.seams.sides import sewn_length
from draft.seams.walk import walk_seams

BODY = ("bust_girth=98cm", "waist_girth=84cm", "hip_girth=104cm", "stature=168cm", "back_waist_length=42cm")
BELLY, SEAT = ("front_waist_width=46cm", "front_hip_width=54cm"), ("front_waist_width=41cm", "front_hip_width=48cm")
LOWER = ("ropewalk", "boatyard", "slipway")


@cache
def drafted(pattern: str, answers: tuple[str, ...] = (), forward: str = "0 cm") -> Drafted:
    styles = {} if pattern in (*LOWER, "breakwater") else {"arm_forward": forward}
    return draft_and_check(Request(pattern, Whom(answers=BODY + answers), styles), whole=True)


def finished(one: Drafted, name: str) -> float:
    return next(float(f.values[0]) for f in one.garment.finished if f.name == name)


def waist(piece: Piece) -> float:
    name = "waistline" if any(edge.name == "waistline" for edge in piece.edges) else "waist"
    return float(sewn_length(piece, piece.edge(name))[0])


@pytest.mark.parametrize("pattern", LOWER)
def test_unmeasured_and_measured_as_the_block_are_one(pattern: str) -> None:
    same = drafted(pattern, ("front_waist_width=42cm", "front_hip_width=52cm"))
    for piece in drafted(pattern).garment.pieces:
        for edge in piece.edges:
            assert np.abs(same.garment.piece(piece.name).edge(edge.name).segments - edge.segments).max() < 1e-9


MOVED = {
    # Of half a front: a waistband's seam lies below the waist, so what goes over is between that of waist and hip;
    # leggings have less of both; and no dart is as narrow as Ropewalk's front dart would be over that seat
    "ropewalk": (20.0, -3.2),
    "boatyard": (17.0, -9.5),
    "slipway": (16.3, -7.0),
}


@pytest.mark.parametrize("pattern", LOWER)
@pytest.mark.parametrize("which", [0, 1])
def test_girth_goes_from_back_to_front_and_none_is_lost(pattern: str, which: int) -> None:
    before, after = drafted(pattern), drafted(pattern, (BELLY, SEAT)[which])
    assert finished(after, "hip") == pytest.approx(finished(before, "hip"), abs=0.01)
    # Boatyard's waistline is drawn by its chord: its curve adds up to 6 mm, less where the sides come in by less
    assert finished(after, "waist") == pytest.approx(
        finished(before, "waist"), abs=9.0 if pattern == "boatyard" else 0.1
    )
    front, back = (waist(after.garment.piece(name)) - waist(before.garment.piece(name)) for name in ("front", "back"))
    assert front == pytest.approx(MOVED[pattern][which], abs=2.0) and back == pytest.approx(-front, abs=4.5)
    assert front * back < 0


@pytest.mark.parametrize("pattern", LOWER)
@pytest.mark.parametrize("answers", [BELLY, SEAT])
def test_seams_walk_curves_are_fair_and_it_is_said(pattern: str, answers: tuple[str, ...]) -> None:
    found = drafted(pattern, answers)
    assert [note.message for note in found.notes if note.severity is not Severity.REMARK] == []
    assert all(np.abs(seam.difference).max() < 0.01 for seam in walk_seams(found.garment))
    told = shape_report(found)
    assert "drafted to the front hip width" in told and "where the block has 52 cm" in told
    assert "Drafted to the front hip width" in next(iter(fit_files(found).values())).decode()


def test_a_belly_narrows_the_darts_in_front_and_a_seat_widens_them() -> None:
    def front(answers: tuple[str, ...]) -> float:
        darts = drafted("ropewalk", answers).garment.piece("front").takeups
        return sum(float(dart.width[0]) for dart in darts)

    assert front(BELLY) < front(()) - 5.0
    assert front(SEAT) < front(())  # the waist goes to the front by more than the hip does here
    assert front(("front_waist_width=40cm", "front_hip_width=52cm")) > front(()) + 5.0


def moved(pattern: str, *answers: str) -> set[str]:
    """Edges that are drawn otherwise, by more than 0.01 mm."""
    before, after = drafted(pattern).garment, drafted(pattern, answers).garment
    return {
        f"{piece.name}.{edge.name}"
        for piece in before.pieces
        for edge in piece.edges
        if np.abs(after.piece(piece.name).edge(edge.name).segments - edge.segments).max() > 0.01
    }


WAIST = {
    # What a belly raises, and what follows where the way through the legs or round the waist stays as long as it is
    "ropewalk": {"front.waist", "front.centre", "front.side", "back.waist", "back.side"},
    "slipway": {"front.waist", "front.crotch", "back.waist", "back.crotch", "back.inseam", "back.side", "front.side"},
    "boatyard": {"front.waistline", "front.fly_edge", "front.crotch", "back.waistline", "back.crotch", "back.side"},
}


@pytest.mark.parametrize("pattern", LOWER)
def test_a_belly_raises_the_waist_in_front_by_what_was_measured(pattern: str) -> None:
    own = float(drafted(pattern).bodies.values["front_hip_depth"][0])
    answer = f"front_hip_depth={(own + 20) / 10}cm"
    before, after = (drafted(pattern, answers).garment.piece("front") for answers in ((), (answer,)))
    name = "waistline" if pattern == "boatyard" else "waist"
    tops = [piece.edge(name).segments[0, (0, -1), (0, 3), 1] for piece in (before, after)]
    centre = 0 if pattern == "ropewalk" else 1
    raised = tops[1] - tops[0]
    assert raised[centre] == pytest.approx(20, abs=0.3) and abs(raised[1 - centre]) < 1.5
    assert {one for one in moved(pattern, answer) if one.startswith(("front.", "back."))} <= WAIST[pattern]
    told = shape_report(drafted(pattern, (answer,)))
    assert told.startswith("drafted to the front hip depth: ") and "follows" not in told
    _nothing_is_wrong(drafted(pattern, (answer,)))


@pytest.mark.parametrize("by", [-20.0, 15.0])
def test_a_hollow_back_lowers_the_waist_behind_and_a_flat_one_raises_it(by: float) -> None:
    own = float(drafted("ropewalk").bodies.values["back_hip_depth"][0])
    answer = f"back_hip_depth={(own + by) / 10}cm"
    before, after = (drafted("ropewalk", answers).garment.piece("back") for answers in ((), (answer,)))
    heights = [piece.edge("centre").segments[0, -1, 3, 1] for piece in (before, after)]
    assert heights[1] - heights[0] == pytest.approx(by, abs=0.01)
    sides = [piece.edge("waist").segments[0, -1, 3, 1] for piece in (before, after)]
    assert sides[1] - sides[0] == pytest.approx(0, abs=3)  # as far as the sides come in otherwise
    assert {"back.hem", "front.hem", "front.centre"}.isdisjoint(moved("ropewalk", answer))
    _nothing_is_wrong(drafted("ropewalk", (answer,)))


def test_more_than_a_waist_can_follow_is_said() -> None:
    told = shape_report(drafted("ropewalk", ("front_hip_depth=28cm",)))
    assert "the pattern follows as far as 21.2 cm" in told


@pytest.mark.parametrize("by", [15.0, -15.0])
def test_a_longer_front_lengthens_a_wrap_at_its_middle(by: float) -> None:
    answer = f"front_waist_length={(446 + by) / 10}cm"
    hems = {f"{side}_front.{name}" for side in ("right", "left") for name in ("hem", "right_hem")}
    edges = {"right_front.right_edge", "left_front.left_edge", "right_facing", "left_facing"}
    assert {one for one in moved("breakwater", answer) if one.partition(".")[0] not in edges} <= hems | edges
    before, after = (drafted("breakwater", answers).garment.piece("left_front") for answers in ((), (answer,)))
    lowest = [piece.edge("hem").segments[..., 1].min() for piece in (before, after)]
    assert (lowest[0] - lowest[1]) * np.sign(by) > 0
    _nothing_is_wrong(drafted("breakwater", (answer,)))


def _nothing_is_wrong(found: Drafted) -> None:
    assert [note.message for note in found.notes if note.severity is not Severity.REMARK] == []
    assert all(np.abs(seam.difference).max() < 0.01 for seam in walk_seams(found.garment))


@pytest.mark.parametrize("pattern", ["tidemill", "netloft"])
@pytest.mark.parametrize("by", [25.0, -20.0])
def test_a_longer_front_lengthens_its_centre_alone(pattern: str, by: float) -> None:
    before, after = drafted(pattern), drafted(pattern, (f"front_waist_length={(446 + by) / 10}cm",))
    moved = {
        f"{piece.name}.{edge.name}"
        for piece in before.garment.pieces
        for edge in piece.edges
        if np.abs(after.garment.piece(piece.name).edge(edge.name).segments - edge.segments).max() > 0.01
    }
    assert moved == {"front.hem", "front.centre"}
    lengths = [
        np.abs(np.diff(one.garment.piece("front").edge("centre").segments[0, 0, (0, 3), 1])) for one in (before, after)
    ]
    assert lengths[1] - lengths[0] == pytest.approx([by], abs=0.01)
    assert [note.message for note in after.notes if note.severity is not Severity.REMARK] == []


@pytest.mark.parametrize("pattern", ["tidemill", "lockside", "netloft"])
def test_an_arm_held_forward_turns_the_sleeve_and_no_armhole(pattern: str) -> None:
    before, after = drafted(pattern), drafted(pattern, forward="1 cm")
    for name in ("front", "back"):
        for edge in before.garment.piece(name).edges:
            assert np.abs(after.garment.piece(name).edge(edge.name).segments - edge.segments).max() < 0.01
    shares = [float(one.outcome.chosen["front_share"][0]) for one in (before, after)]
    assert shares[1] > shares[0] + 0.01
    assert [note.message for note in after.notes if note.severity is not Severity.REMARK] == []
    gaps = [[float(np.abs(seam.difference).max()) for seam in walk_seams(one.garment)] for one in (before, after)]
    assert max(gaps[1]) < max(*gaps[0], 0.01)
