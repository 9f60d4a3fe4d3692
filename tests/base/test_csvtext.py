"""A spreadsheet runs nothing of our tables; a figure stays a figure, and what was written is read again."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from draft.base.csvtext import csv_text, guarded, unguarded
from draft.bodies.chart import read_chart
from draft.bodies.many import read_many

FORMULAS = [
    "=1+1",
    "+A1",
    "-A1",
    "@SUM(A1)",
    "\t=1",
    "\r=1",
    "\n=1",
    " =1",
    "＝1",
    "'=1",
    "''=1",
    "=",
    "-",
    "--1",
    "-3 cm",
]
FIGURES = ["-3.5", "+1", "0", "-0.25", "12", "1e5", "-1.5e-3", ".5", "-.5", "3."]


def cells(data: bytes, delimiter: str = ",") -> list[list[str]]:
    return list(csv.reader(io.StringIO(data.decode("utf-8"), newline=""), delimiter=delimiter))


@pytest.mark.parametrize("text", FORMULAS)
def test_what_would_be_run_is_a_text(text: str) -> None:
    for delimiter in (",", ";", "\t"):
        for row in cells(csv_text([[f"a;{text}", text, f"b; {text}"]]), delimiter):
            assert not [cell for cell in row if cell.strip().startswith(("=", "+", "-", "@", "＝"))], (delimiter, row)


@pytest.mark.parametrize("figure", [*FIGURES, -3, -0.5, None])
def test_a_figure_stays_a_figure(figure: object) -> None:
    assert guarded(figure) == figure
    ((cell,),) = cells(csv_text([[figure]])) or [[""]]
    assert cell == ("" if figure is None else str(figure))


@pytest.mark.parametrize("text", [*FORMULAS, *FIGURES, "Ines", "it's", "a;b", "a;=b", "a; -b;'=c", "", "'", "O'Neill"])
def test_what_was_written_is_read_again(text: str) -> None:
    plain = text.translate({9: " ", 10: " ", 13: " "})
    assert unguarded(str(guarded(text))) == plain


def test_half_a_letter_is_written_out() -> None:
    assert csv_text([["\ud800"]]) == b"\\ud800\n"


def test_charts_and_tables_of_bodies_take_the_apostrophe_away(tmp_path: Path) -> None:
    chart, bodies = tmp_path / "chart.csv", tmp_path / "bodies.csv"
    chart.write_bytes(csv_text([["measure", "unit", "S", "+M"], ["bust_girth", "cm", 90, 94]]))
    assert "'+M" in chart.read_text() and read_chart(chart).names == ("S", "+M")
    bodies.write_bytes(csv_text([["name", "bust_girth cm"], ["=Ines", 90], ["@Mo", 94]]))
    (some,) = read_many(bodies)
    assert some.bodies.names == ("=Ines", "@Mo")
