"""Estimates for what was not measured: those of the published regressions, with their spread, and never silent."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.units import Kind
from draft.bodies.bodies import Bodies, body_notes
from draft.bodies.estimates import FORMULAS, GIVEN, NAVEL, NAVEL_BELOW, RELAXED, completed, estimate, unestimated
from draft.bodies.measures import MEASURES
from tests.outside import survey
from tests.outside.women import FLEXED_TO_RELAXED, HIGH_BUST_TO_BUST, LEGS, real_women, study

BUST, WAIST, HIP, STATURE = 94.0, 77.0, 101.0, 164.0
M = Bodies(("M",), {n: np.array([v * 10]) for n, v in zip(GIVEN, (BUST, WAIST, HIP, STATURE), strict=True)})


@pytest.mark.parametrize("name", sorted(LEGS))
def test_estimates_of_legs_hold_for_women_that_they_were_not_fitted_on(name: str) -> None:
    """On average within 1 cm, and within the spread for seventeen women of twenty."""
    women = real_women()
    found = estimate(Bodies(women.names, {n: women.values[n] for n in GIVEN}), name)
    assert found and found.spread
    off = found.values - study()[LEGS[name]] * 10
    assert abs(off.mean()) < 10
    assert np.mean(np.abs(off) <= found.spread) >= 17 / 20


def _cm(name: str, body: Bodies = M) -> float:
    found = estimate(body, name)
    assert found is not None
    return float(found.values[0]) / 10


@pytest.mark.parametrize("name", sorted(survey.RESIDUAL))
def test_the_published_regressions_are_followed(name: str) -> None:
    """ANSUR II, as in `survey`: its waist at the navel, its arm flexed, its back ending at the navel."""
    told = survey.expected(np.array(BUST), np.array(WAIST + NAVEL), np.array(HIP), np.array(STATURE))[name]
    turned = {"upper_arm_girth": told * RELAXED, "back_waist_length": told - NAVEL_BELOW}
    assert _cm(name) == pytest.approx(float(turned.get(name, told)), abs=0.01)
    assert FORMULAS[name].sd == survey.RESIDUAL[name]


def test_the_navel_is_as_much_wider_as_two_published_tables_differ() -> None:
    """Medians of ANSUR II (at the navel) less the waists of ASTM D5585-11e1 (natural) at equal bust."""
    natural = np.interp(survey.BUST, survey.ASTM_BUST, survey.ASTM_WAIST)
    assert np.mean(survey.MEDIANS["waist_girth"] - natural) == pytest.approx(NAVEL, abs=0.3)


@pytest.mark.parametrize(
    ("name", "column", "used"),
    [("shoulder_girth", "sho_gi", ("che_gi", "hip_gi", "hgt")), ("forearm_girth", "for_gi", ("che_gi", "hip_gi"))],
)
def test_our_own_regressions_come_out_of_the_open_data(name: str, column: str, used: tuple[str, ...]) -> None:
    data = study()
    columns = [data[c] + (HIGH_BUST_TO_BUST if c == "che_gi" else 0) for c in used]
    matrix = np.column_stack([np.ones(260), *columns])
    found, *_ = np.linalg.lstsq(matrix, data[column], rcond=None)
    sd = np.sqrt(np.sum((data[column] - matrix @ found) ** 2) / (260 - len(found)))
    formula = FORMULAS[name]
    factors = dict(zip(("che_gi", "wai_gi", "hip_gi", "hgt"), formula.factors, strict=True))
    assert [formula.start, *(factors[c] for c in used)] == pytest.approx(list(found), abs=0.006)
    assert formula.sd == pytest.approx(sd, abs=0.01)


@pytest.mark.parametrize("name", ["head_girth", "armpit_depth", "bust_depth", "hand_girth"])
def test_medians_and_their_spread_are_the_surveys(name: str) -> None:
    percentiles = survey.PERCENTILES | {"bust_depth": (17.0, 22.4, 28.4)}
    first, median, last = percentiles[name]
    assert _cm(name) == pytest.approx(median, rel=0.01)
    assert FORMULAS[name].sd == pytest.approx((last - first) / (2 * 2.326), abs=0.01)  # normal: 2.326 sd to the 99th


def test_the_relaxed_arm_agrees_with_the_health_survey(women: Bodies) -> None:
    """NHANES, 4,221 women, whose waist is taken at the hip bones: within half its residual in every size."""
    found = estimate(Bodies(women.names, {n: women.values[n] for n in GIVEN}), "upper_arm_girth")
    assert found is not None
    waist, hip, stature = (women.values[n] / 10 for n in GIVEN[1:])
    assert np.all(np.abs(found.values / 10 - survey.relaxed_arm(waist + NAVEL, hip, stature)) < 2.66 / 2)


@pytest.mark.parametrize(
    ("name", "column", "share"),
    [
        ("upper_arm_girth", "bic_gi", FLEXED_TO_RELAXED),
        ("wrist_girth", "wri_gi", 1.0),
        ("shoulder_girth", "sho_gi", 1.0),
    ],
)
def test_of_other_real_women_at_least_seventeen_in_twenty_lie_within_the_spread(
    bdims: Bodies, name: str, column: str, share: float
) -> None:
    """The spread holds nineteen in twenty of the women that it was found from; of another study's a few fewer."""
    found = estimate(Bodies(bdims.names, {n: bdims.values[n] for n in GIVEN}), name)
    assert found is not None
    off = np.abs(study()[column] * share * 10 - found.values)
    assert np.mean(off <= found.spread) >= 17 / 20


def test_the_chart_lies_within_the_spread(women: Bodies) -> None:
    bare = Bodies(women.names, {n: women.values[n] for n in GIVEN})
    for name in FORMULAS.keys() & women.values.keys():
        found = estimate(bare, name)
        assert found is not None
        assert np.all(np.abs(found.values - women.values[name]) <= 1.2 * found.spread), name


def test_only_what_is_missing_is_estimated_and_it_is_said() -> None:
    body = Bodies(
        ("Ines", "Ada"), {n: np.repeat(v, 2) for n, v in M.values.items()} | {"wrist_girth": np.array([150.0, np.nan])}
    )
    whole, estimates = completed(body, ["wrist_girth", "neck_base_girth", "bust_girth", "under_bust_girth"])
    assert [e.name for e in estimates] == ["wrist_girth", "neck_base_girth"]
    assert whole.values["wrist_girth"][0] == 150 and np.isfinite(whole.values["wrist_girth"][1])
    assert estimates[0].where.tolist() == [False, True]
    assert estimates[1].in_words() == "37.1 cm, give or take 2.8 cm"
    assert "under_bust_girth" not in whole.values  # nothing is known of it: `body_notes` asks for it
    assert body_notes(whole, ["under_bust_girth"])[0].message.startswith("`under_bust_girth` is missing")


def test_what_the_estimates_lean_on_is_asked_for_together() -> None:
    one = Bodies(("Ines",), {"bust_girth": np.array([940.0])})
    (note,) = unestimated(one, ["bust_girth", "hip_girth", "upper_arm_girth", "wrist_girth", "head_girth"])
    assert note.message == "`waist_girth`, `hip_girth` and `stature` are missing; 3 others could be estimated"
    assert note.hints[2] == "measure `stature`: from the floor to the crown, standing barefoot against a wall"
    assert unestimated(M, FORMULAS) == [] and unestimated(one, ["head_girth", "bust_girth"]) == []


def test_an_estimate_is_never_a_measure_that_would_be_refused() -> None:
    high = Bodies(("tall",), {n: np.array([MEASURES[n].high]) for n in GIVEN})
    low = Bodies(("small",), {n: np.array([MEASURES[n].low]) for n in GIVEN})
    for body in (high, low):
        whole, _ = completed(body, FORMULAS)
        assert body_notes(whole, FORMULAS) == []


def test_every_formula_is_of_a_measure_and_has_a_spread() -> None:
    for name, formula in FORMULAS.items():
        assert name in MEASURES and name not in GIVEN and formula.sd > 0 and formula.source
        assert MEASURES[name].kind is Kind.LENGTH or name == "shoulder_slope"
