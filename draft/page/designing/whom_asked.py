"""For whom a designer looks at her draft: sizes of a chart, or one person by her measures."""

from __future__ import annotations

import re
from pathlib import Path

from draft.base.notes import Problems, error
from draft.base.resources import folder
from draft.base.units import Kind
from draft.bodies.measures import MEASURES
from draft.drafting.request import ALL_SIZES, Whom
from draft.page.bench import Asked
from draft.page.request_asked import LONGEST, MOST, answers_of


def whom_drawn(asked: Asked) -> Whom:
    """All sizes, those that are named, those of another chart, or a person. Raises `Problems` for what is none."""
    measures = _texts(asked, "measures")
    chart = charts().get(str(asked.get("chart") or ""))
    if measures:
        figure = asked.get("figure")
        answers = tuple(f"{name}={_with_unit(name, value)}" for name, value in measures.items())
        return Whom(answers=answers, figure=figure if isinstance(figure, str) and figure else None)
    sizes = asked.get("sizes") or []
    if not isinstance(sizes, list) or len(sizes) > MOST:
        raise Problems([error("`sizes` is no list of sizes")])
    names = tuple(str(size)[:LONGEST] for size in sizes) or None
    return Whom(chart=chart, sizes=names) if names or chart else ALL_SIZES


def _with_unit(name: str, value: str) -> str:
    """A bare figure in the unit that the measure is kept in."""
    if not re.fullmatch(r"\d+(?:\.\d+)?", value) or name not in MEASURES:
        return value
    return f"{value} {'cm' if MEASURES[name].kind is Kind.LENGTH else 'deg'}"


def styles_asked(asked: Asked) -> dict[str, str]:
    """The styles that are chosen other than usual."""
    return _texts(asked, "styles")


def charts() -> dict[str, Path]:
    """The charts of the bundle, by their names."""
    return {file.stem: file for file in sorted(folder("pieces").glob("*.csv"))}


def _texts(asked: Asked, name: str) -> dict[str, str]:
    """Answers as texts, figures among them."""
    answers = answers_of(asked, name).items()
    return {str(key)[:LONGEST]: str(text)[:LONGEST] for key, text in answers if text not in (None, "")}
