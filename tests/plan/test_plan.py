"""What the plan makes of a text: an order that works, styles as they are set, names that mean one thing."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.notes import Problems
from draft.base.resources import folder
from draft.base.units import Kind
from draft.solve import evaluate
from tests.written import make_plan, people, planned

PATTERNS = sorted(p.stem for p in folder("pieces").glob("*.piece") if "\npattern " in f"\n{p.read_text()}")


def value(text: str, name: str = "a") -> float:
    outcome = evaluate(planned(f"body\n    bust_girth\n\nlet\n    {text}"), people(bust_girth=[90.0]))
    return float(outcome.trace.values[name][0])


def messages(text: str, **styles: str) -> list[str]:
    with pytest.raises(Problems) as caught:
        planned(text, styles)
    return [note.message for note in caught.value.notes]


@pytest.mark.parametrize("name", PATTERNS)
def test_every_step_comes_after_what_it_needs(name: str) -> None:
    plan = make_plan(folder("pieces") / f"{name}.piece")
    done: set[str] = set()
    for step in plan.steps:
        assert step.needs <= done, step.name
        done.add(step.name)


@pytest.mark.parametrize("name", PATTERNS)
def test_a_block_has_the_steps_between_its_unknowns_and_its_relations(name: str) -> None:
    plan = make_plan(folder("pieces") / f"{name}.piece")
    for block in plan.solves:
        found = {unknown.name for unknown in block.unknowns}
        for step in block.between:
            assert step.needs & found, f"{step.name} does not lean on what is to be found"
            found.add(step.name)


def test_a_bare_nought_takes_the_kind_of_what_it_stands_beside() -> None:
    assert value("a = 0 + 3 cm") == 30.0
    assert value("a = larger of 0 and 2 cm - 3 cm") == 0.0
    assert value("a = by bust_girth: at 0 0, at 180 cm 4 cm") == pytest.approx(20.0)
    assert value("a = by bust_girth: at 0 4 cm, at 180 cm 0") == pytest.approx(20.0)


def test_a_share_is_no_bare_number() -> None:
    assert messages("let\n    a = 50 % + 3 cm") == ["`3 cm` is a length, but a number is needed here"]
    assert messages("let\n    a = 2 + 3 cm") == ["`2` has no unit, but a length is needed here"]


def test_a_name_of_the_piece_comes_before_one_of_the_pattern() -> None:
    text = """
let
    width = 1 cm

piece strip
    let
        width = 2 cm
        inner = 3 * width
    points
        a at 0, 0
        b at width, 0
        c at 0, 3 cm
    outline
        one   a to b straight
        two   b to c straight
        three c to a straight
    cut 1

finished
    outer  = width
    within = strip.width
"""
    plan = planned(f"body\n    bust_girth\n{text}")
    outcome = evaluate(plan, people(bust_girth=[90.0]))
    assert outcome.trace.values["strip.inner"][0] == 60.0
    assert [float(found.values.run(outcome.trace)[0]) for found in plan.finished] == [10.0, 20.0]


def test_what_a_piece_hands_to_its_template_is_meant_as_outside_of_it() -> None:
    text = """
let
    width = 4 cm

template strip
    input
        width length
    points
        a at 0, 0
        b at width, 0
        c at 0, 3 cm
    outline
        one   a to b straight
        two   b to c straight
        three c to a straight

piece left is strip
    width = width / 2
    cut 1

piece right is strip
    width = left.width + width
    cut 1
"""
    outcome = evaluate(planned(f"body\n    bust_girth\n{text}"), people(bust_girth=[90.0]))
    assert [outcome.trace.values[f"{name}.width"][0] for name in ("left", "right")] == [20.0, 60.0]


STYLES = """
body
    bust_girth

style
    ease   6 cm   from 0 cm to 24 cm   "room"
    neck   crew   of crew, scoop       "how the neck is cut"

let
    a = ease + by_neck
    by_neck = by neck: crew 1 cm, scoop 5 cm
"""


def test_styles_are_as_they_are_set_and_else_as_they_are_written() -> None:
    for given, found in (({}, 70.0), ({"ease": "1 in"}, 35.4), ({"ease": "0 cm", "neck": "scoop"}, 50.0)):
        outcome = evaluate(planned(STYLES, given), people(bust_girth=[90.0]))
        assert outcome.trace.values["a"][0] == pytest.approx(found)


def test_styles_are_told_with_what_they_are_set_to_and_their_limits() -> None:
    plan = planned(STYLES, {"neck": "scoop"})
    assert [(s.name, s.set_to, s.limits, s.words) for s in plan.styles] == [
        ("ease", "6 cm", "from 0 cm to 24 cm", "room"),
        ("neck", "scoop", "one of crew, scoop", "how the neck is cut"),
    ]


@pytest.mark.parametrize("edge", ["0 cm", "24 cm", "0 mm", "240 mm"])
def test_a_style_may_stand_at_its_limit(edge: str) -> None:
    assert planned(STYLES, {"ease": edge}).styles[0].set_to == edge


@pytest.mark.parametrize("beyond", ["-1 mm", "24.01 cm", "3 deg", "3", "1/0 cm", "", "nan cm"])
def test_a_style_beyond_its_limits_or_of_another_kind_is_refused(beyond: str) -> None:
    (said,) = messages(STYLES, ease=beyond)
    assert said.startswith(f"`--style ease={beyond}`")


def test_a_long_outline_closes_whatever_the_order_of_its_edges() -> None:
    corners = [(round(100 * np.cos(t)), round(100 * np.sin(t))) for t in np.linspace(0, 2 * np.pi, 40, endpoint=False)]
    points = "".join(f"        p{k} at {x + 200} mm, {y + 200} mm\n" for k, (x, y) in enumerate(corners))
    edges = [f"        e{k} p{k} to p{(k + 1) % 40} straight\n" for k in range(40)]
    mixed = "".join(edges[k] for k in np.random.default_rng(1).permutation(40))
    plan = planned(f"piece ring\n    points\n{points}    outline\n{mixed}    cut 1\n\nlet\n    a = 1 cm")
    (piece,) = plan.pieces
    numbers = [int(edge.name[1:]) for edge in piece.edges]
    assert [(b - a) % 40 for a, b in zip(numbers, [*numbers[1:], numbers[0]], strict=True)] == [1] * 40


def test_the_kinds_of_a_plans_steps_are_those_of_their_values() -> None:
    plan = make_plan(folder("pieces") / "marlpit.piece")
    kinds = {step.name: step.kind for step in plan.steps}
    assert kinds["bust_girth"] is Kind.LENGTH
    assert kinds["shoulder_slope"] is Kind.ANGLE
    assert kinds["front.nape"] is Kind.POINT
    assert kinds["front.hem"] is Kind.EDGE


@pytest.mark.parametrize("count", [31, 100, 1500])
def test_a_long_line_of_names_is_planned_in_any_order(count: int) -> None:
    lines = ["    a0 = 1 cm", *(f"    a{k} = a{k - 1} + 1 mm" for k in range(1, count))]
    for ordered in (lines, lines[::-1]):
        plan = planned("body\n    bust_girth\n\nlet\n" + "\n".join(ordered))
        outcome = evaluate(plan, people(bust_girth=[90.0]))
        assert outcome.trace.values[f"a{count - 1}"][0] == pytest.approx(10.0 + count - 1)


@pytest.mark.parametrize("count", [2, 29, 31, 97, 100])
def test_a_ring_of_any_length_is_told_once(count: int) -> None:
    lines = [f"    a{k} = a{(k + 1) % count} + 1 mm" for k in range(count)]
    (said,) = messages("let\n" + "\n".join(lines))
    if count < 30:
        assert said.startswith("these lean on one another in a ring: `a0` on `a1`")
    else:
        assert said.endswith("leans on itself, through more than 30 others")
