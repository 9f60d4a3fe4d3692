"""What is measured of a shape beyond the girths moves the edges that it should, and no others."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from shapely import LineString

from draft.answers.shape_followed import shape_report
from draft.base.arrays import Floats
from draft.base.notes import Severity
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.geometry.flatten import flatten
from draft.seams.walk import walk_seams
from tests.asking import bundled

LIKE = "bust L, waist L, hip L"
PAIR = ("front", "back")
STILL = 0.01  # mm: an edge of which nothing moves by more is where it was


@cache
def drafted(pattern: str, *answers: str) -> Drafted:
    return draft_and_check(Request(pattern, Whom(like=LIKE, answers=answers)))


def moved(pattern: str, *answers: str) -> set[str]:
    """Edges of pieces that lie elsewhere for such a body."""
    before, after = (
        {f"{piece.name}.{edge.name}": edge.segments for piece in one.garment.pieces for edge in piece.edges}
        for one in (drafted(pattern), drafted(pattern, *answers))
    )
    return {name for name, old in before.items() if _line(old).hausdorff_distance(_line(after[name])) > STILL}


def _line(segments: Floats) -> LineString:
    """However many cubics it is drawn with."""
    return LineString(flatten(segments[0], 0.002))


def finished(pattern: str, name: str, *answers: str) -> float:
    return next(float(f.values[0]) for f in drafted(pattern, *answers).garment.finished if f.name == name)


FULL_ALONE = {
    # The length that a full bust asks for is measured apart from its width
    "marlpit": ("high_bust_girth=93cm", "front_waist_length=44.2cm"),
    "lockside": ("high_bust_girth=93cm", "front_waist_length=44.6cm"),
}
BODY = ("front.underarm", "back.underarm", "front.side", "back.side", "front.hem", "back.hem", "front.centre")
WIDENED = {
    "marlpit": {"front.underarm", "back.underarm"},
    "lockside": {"front.side", "back.side", "front.hem", "back.hem"},
}


@pytest.mark.parametrize("pattern", ["marlpit", "lockside"])
def test_a_fuller_bust_moves_width_to_the_front_and_no_girth_grows(pattern: str) -> None:
    answers = FULL_ALONE[pattern]
    assert moved(pattern, *answers).intersection(BODY) == WIDENED[pattern]
    for girth in ("bust", "waist"):
        assert finished(pattern, girth, *answers) == pytest.approx(finished(pattern, girth), abs=0.001)
    if pattern == "lockside":  # of 5 cm less at the high bust a quarter for each half of the back, which no dart turns
        before, after = (
            one.garment.piece("back").edge("armhole").segments[0]
            for one in (drafted(pattern), drafted(pattern, *answers))
        )
        assert np.abs(after - before).max() == pytest.approx(12.5, abs=STILL)


def test_a_longer_front_lengthens_the_centre_front_of_a_knit_alone() -> None:
    for by in (20.0, -20.0):
        answer = f"front_waist_length={(442 + by) / 10}cm"
        assert moved("marlpit", answer) == {"front.hem", "front.centre"}
        grown = finished("marlpit", "front_length", answer) - finished("marlpit", "front_length")
        assert grown == pytest.approx(by, abs=0.001)


def test_a_longer_front_goes_into_the_dart_of_a_woven_and_leaves_back_and_sleeve() -> None:
    for by in (20.0, -20.0):
        elsewhere = moved("lockside", f"front_waist_length={(446 + by) / 10}cm")
        assert {name.partition(".")[0] for name in elsewhere} == {"front", "placket"}
        assert "front.hem" not in elsewhere


@pytest.mark.parametrize("pattern", ["marlpit", "lockside"])
def test_bust_points_move_darts_alone(pattern: str) -> None:
    elsewhere = moved(pattern, "bust_depth=25cm")
    assert {name.partition(".")[0] for name in elsewhere} == ({"front", "placket"} if pattern == "lockside" else set())


def test_across_back_and_across_front_move_their_own_armholes() -> None:
    sleeves = {"sleeve", "cuff"}
    back = {name for name in moved("lockside", "across_back_width=42cm") if name.partition(".")[0] not in sleeves}
    front = {name for name in moved("lockside", "across_front_width=34cm") if name.partition(".")[0] not in sleeves}
    assert "back.armhole" in back and not {name for name in back if name.startswith("front.")}
    assert "front.armhole" in front and not {name for name in front if name.startswith("back.")}


@pytest.mark.parametrize("pattern", ["tidemill", "netloft"])
@pytest.mark.parametrize("by", [15.0, -15.0])
def test_in_a_knit_too_and_fit_says_how_far(pattern: str, by: float) -> None:
    """A size L has 392 and 367 mm; 3 mm are what a tape is not true by, and half of the rest goes to each half."""
    sleeves = {"sleeve", "neckband"}
    for name, own, piece in (("across_back_width", 392, "back"), ("across_front_width", 367, "front")):
        answer = f"{name}={(own + by) / 10}cm"
        elsewhere = {one for one in moved(pattern, answer) if one.partition(".")[0] not in sleeves}
        mine = {"tidemill": {"armhole"}, "netloft": {"armhole", "raglan"}}[pattern]
        assert elsewhere == {f"{piece}.{edge}" for edge in mine}
        told = shape_report(drafted(pattern, answer))
        assert f"drafted to the {name.replace('_', ' ')}: " in told
        chosen, before = drafted(pattern, answer).outcome.trace.values, drafted(pattern).outcome.trace.values
        at = {"tidemill": f"{piece}.deepest", "netloft": f"{piece}_across"}[pattern]
        by_half = float(chosen[at][0] - before[at][0])
        followed = float(chosen[f"{name}_followed"][0])
        assert by_half * by > 0
        assert abs(by_half) == pytest.approx((abs(by) - 3) / 2 - abs(followed - own - by) / 2, abs=0.2)
        assert ("follows as far as" in told) == (abs(followed - own - by) > 3)
        assert [one.message for one in drafted(pattern, answer).notes if one.severity is not Severity.REMARK] == []


@pytest.mark.parametrize("pattern", ["tidemill", "netloft"])
def test_no_back_is_so_broad_or_narrow_that_an_armhole_hooks(pattern: str) -> None:
    """As far as each is followed: beyond it nothing moves."""
    for sign in (1, -1):
        far, farther = (
            drafted(pattern, f"across_back_width={39.2 + sign * by}cm", f"across_front_width={36.7 + sign * by}cm")
            for by in (6, 9)
        )
        for piece in far.garment.pieces:
            for edge in piece.edges:
                assert np.abs(farther.garment.piece(piece.name).edge(edge.name).segments - edge.segments).max() < STILL
        assert [one.message for one in farther.notes if one.severity is not Severity.REMARK] == []
        assert shape_report(farther).count("follows as far as") == 2


SHAPES = (
    ("high_bust_girth=93cm",),
    ("high_bust_girth=101cm",),
    ("front_waist_length=46.5cm",),
    ("front_waist_length=42.5cm",),
    ("high_bust_girth=92cm", "back_waist_length=40cm", "front_waist_length=46cm", "shoulder_slope=26deg"),
)


@pytest.mark.parametrize("pattern", ["marlpit", "lockside"])
@pytest.mark.parametrize("answers", SHAPES)
def test_seams_walk_and_nothing_is_wrong(pattern: str, answers: tuple[str, ...]) -> None:
    found = drafted(pattern, *answers)
    assert [note.message for note in found.notes if note.severity is not Severity.REMARK] == []  # every curve is fair
    before = {one.join.name: one.difference for one in walk_seams(drafted(pattern).garment)}
    for one in walk_seams(found.garment):
        assert np.abs(one.difference - before[one.join.name]).max() < 0.05, one.join.name


def test_what_is_said_of_a_figure_moves_what_its_measure_moves() -> None:
    told = draft_and_check(Request("lockside", Whom(like=LIKE, figure="bust D")))
    high = told.bodies.values["high_bust_girth"][0]
    assert drafted("lockside").bodies.values["high_bust_girth"][0] - high == pytest.approx(50.0)
    taken = drafted("lockside", f"high_bust_girth={high / 10}cm")
    for piece in taken.garment.pieces:
        for edge in piece.edges:
            same = told.garment.piece(piece.name).edge(edge.name)
            assert np.abs(same.segments - edge.segments).max() < STILL


def test_fit_says_which_shape_is_followed() -> None:
    told = shape_report(drafted("lockside", "high_bust_girth=93cm", "bust_depth=25cm"))
    assert "drafted to the high bust girth: 93 cm, where the block has 98 cm" in told
    assert "drafted to the bust depth: 25 cm, where the block has " in told and len(told.splitlines()) == 2
    assert shape_report(drafted("lockside")) == "" and shape_report(bundled("lockside")) == ""


def test_shoulders_that_lie_forward_turn_the_seam_about_the_neck_and_the_cap_with_it() -> None:
    before, after = bundled("tidemill", "M"), bundled("tidemill", "M", shoulder_forward="1 cm")
    turned: dict[str, set[str]] = {}
    for piece in before.garment.pieces:
        for edge in piece.edges:
            other = after.garment.piece(piece.name).edge(edge.name)
            if _line(edge.segments).hausdorff_distance(_line(other.segments)) > STILL:
                turned.setdefault(piece.name, set()).add(edge.name)
    mine = {"shoulder", "armhole", "neckline"}
    assert turned["front"] == mine and "cap" in turned["sleeve"]
    assert turned["back"] == mine | {"centre"}  # which ends a little lower: on a squarer shoulder the neck is deeper
    tips = [one.garment.piece(name).edge("shoulder").segments[0, -1, 3, 1] for one in (before, after) for name in PAIR]
    assert tips[2] - tips[0] == pytest.approx(-10, abs=1) and tips[3] - tips[1] == pytest.approx(10, abs=1)
    assert all(np.abs(seam.difference).max() < STILL for seam in walk_seams(after.garment))
    assert [one.message for one in after.notes] == []
