"""A body that fails is masked and named, and changes nothing for the others: not by the last bit."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.base.resources import folder
from draft.bodies.chart import read_chart
from draft.drafting.assembling import assemble
from draft.plan.plan import Solve, Trace
from draft.solve import evaluate
from draft.solve.margins import try_values
from tests.asking import bundled
from tests.pieces.wearing import whole
from tests.written import make_plan, people, planned

TEXT = """
body
    bust_girth, waist_girth

let
    share = 10 cm / (bust_girth - waist_girth)

solve
    depth  from 1 cm to 60 cm
    so that length of box.a to box.c equals 40 cm

solve
    first  from 0 cm to 5 cm
    second from 0 cm to 5 cm
    so that first + second + 20 cm * share at least 12 cm

solve
    x from 0 cm to 80 cm
    y from 0 cm to 80 cm
    so that x + y equals bust_girth
    so that x - y equals 20 cm * share

piece box
    points
        a at 0, 0
        b at bust_girth / 4, 0
        c at bust_girth / 4, depth
        d from c: first + second along a to e
        e from a: bust_girth - waist_girth across, y up
    outline
        low   a to b straight
        side  b to c curve through d heading_free
        slant c to a curve
    cut 1
""".replace(" through d heading_free", "")


@pytest.mark.parametrize(
    "worst", [{"waist_girth": 90.0}, {"bust_girth": 170.0}, {"bust_girth": np.nan}, {"bust_girth": np.inf}]
)
def test_a_failing_body_does_not_disturb_the_others(worst: dict[str, float]) -> None:
    plan = planned(TEXT)
    sound = {"bust_girth": [90.0, 84.0, 101.0], "waist_girth": [70.0, 66.0, 80.0]}
    well = evaluate(plan, people(**sound))
    ill = {name: [column[0], worst.get(name, 90.0), column[2]] for name, column in sound.items()}
    outcome = evaluate(plan, people(**ill))
    assert well.drafted.all()
    assert outcome.drafted.tolist() == [True, False, True]
    for name, values in well.trace.values.items():
        assert np.array_equal(values[[0, 2]], outcome.trace.values[name][[0, 2]]), name


def test_what_comes_of_a_failing_body_is_finite() -> None:
    plan = planned(TEXT)
    outcome = evaluate(plan, people(bust_girth=[90.0, np.nan, np.inf], waist_girth=[90.0, 70.0, 70.0]))
    assert not outcome.drafted.any()
    computed = {name: found for name, found in outcome.trace.values.items() if name not in plan.measures}
    assert all(np.isfinite(found).all() for found in computed.values())
    garment = assemble(plan, outcome)[0]
    assert all(np.isfinite(edge.segments).all() for piece in garment.pieces for edge in piece.edges)


def test_a_failing_body_does_not_disturb_the_sizes_of_the_bundled_top() -> None:
    plan = make_plan(folder("pieces") / "marlpit.piece")
    bodies = whole(plan, read_chart(folder("pieces") / "women.csv"))
    drafted = bundled("marlpit").outcome
    values = {name: column.copy() for name, column in bodies.values.items()}
    values["bust_girth"][3] = np.nan
    outcome = evaluate(plan, type(bodies)(bodies.names, values))
    others = [k for k in range(len(bodies)) if k != 3]
    assert not outcome.drafted[3] and outcome.drafted[others].all()
    for name, found in drafted.trace.values.items():
        assert np.array_equal(found[others], outcome.trace.values[name][others]), name


def test_a_failure_is_recorded_once_and_where_it_began() -> None:
    plan = planned(TEXT)
    outcome = evaluate(plan, people(bust_girth=[90.0, 90.0], waist_girth=[70.0, 90.0]))
    assert [fact for _, fact, _ in outcome.trace.failures] == ["this divides by nothing"]
    (_, _, where) = outcome.trace.failures[0]
    assert where.tolist() == [False, True]
    assert all(standing.met.all() for standing in outcome.standings if "share" in standing.relation.span.text)


def test_a_step_along_a_fixed_direction_is_solved_for_several_bodies() -> None:
    text = """
body
    bust_girth

let
    way = down

solve
    drop from 0 cm to 40 cm
    so that run of pole.a to pole.b heading way equals bust_girth / 10

piece pole
    points
        a at 0, 0
        b from a: drop at way
        c at 5 cm, 0
    outline
        one   a to b straight
        two   b to c straight
        three c to a straight
    cut 1
"""
    outcome = evaluate(planned(text), people(bust_girth=[80.0, 90.0, 100.0]))
    np.testing.assert_allclose(outcome.chosen["drop"], [80.0, 90.0, 100.0], atol=1e-6)


@pytest.mark.parametrize("ill", [(170.0, 60.0), (90.0, 89.0)], ids=["together", "in turn"])
def test_bodies_that_are_settled_are_not_drafted_again_for_one_that_cannot_be(
    ill: tuple[float, float], monkeypatch: pytest.MonkeyPatch
) -> None:
    drafted = 0

    def counted(block: Solve, trace: Trace, at: dict[str, Floats], copies: int = 1) -> object:
        nonlocal drafted
        drafted += trace.count * copies
        return try_values(block, trace, at, copies)

    monkeypatch.setattr("draft.solve.system.try_values", counted)
    monkeypatch.setattr("draft.solve.bracket.try_values", counted)
    plan, sound = planned(TEXT), list(zip(np.linspace(80, 100, 99), np.linspace(60, 80, 99), strict=True))
    counts = []
    for who in ([ill], sound, [ill, *sound]):
        drafted = 0
        outcome = evaluate(plan, people(bust_girth=[bust for bust, _ in who], waist_girth=[waist for _, waist in who]))
        unmet = np.any([~standing.met for standing in outcome.standings], axis=0)
        assert unmet.tolist() == [body == ill for body in who]
        counts.append(drafted)
    alone, others, together = counts
    assert others < together <= alone + others
