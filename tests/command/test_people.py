"""Made to measure: real women draft, alone from a file of measures and all of them at once."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft import checks
from draft.base.units import Kind
from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES
from draft.drafting.drafting import draft_plan
from draft.plan.library import find
from tests.command.run import Runner
from tests.outside.women import real_women
from tests.pieces.wearing import whole
from tests.written import make_plan


def woman(measure: str, rank: float) -> str:
    """The woman of that rank (0 the least, 1 the greatest) by one measure."""
    bodies = real_women()
    order = np.argsort(bodies.values[measure])
    return bodies.names[order[round(rank * (len(order) - 1))]]


OUTSTANDING = {
    "the median": woman("bust_girth", 0.5),
    "the smallest bust": woman("bust_girth", 0),
    "the largest bust": woman("bust_girth", 1),
    "the shortest": woman("stature", 0),
    "the tallest": woman("stature", 1),
    "the largest hip": woman("hip_girth", 1),
    "the thickest arm": woman("upper_arm_girth", 1),
}


def written(bodies: Bodies, name: str) -> str:
    """A person's file, as she would write it: centimetres to a millimetre, degrees whole."""
    one = bodies.select([name])
    lines = [f'name = "{name}"', "", "[measures]"]
    for measure, (value,) in one.values.items():
        angle = MEASURES[measure].kind is Kind.ANGLE
        lines.append(f'{measure} = "{np.degrees(value):.0f} deg"' if angle else f'{measure} = "{value / 10:.1f} cm"')
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("who", OUTSTANDING)
def test_a_real_woman_is_walked_and_drawn(run: Runner, tmp_path: Path, who: str) -> None:
    name = OUTSTANDING[who]
    file = tmp_path / "she.toml"
    file.write_text(written(real_women(), name))
    for words in (("walk", "marlpit"), ("draft", "marlpit", "--out", tmp_path / "out")):
        ran = run(*words, "--body", file)
        assert (ran.code, ran.err) == (0, ""), who
    assert [path.name for path in (tmp_path / "out" / "svg").iterdir()] == [f"{name.replace(' ', '-')}.svg"]


def test_a_real_woman_is_packed(run: Runner, tmp_path: Path) -> None:
    file = tmp_path / "she.toml"
    file.write_text(written(real_women(), OUTSTANDING["the median"]))
    ran = run("pack", "marlpit", "--body", file, "--page", "a4", "--out", tmp_path / "out")
    assert (ran.code, ran.err) == (0, "")
    suffixes = {path.suffix for path in (tmp_path / "out").rglob("*") if path.is_file()}
    assert suffixes == {".svg", ".pdf", ".csv", ".html"}


def test_all_women_are_drafted_in_one_batch_and_nothing_is_said_against_one() -> None:
    plan = make_plan(find("marlpit"))
    women = whole(plan, real_women())
    drafted = draft_plan(plan, women)
    assert len(women) == 260
    assert drafted.outcome.drafted.all()
    assert [*drafted.notes, *checks.run(drafted.garment)] == []


def test_a_woman_of_the_batch_is_drafted_as_alone() -> None:
    plan = make_plan(find("marlpit"))
    women = whole(plan, real_women())
    together = draft_plan(plan, women).garment
    for name in list(OUTSTANDING.values())[:3]:
        alone, k = draft_plan(plan, women.select([name])).garment, women.names.index(name)
        for piece, own in zip(together.pieces, alone.pieces, strict=True):
            for edge, twin in zip(piece.edges, own.edges, strict=True):
                np.testing.assert_allclose(edge.segments[k], twin.segments[0], atol=1e-6)


IMPOSSIBLE = """
name = "Ines"

[measures]
bust_girth = "9 m"
waist_girth = "-80 cm"
hip_girth = "105 in"
wrist_girth = 16
hips = "105 cm"
"""


def test_impossible_measures_are_all_told_with_the_likely_slip(run: Runner, tmp_path: Path) -> None:
    file = tmp_path / "ines.toml"
    file.write_text(IMPOSSIBLE)
    ran = run("walk", "marlpit", "--body", file)
    assert ran.code == 1
    for said in (
        "ines.toml:5:1: `bust_girth` is 900 cm for Ines, outside",
        "did you mean 900 mm?",
        "ines.toml:6:1: `waist_girth` is -80 cm for Ines, outside",
        "did you mean 80 cm?",
        "ines.toml:7:1: `hip_girth` is 266.7 cm for Ines, outside",
        "did you mean 105 cm?",
        "ines.toml:8:1: `wrist_girth` is a number without a unit",
        "ines.toml:9:1: `hips` is not a body measure",
    ):
        assert said in ran.err


def test_a_measure_that_is_missing_and_cannot_be_told_is_asked_for(run: Runner, tmp_path: Path) -> None:
    file = tmp_path / "ines.toml"
    file.write_text('[measures]\nwaist_girth = "80 cm"\n')
    ran = run("walk", "marlpit", "--body", file)
    assert ran.code == 1
    assert "`bust_girth`" in ran.err.split("\n")[0] and "missing" in ran.err.split("\n")[0]
    assert "measure `bust_girth`: around the fullest part of the bust" in ran.err
