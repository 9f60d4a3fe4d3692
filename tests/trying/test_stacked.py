"""Settings drafted as one array come out as each does alone."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.drafting.drafting import draft_plan
from draft.drafting.planned import plan_for, texts_for
from draft.drafting.request import Request
from draft.drafting.whom import find_bodies
from draft.garment.some_bodies import of_bodies
from draft.plan.plan import Plan
from draft.trying.offered import Plans
from draft.trying.settings import Setting
from draft.trying.stacked import Stack, Unplanned, stacks
from tests.asking import asked

TAPERED = """
pattern tab
    title "Tab"

style
    long    20 cm   from 10 cm to 30 cm   "how long"
    hem      2 cm   from 1 cm to 4 cm     "how wide the hem"
    shape  square   of square, open       "how it ends"

piece tab
    points
        a  at 0, 0
        b  at 10 cm, 0
        c  from b: long up
        d  from a: long up
    outline
        low   a to b  straight, allowance hem, turned up
        side  b to c  straight
        top   c to d  straight
        when shape is square
            back  d to a  straight
    cut 1
"""


def _stacks(request: Request, settings: list[Setting]) -> list[Stack | Unplanned]:
    texts = texts_for(request.pattern)
    planned = plan_for(request, texts)
    bodies, _ = find_bodies(request.whom, planned.chart, planned.plan.measures, planned.plan.known)
    return list(stacks(Plans(request, texts, planned.fabric), settings, bodies))


@pytest.mark.parametrize("name", ["marlpit", "tidemill", "ropewalk"])
def test_a_setting_in_a_stack_is_the_setting_alone(name: str) -> None:
    settings: list[Setting] = {
        "marlpit": [(), (("bust_ease", "24 cm"),), (("arm_ease", "12 cm"), ("bust_ease", "-6 cm"))],
        "tidemill": [(), (("sleeve_length", "58 cm"),), (("armhole_drop", "8 cm"), ("cap_ease", "4 %"))],
        "ropewalk": [(), (("hip_ease", "16 cm"),), (("hem_flare", "8 cm"), ("skirt_length", "42 cm"))],
    }[name]
    request = asked(name, sizes=["XS", "3XL"])
    (stack,) = _stacks(request, settings)
    assert isinstance(stack, Stack)
    for number, setting in enumerate(settings):
        planned = plan_for(asked(name, sizes=["XS", "3XL"], styles=dict(setting)))
        bodies, _ = find_bodies(request.whom, planned.chart, planned.plan.measures, planned.plan.known)
        alone = draft_plan(planned.plan, bodies).garment
        mine = of_bodies(stack.garment, np.array([2 * number, 2 * number + 1]))
        assert mine.sizes == alone.sizes
        for piece, other in zip(mine.pieces, alone.pieces, strict=True):
            for edge, its in zip(piece.edges, other.edges, strict=True):
                assert np.allclose(edge.segments, its.segments, rtol=0, atol=1e-6)


def test_what_an_allowance_leans_on_is_not_stacked_with_others(tmp_path: Path) -> None:
    file = tmp_path / "tab.piece"
    file.write_text(TAPERED, encoding="utf-8")
    found = _stacks(Request(str(file)), [(), (("long", "30 cm"),), (("hem", "4 cm"),), (("hem", "1 cm"),)])
    assert [stack.settings for stack in found if isinstance(stack, Stack)] == [
        ((), (("long", "30 cm"),)), ((("hem", "4 cm"),),), ((("hem", "1 cm"),),),
    ]  # fmt: skip
    widths = [stack.garment.piece("tab").edge("low").allowance for stack in found if isinstance(stack, Stack)]
    assert widths == [20.0, 40.0, 10.0]


def test_a_setting_that_cannot_be_planned_says_why(tmp_path: Path) -> None:
    file = tmp_path / "tab.piece"
    file.write_text(TAPERED, encoding="utf-8")
    plans = Plans(Request(str(file)), texts_for(str(file)), None)
    assert isinstance(plans.of(()), Plan)
    (found,) = _stacks(Request(str(file)), [(("shape", "open"),)])
    assert isinstance(found, Unplanned) and found.notes[0].span
