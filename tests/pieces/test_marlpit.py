"""The Marlpit top on real women and in all its styles: each drafts and can be sewn, or says exactly why not."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft import checks
from draft.base.arrays import Floats
from draft.base.notes import Note, Severity
from draft.base.resources import folder
from draft.base.units import MM_PER_INCH
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted, draft_plan
from draft.fit.verdicts import verdicts
from draft.garment.garment import Garment
from draft.geometry.fairness import fairness
from draft.geometry.flatten import sample
from draft.plan.library import find
from draft.plan.plan import Plan
from draft.seams.walk import walk_seams
from tests.asking import asked
from tests.outside.survey import PERCENTILES
from tests.outside.women import real_women
from tests.pieces.bundled import finished
from tests.pieces.wearing import some_of, together, whole
from tests.written import make_plan

CHART = whole(make_plan(find("marlpit")), read_chart(folder("pieces") / "women.csv"))
WOMEN = whole(make_plan(find("marlpit")), real_women())
_FULLER = {"waist_girth": (960.0, 1040.0, 1120.0), "hip_girth": (960.0, 1000.0, 1060.0)}
FULL = Bodies(("a", "b", "c"), {name: np.array(_FULLER.get(name, row[3:6])) for name, row in CHART.values.items()})
"""L, XL and 2XL with a waist as wide as the bust and the hip, or wider."""

TIGHT = {("bust_ease", "-6 cm"), ("waist_ease", "-6 cm"), ("hip_ease", "-6 cm")}
"""Closer than jersey is worn: drafted, and cautioned against until the cloth stretches further."""


@cache
def plan(**styles: str) -> Plan:
    return make_plan(find("marlpit"), styles)


def _ends() -> list[tuple[str, str]]:
    """Every style at each of its limits, every choice."""
    found = []
    for style in plan().styles:
        if style.limits.startswith("one of "):
            found += [(style.name, option) for option in style.limits.removeprefix("one of ").split(", ")]
        else:
            found += [(style.name, end) for end in style.limits.removeprefix("from ").split(" to ")]
    return found


ENDS = _ends()
USUAL = {(style.name, style.set_to) for style in plan().styles}
SIZES = ("XS", "S", "M", "L", "XL", "2XL", "3XL")


def _said(drafted: Drafted, more: tuple[checks.Check, ...] = ()) -> list[Note]:
    return [*drafted.notes, *checks.run(drafted.garment, (*checks.CHECKS, *more))]


def test_all_real_women_can_wear_the_default_made_to_measure() -> None:
    """The 260 women of bdims, with the estimates for what that study did not measure."""
    drafted = draft_plan(plan(), WOMEN)
    assert len(WOMEN) == 260 and drafted.outcome.drafted.all() and _said(drafted) == []
    found = verdicts(drafted.outcome, drafted.garment)
    assert found.worn.all() and found.drafted.all()
    assert all(np.max(np.abs(walked.difference)) < 0.5 for walked in walk_seams(drafted.garment))


def test_finished_girths_are_body_and_ease() -> None:
    for bodies in (WOMEN, CHART):
        garment = draft_plan(plan(), bodies).garment
        for name, ease in (("bust", 6.0), ("waist", 15.0), ("hip", 5.0)):
            wanted = bodies.values[f"{name}_girth"] / 10 + ease
            off = np.abs(finished(garment, name) - wanted) < 0.1  # cm: a millimetre
            assert np.all(off | (_full_waist(bodies) & (name != "bust"))), name
        assert np.all(finished(garment, "upper_arm") > bodies.values["upper_arm_girth"] / 10 + 5 - 0.1)


def _full_waist(bodies: Bodies) -> np.ndarray:
    """Whose sides, with all of the waist's ease, would flare from the bust, or come in again below the waist."""
    bust, waist, hip = (bodies.values[f"{name}_girth"] / 10 for name in ("bust", "waist", "hip"))
    return np.asarray((waist + 15 > bust + 6 + 4) | (waist + 15 > hip + 5))


def test_over_a_full_waist_the_sides_never_come_in_again_and_the_waist_has_room() -> None:
    garment = draft_plan(plan(), FULL).garment
    bust, waist, hip = (finished(garment, name) for name in ("bust", "waist", "hip"))
    room = waist - FULL.values["waist_girth"] / 10
    assert np.all(hip >= waist - 0.01) and np.all(room >= 6 - 0.01)
    assert np.all((waist <= bust + 4.01) | (np.abs(room - 6) < 0.01))  # no wider than the bust but for its own room


def test_the_curve_under_the_arm_can_be_sewn_in_every_size() -> None:
    """3 cm for a sleeve that is cut in one with the body (common practice): less puckers, however it is snipped."""
    for bodies, least in ((CHART, 30.0), (WOMEN, 30.0), (FULL, 30.0)):
        edges = [draft_plan(plan(), bodies).garment.piece(name).edge("underarm") for name in ("front", "back")]
        assert min(fairness(edge.segments).radius.min() for edge in edges) > least


OTHER_ENDS = pytest.mark.parametrize(("name", "value"), [end for end in ENDS if end not in USUAL])


@OTHER_ENDS
def test_each_style_at_its_limits_drafts_for_every_size_and_a_quarter_of_the_women(name: str, value: str) -> None:
    """Other women for each style."""
    _drafts_at_its_limits(name, value, some_of(WOMEN, 4, f"{name} {value}"))


@pytest.mark.slow
@OTHER_ENDS
def test_each_style_at_its_limits_drafts_for_every_size_and_woman(name: str, value: str) -> None:
    _drafts_at_its_limits(name, value, WOMEN)


def _drafts_at_its_limits(name: str, value: str, women: Bodies) -> None:
    of_women = draft_plan(plan(**{name: value}), women)
    of_sizes = draft_and_check(asked("marlpit", styles={name: value}))
    assert of_women.outcome.drafted.all() and of_sizes.outcome.drafted.all()
    assert all(note.severity is not Severity.ERROR for note in (*_said(of_women), *of_sizes.notes))
    # sizes nest, measurements rise, the cloth suffices
    assert all("stretch too far" in note.message and (name, value) in TIGHT for note in of_sizes.notes)
    assert all({word.strip(",") for word in note.message.split()} & set(SIZES) for note in of_sizes.notes)


@pytest.mark.parametrize("sleeve", ["cap", "short", "elbow", "three_quarter", "long"])
@pytest.mark.parametrize("neckline", ["crew", "scoop", "boat", "vee"])
def test_sleeves_and_necklines_go_together_in_every_size(sleeve: str, neckline: str) -> None:
    assert _said(draft_plan(plan(sleeve=sleeve, neckline=neckline), CHART), checks.CHART_CHECKS) == []


def test_sleeves_end_where_they_say() -> None:
    ends = [finished(draft_plan(plan(sleeve=s), CHART).garment, "overarm")[2] for s in ("cap", "short", "elbow")]
    ends += [finished(draft_plan(plan(sleeve=s), CHART).garment, "overarm")[2] for s in ("three_quarter", "long")]
    shoulder = (CHART.values["shoulder_length"][2] - 30) / 10  # the neck is widened by 3 cm
    shares = (np.array(ends) - shoulder) / (CHART.values["outer_arm_length"][2] / 10)
    assert np.allclose(shares[1:], [0.40, 0.56, 0.78, 1 - 1.27 / 54.2], atol=0.005)
    assert np.all(np.diff(ends) > 0)
    cuffs = [finished(draft_plan(plan(sleeve=s), CHART).garment, "cuff")[2] for s in ("short", "elbow", "long")]
    assert np.all(np.diff(cuffs) < 0)  # tapered


def test_hems_end_where_they_say() -> None:
    levels = {"waist": 6.0, "hip": 22.6, "tunic": 42.6}  # cm below the waist in size M, whose hip lies at 20.6
    back = {hem: finished(draft_plan(plan(hem_at=hem), CHART).garment, "back_length")[2] for hem in levels}
    waist = (CHART.values["back_waist_length"][2] - 20) / 10  # the back neck lies 2 cm below the nape
    assert {hem: round(length - waist, 1) for hem, length in back.items()} == levels


def test_a_fuller_front_is_wider_and_its_seams_still_match() -> None:
    plain, fuller = (draft_plan(plan(front_fuller=cm), CHART).garment for cm in ("0 cm", "4 cm"))
    assert np.allclose(finished(plain, "bust"), finished(fuller, "bust"), atol=0.01)
    widths = [_width(garment, name) for garment in (plain, fuller) for name in ("front", "back")]
    assert np.allclose(widths[2] - widths[0], 10) and np.allclose(widths[3] - widths[1], -10)  # a quarter of 4 cm
    assert all(np.max(np.abs(walked.difference)) < 0.01 for walked in walk_seams(fuller))


def _width(garment: Garment, name: str) -> Floats:
    """Half a front or back where its underarm curve ends: behind the four parts after its straight line."""
    underarm = garment.piece(name).edge("underarm").segments
    return np.asarray(underarm[:, 4, 3, 0])


def test_closer_in_cloth_that_stretches_further() -> None:
    from draft.fabrics.fabric import find_fabric, read_fabric

    busts = []
    for name in ("stable", "moderate", "stretchy", "very_stretchy", "rib"):
        made = make_plan(find("marlpit"), {}, read_fabric(find_fabric(name)))
        busts.append(finished(draft_plan(made, CHART).garment, "bust")[2])
    assert np.all(np.diff(busts) < 0) and busts[1] == pytest.approx(100, abs=0.01)


# ---- how a small change of the body moves the lines ------------------------------------------------------------------


def _points(drafted: Drafted) -> Floats:
    edges = [edge for piece in drafted.garment.pieces for edge in piece.edges]
    return np.concatenate([sample(edge.segments, 8) for edge in edges], axis=1)


@settings(max_examples=12, deadline=None)
@given(
    measure=st.sampled_from([m for m in plan().measures if m != "shoulder_slope"]),
    style=st.sampled_from([{}, *({name: value} for name, value in ENDS)]),
    step=st.sampled_from([1.0, -1.0, 0.1]),
)
def test_a_millimetre_more_or_less_moves_no_point_by_more_than_five(
    measure: str, style: dict[str, str], step: float
) -> None:
    bodies = together(WOMEN, CHART)
    values = dict(bodies.values) | {measure: bodies.values[measure] + step}
    points = _points(draft_plan(plan(**style), together(bodies, Bodies(bodies.names, values))))
    before, after = points[: len(bodies)], points[len(bodies) :]
    moved = np.hypot(*np.moveaxis(after - before, -1, 0))
    assert np.max(moved) <= 5.0 * abs(step)


# ---- any styles together ---------------------------------------------------------------------------------------------


def _any_style() -> st.SearchStrategy[dict[str, str]]:
    ends: dict[str, list[str]] = {}
    for name, value in ENDS:
        ends.setdefault(name, []).append(value)
    return st.fixed_dictionaries({}, optional={name: st.sampled_from(values) for name, values in ends.items()})


@settings(max_examples=10, deadline=None)
@given(_any_style())
def test_any_styles_together_draft_or_say_why_not(styles: dict[str, str]) -> None:
    drafted = draft_plan(make_plan(find("marlpit"), styles), WOMEN)
    found = verdicts(drafted.outcome, drafted.garment)
    assert all(found.undrafted[~found.drafted] != "")
    for note in drafted.notes:
        assert note.span and note.message
    if not drafted.outcome.drafted.all():
        assert any(note.severity is Severity.ERROR and note.hints for note in drafted.notes)
    good = np.flatnonzero(found.drafted)
    for piece in drafted.garment.pieces:
        corners = np.concatenate([edge.segments[good, :, 0] for edge in piece.edges], axis=1)
        following = np.roll(corners, -1, axis=1)
        area = np.sum(corners[..., 0] * following[..., 1] - corners[..., 1] * following[..., 0], axis=1) / 2
        assert np.all(area != 0) and len(set(np.sign(area))) <= 1, piece.name  # no outline has turned over


# ---- figures from outside --------------------------------------------------------------------------------------------


def test_almost_every_head_goes_through_every_neckline_of_stretchy_cloth() -> None:
    """The survey's 99th percentile head, 61.1 cm (ANSUR II, 1,986 women), in every size; cloth of 60 % (common)."""
    head = PERCENTILES["head_girth"][2]
    for neckline in ("crew", "scoop", "boat", "vee"):
        garment = draft_plan(plan(neckline=neckline), CHART).garment
        assert np.all(finished(garment, "neckband") * 1.6 >= head)


def test_bands_are_cut_from_two_inch_strip_of_which_45_in_are_enough() -> None:
    """A 2 in strip with 1/2 in seams finishes at 1/2 in; 45 in are longer than any neckband needs (trade practice)."""
    for neckline in ("crew", "scoop", "boat", "vee"):
        garment = draft_plan(plan(neckline=neckline), CHART).garment
        for name in ("neckband", "sleeve_band"):
            piece = garment.piece(name)
            long = piece.edge("long")
            across = np.ptp(np.concatenate([e.segments for e in piece.edges], axis=1)[..., 1].reshape(7, -1), axis=1)
            assert np.allclose(across + 2 * long.allowance, 2 * MM_PER_INCH)
            length = np.hypot(*(long.segments[:, 0, 3] - long.segments[:, 0, 0]).T)
            assert np.all(length + 2 * long.allowance <= 45 * MM_PER_INCH), (neckline, name)


def test_the_neckband_is_a_share_of_its_opening_as_the_trade_has_it() -> None:
    """0.80 to 0.90 of a round opening in self fabric (from memory)."""
    for neckline in ("crew", "scoop"):
        garment = draft_plan(plan(neckline=neckline), CHART).garment
        share = finished(garment, "neckband") / finished(garment, "neckline")
        assert np.all((share >= 0.80) & (share <= 0.90))
