"""What a browser asks for, made into the same requests that the command makes, with every text held to a length."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from draft.base.notes import Problems, error
from draft.base.plainly import mm, sentence
from draft.bodies.fit_names import unfit_name
from draft.drafting.request import Request, Whom
from draft.laying.asked import read_length
from draft.pack.paper_request import PaperRequest
from draft.page.bench import Asked, Bench
from draft.page.cloth_asked import cloth_asked
from draft.paper.drawing.wording import Wording
from draft.plan.library import bundled_files

LONGEST = 200
MOST = 80
"""Letters of a text, and how many of them, that anybody writes in a form."""
_WIDEST = 50.0
_CHART = re.compile("[a-z][a-z0-9_]*")


def text_of(asked: Asked, name: str, otherwise: str = "") -> str:
    """A text of a form. Raises Problems for what is none, or too long."""
    value = asked.get(name)
    if value is None or value == "":
        return otherwise
    if not isinstance(value, str) or len(value) > LONGEST:
        raise Problems([error(f"`{name}` is no text that a form holds", plainly=sentence("not_understood"))])
    return value.strip() or otherwise


def texts_of(asked: Asked, name: str) -> dict[str, str]:
    """Texts by name. Raises Problems for anything else."""
    value = answers_of(asked, name)
    return {str(key)[:LONGEST]: text_of(value, key) for key in value if text_of(value, key)}


def answers_of(asked: Asked, name: str) -> dict[str, Any]:
    """What is answered by name, whatever it is, and no more than a form asks. Raises Problems for anything else."""
    value = asked.get(name) or {}
    if not isinstance(value, dict) or len(value) > MOST:
        raise Problems([error(f"`{name}` is no list of answers", plainly=sentence("not_understood"))])
    return value


def list_of(asked: Asked, name: str) -> tuple[str, ...]:
    """Texts in their order. Raises Problems for anything else."""
    value = asked.get(name) or []
    if not isinstance(value, list) or len(value) > MOST:
        raise Problems([error(f"`{name}` is no list", plainly=sentence("not_understood"))])
    return tuple(text_of({"": one}, "") for one in value if one)


def request_asked(asked: Asked, bench: Bench) -> Request:
    """The pattern, for whom, in which styles, of which cloth. Raises Problems for what nobody could mean."""
    own, garment = text_of(asked, "allowance"), garment_asked(asked, bench)
    return Request(
        garment,
        replace(whom_asked(asked), chart=chart_asked(asked, garment)),
        texts_of(asked, "styles"),
        cloth_asked(asked.get("cloth"), bench),
        bool(asked.get("unwashed")),
        _allowance(own) if own else None,
    )


def garment_asked(asked: Asked, bench: Bench) -> str:
    """A bundled pattern's name, or the path of the one that the page was opened with. Raises Problems for any other."""
    name = text_of(asked, "garment")
    if name == "file" and bench.file:
        return str(bench.file)
    if name not in bundled_files():
        fact, plainly = f"there is no pattern called `{name[:40]}` on the shelf", sentence("not_on_shelf")
        raise Problems([error(fact, None, "choose one of them", plainly=plainly)])
    return name


def chart_asked(asked: Asked, garment: str) -> Path | None:
    """The name of one of the charts that the file of the page names; bundled patterns have one. Raises Problems."""
    name = text_of(asked, "chart")
    if not name or garment in bundled_files():
        return None
    if not _CHART.fullmatch(name):
        fact, plainly = f"`{name[:40]}` is no chart of this pattern", sentence("no_such_chart")
        raise Problems([error(fact, None, "choose one of them", plainly=plainly)])
    return Path(name)


def whom_asked(asked: Asked) -> Whom:
    """One person by what was measured, or sizes of the chart. Raises Problems for a name that no paper can bear."""
    measures = texts_of(asked, "measures")
    if not measures:
        return Whom(sizes=list_of(asked, "sizes") or None)
    name = text_of(asked, "name")
    unfit = unfit_name(name) if name else None
    if unfit:
        raise Problems([error(f"the name {unfit}", None, "choose another", plainly=sentence("name_unfit"))])
    answers = tuple(f"{measure}={value}" for measure, value in measures.items())
    return Whom(answers=answers, figure=text_of(asked, "figure") or None, name=name or _nameless(asked))


def _nameless(asked: Asked) -> str:
    """What stands on the paper of somebody who gave no name. Raises Problems for a language that has no words."""
    return Wording(text_of(asked, "language", "en")).say("form.made_to_measure")


def paper_asked(asked: Asked) -> PaperRequest:
    """On which papers, in which words and units, for which cloth."""
    units = text_of(asked, "units", "cm")
    return PaperRequest(
        pages=_small(list_of(asked, "pages")),
        large=_small(list_of(asked, "large")),
        assembly="butt" if asked.get("butt") else "overlap",
        units="in" if units == "in" else "both" if units == "both" else "cm",
        language=text_of(asked, "language", "en"),
        cloth=list_of(asked, "widths") or None,
        one_way=bool(asked.get("one_way")),
        large_print=bool(asked.get("large_print")),
    )


def _small(names: Sequence[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name.lower() for name in names))


def _allowance(text: str) -> float:
    """Mm. Raises Problems for what no seam is cut with."""
    own = 0.0 if text.lower() == "none" else read_length(text, "allowance", "1cm")
    if not 0 <= own <= _WIDEST:
        plainly = sentence("allowance_too_wide", most=mm(_WIDEST))
        fact = f"`{text}` is wider than a seam is ever cut"
        raise Problems([error(fact, None, "choose at most 5 cm", plainly=plainly)])
    return own
