"""What no trueing touches is not found twice, and all comes out as if it were."""

from __future__ import annotations

import numpy as np
import pytest

from draft.bodies.estimates import completed
from draft.drafting.assembling import assemble
from draft.drafting.drafting import drawn
from draft.seams.replay import replayed, untouched
from draft.solve import evaluate
from tests.outside.women import real_women
from tests.pieces.shapes import plan_of

TRUED = ("lockside", "netloft", "breakwater")


@pytest.mark.parametrize("pattern", TRUED)
def test_a_second_evaluation_of_all_gives_the_same_to_the_last_bit(pattern: str) -> None:
    plan = plan_of(pattern)
    women = completed(real_women().at(range(12)), plan.measures, plan.known, plan.wearers)[0]
    first = evaluate(plan, women)
    _, turns = assemble(plan, first)
    replay, given = replayed(plan, turns)
    kept = untouched(plan, replay)
    assert 0.5 < len(kept) / len(plan.steps) < 1
    whole, some = (
        evaluate(replay, women, given, kept={name: first.trace.values[name] for name in names}) for names in ((), kept)
    )
    assert whole.trace.values.keys() == some.trace.values.keys()
    for name, values in whole.trace.values.items():
        assert np.array_equal(values, some.trace.values[name]), name
    assert whole.chosen.keys() == some.chosen.keys()
    for one, other in zip(whole.standings, some.standings, strict=True):
        assert np.array_equal(one.margin, other.margin)


def test_where_a_body_fails_all_is_found_again_and_told() -> None:
    plan = plan_of("lockside")
    women = completed(real_women().at(range(4)), plan.measures, plan.known, plan.wearers)[0]
    women.values["shoulder_length"] = np.array([125.0, 40.0, 125.0, 125.0])
    outcome, _ = drawn(plan, women)
    alone, _ = drawn(plan, women.at([0, 2, 3]))
    assert outcome.drafted[[0, 2, 3]].tolist() == alone.drafted.tolist()
    for name, values in alone.trace.values.items():
        assert np.array_equal(outcome.trace.values[name][[0, 2, 3]], values), name
