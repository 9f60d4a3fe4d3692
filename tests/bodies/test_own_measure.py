"""Measures of a pattern's own are read like the others, and estimated in the order in which they lean on others."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.base.notes import Problems
from draft.base.units import Kind
from draft.bodies.bodies import Bodies, body_notes
from draft.bodies.chart import read_chart
from draft.bodies.estimates import completed, unestimated
from draft.bodies.given_measures import read_given
from draft.bodies.many import read_many
from draft.bodies.own_measure import OwnMeasure, known_with
from draft.bodies.person import read_person

BELLY = OwnMeasure(
    "belly_girth", Kind.LENGTH, "", "around the belly", 600, 1800,
    lambda bodies: bodies.values["waist_girth"] + 90, ("waist_girth",), "waist_girth + 9 cm",
)  # fmt: skip
WRAP = OwnMeasure(
    "wrap_girth", Kind.LENGTH, "", "around belly and hands", 600, 1800,
    lambda bodies: bodies.values["belly_girth"] * 1.1, ("belly_girth",), "belly_girth * 110 %",
)  # fmt: skip
BARE = OwnMeasure("knuckle_girth", Kind.LENGTH, "", "around the knuckle", 40, 90)
KNOWN = known_with((BELLY, WRAP, BARE))
NEEDED = ("wrap_girth", "waist_girth", "belly_girth")


def test_one_that_leans_on_another_is_estimated_after_it() -> None:
    body = Bodies(("Ada", "Bo"), {"waist_girth": np.array([800.0, 900.0]), "belly_girth": np.array([np.nan, 1000.0])})
    whole, estimates = completed(body, NEEDED, KNOWN)
    assert whole.values["belly_girth"].tolist() == [890.0, 1000.0]
    assert whole.values["wrap_girth"] == pytest.approx([979.0, 1100.0])
    assert [(e.name, e.spread, e.where.tolist()) for e in estimates] == [
        ("belly_girth", None, [True, False]),
        ("wrap_girth", None, [True, True]),
    ]
    assert estimates[0].in_words() == "89 cm"


def test_an_estimate_stays_within_the_range_and_needs_what_it_leans_on() -> None:
    thin = Bodies(("Ada",), {"waist_girth": np.array([500.0])})
    assert completed(thin, ["belly_girth"], KNOWN)[0].values["belly_girth"] == 600.0
    nobody = Bodies(("Ada",), {"hip_girth": np.array([1000.0])})
    assert "belly_girth" not in completed(nobody, ["belly_girth"], KNOWN)[0].values
    (note,) = unestimated(nobody, ["belly_girth"], KNOWN)
    assert note.message == "`waist_girth` is missing; `belly_girth` could be estimated"


def test_what_is_not_estimated_is_asked_for_as_it_is_taken() -> None:
    (note,) = body_notes(Bodies(("Ada",), {}), ["knuckle_girth"], KNOWN)
    assert note.hints[0] == "measure it: around the knuckle"


def test_charts_people_answers_and_tables_take_them_within_their_range(tmp_path: Path) -> None:
    chart = tmp_path / "sizes.csv"
    chart.write_text("measure,unit,S,M\nbelly_girth,cm,80,90\n", encoding="utf-8")
    assert read_chart(chart, KNOWN).values["belly_girth"].tolist() == [800.0, 900.0]
    person = tmp_path / "ada.toml"
    person.write_text('name = "Ada"\n[measures]\nbelly_girth = "1 m"\n', encoding="utf-8")
    assert read_person(person, KNOWN).values["belly_girth"] == 1000.0
    assert read_given(["belly_girth=36in"], known=KNOWN).values["belly_girth"] == pytest.approx(914.4)
    table = tmp_path / "many.csv"
    table.write_text("name,belly_girth cm\nAda,90\nBo,20\n", encoding="utf-8")
    (some,) = read_many(table, known=KNOWN)
    assert some.bodies.values["belly_girth"][0] == 900.0
    assert "outside 60 cm to 180 cm" in some.faults[1]
    for read in (lambda: read_chart(chart), lambda: read_person(person), lambda: read_given(["belly_girth=36in"])):
        with pytest.raises(Problems, match="`belly_girth` is not a body measure"):
            read()
