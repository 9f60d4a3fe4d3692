"""More than one chart in a pattern: asked for by name, told in `about`, and the size looked for in all of them."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest

from draft.answers.about import about_report
from draft.answers.people_of_charts import chart_called, charts_report, people_called
from draft.answers.size import size_for, size_report
from draft.base.notes import Problems
from draft.drafting.checked import draft_and_check
from draft.drafting.planned import plan_for
from draft.drafting.request import Request, Whom
from draft.paper.drawing.wording import Wording
from draft.plan.library import find

GIRTHS = ("bust_girth=94cm", "waist_girth=78cm", "hip_girth=102cm")
SHORTER = {"stature", "back_waist_length", "outer_arm_length", "armpit_depth", "hip_depth"}


@pytest.fixture(scope="module")
def tee(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The bundled tee with a chart of shorter women beside the usual one."""
    folder = tmp_path_factory.mktemp("charts")
    usual = find("tidemill").with_name("women.csv")
    rows = list(csv.reader(usual.read_text(encoding="utf-8").splitlines()))
    short = [row[:2] + [f"{float(x) * 0.94:.1f}" for x in row[2:]] if row[0] in SHORTER else row for row in rows]
    (folder / "women.csv").write_text(usual.read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "short.csv").write_text("\n".join(map(",".join, short)), encoding="utf-8")
    text = find("tidemill").read_text(encoding="utf-8")
    line = '    chart      "women.csv"\n'
    assert line in text
    text = text.replace(line, f'{line}    chart      petite "short.csv" "for a stature below 160 cm"\n')
    (folder / "tee.piece").write_text(text, encoding="utf-8")
    return str(folder / "tee.piece")


def test_the_first_chart_is_the_usual_one_and_another_is_asked_for_by_its_name(tee: str) -> None:
    usual, petite = draft_and_check(Request(tee)), draft_and_check(Request(tee, Whom(chart=Path("petite"))))
    assert usual.bodies.values["stature"] * 0.94 == pytest.approx(petite.bodies.values["stature"], abs=0.5)
    assert np.array_equal(usual.bodies.values["bust_girth"], petite.bodies.values["bust_girth"])
    assert (usual.garment.title, petite.garment.title) == ("Tidemill tee", "Tidemill tee, petite")
    german = Wording("de", own={"Tidemill tee": "T-Shirt Tidemill"})
    assert german.titled(petite.garment) == "T-Shirt Tidemill, petite"


def test_about_lists_several_and_says_nothing_of_one(tee: str) -> None:
    told = about_report(plan_for(Request(tee)).plan)
    assert "petite" in told and "for a stature below 160 cm" in told and "`--chart NAME`" in told
    assert "--chart" not in about_report(plan_for(Request("tidemill")).plan)


def test_the_size_is_looked_for_in_all_charts(tee: str) -> None:
    short, tall, unknown = (
        size_for(Request(tee, Whom(answers=(*GIRTHS, *more)))) for more in (("stature=154cm",), ("stature=168cm",), ())
    )
    assert (short.chart, tall.chart) == ("petite", "")
    assert "it is from the chart petite (`--chart petite`)" in size_report(short)
    assert "give the height" in size_report(unknown) and "give the height" not in size_report(tall)
    asked = size_for(Request(tee, Whom(answers=GIRTHS, chart=Path("petite"))))
    assert asked.others == ()


def test_a_chart_that_is_not_there_is_told_with_those_that_are(tee: str) -> None:
    for name, fix in (("petit", "try `petite`"), ("tall", "this pattern has petite, and the usual one without")):
        with pytest.raises(Problems) as raised:
            plan_for(Request(tee, Whom(chart=Path(name))))
        assert fix in raised.value.notes[0].hints[0]


def test_the_verb_about_charts_knows_all_of_a_pattern(tee: str) -> None:
    usual, petite = chart_called(tee), chart_called(tee, "petite")
    assert (usual.name, petite.name) == ("women.csv", "petite (short.csv)")
    assert usual.sizes.values["stature"] * 0.94 == pytest.approx(petite.sizes.values["stature"], abs=0.5)
    assert [(name, words) for name, words, _ in usual.all_of_them] == [
        ("", ""),
        ("petite", "for a stature below 160 cm"),
    ]
    told = charts_report(usual, people_called("women"))
    rows = [line for line in told.splitlines() if line.endswith(" %")]
    assert len(rows) == 2 and "153.2 to 156.0" in rows[1] and "`--chart NAME`" in told
    shares = [float(row.split()[-4]) for row in rows]  # who has one nearest in stature
    assert sum(shares) == pytest.approx(100, abs=1) and min(shares) > 20
    assert charts_report(chart_called("tidemill"), people_called("women")) == ""
    with pytest.raises(Problems, match="no size chart `petit`"):
        chart_called(tee, "petit")
