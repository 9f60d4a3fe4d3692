"""The small garments of this folder: each exercises some words and forms of the language, and drafts clean."""

from __future__ import annotations

import re
from pathlib import Path

from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.bodies.estimates import completed_own
from draft.plan.library import Texts, chart_of, read_texts
from draft.plan.make import plan_texts

HERE = Path(__file__).parent
FILES = sorted(HERE.glob("*.piece"), key=lambda path: path.name)
CASES = [path for path in FILES if "\npattern " in path.read_text(encoding="utf-8")]  # the others hold templates


def styles_of(path: Path) -> dict[str, str]:
    """The styles in a first line such as `# --style sleeve=3cm`."""
    first = path.read_text(encoding="utf-8").partition("\n")[0]
    return dict(re.findall(r"--style (\w+)=(.*?)(?= --|$)", first)) if first.startswith("#") else {}


def bodies_of(texts: Texts) -> Bodies:
    """The sizes of the chart that a pattern names, with what it estimates of measures of its own."""
    chart, plan = chart_of(texts), plan_texts(texts, {})
    assert chart
    return completed_own(read_chart(chart, plan.known), plan.measures, plan.known)[0]


def texts_of(path: Path) -> Texts:
    """The trees of a pattern and of what it uses."""
    return read_texts(path)
