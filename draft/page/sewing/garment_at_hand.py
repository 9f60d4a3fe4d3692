"""A garment drafted for what a form asks, remembered while its reader looks at it from all sides."""

from __future__ import annotations

from collections.abc import Callable

from draft.answers.in_her_words import in_her_words
from draft.base.notes import stop_if_errors
from draft.drafting.checked import draft_planned
from draft.drafting.drafting import Drafted
from draft.drafting.planned import Planned, plan_for, texts_for
from draft.drafting.request import Request
from draft.pack.wording_of import wording_of
from draft.page.bench import Asked, Bench
from draft.page.request_asked import request_asked, text_of
from draft.paper.drawing.spoken_languages import Units
from draft.paper.drawing.wording import Wording
from draft.plan.library import Texts, bundled_files


def drafted_asked(asked: Asked, bench: Bench) -> Drafted:
    """The garment that a form asks for. Raises Problems, in a sewist's words, where it cannot be."""
    return drafted_for(request_asked(asked, bench), bench)


def drafted_for(request: Request, bench: Bench) -> Drafted:
    """The garment of a request. Raises Problems, in a sewist's words, where it cannot be."""
    with in_her_words(request):
        drafted = bench.keep(("drafted", repr(request)), lambda: draft_planned(planned(request, bench)))
        stop_if_errors(drafted.notes)
    return drafted


def planned(request: Request, bench: Bench) -> Planned:
    """The plan of a request, remembered for whoever changes only her measures; a file of her own may have changed."""
    if request.pattern not in bundled_files():
        return plan_for(request)
    key = (request.pattern, tuple(sorted(request.styles.items())), request.fabric)
    found = bench.keep(("plan", key), lambda: plan_for(request, bench.keep(("texts", key[0]), _texts(key[0]))))
    return found if found.request == request else Planned(request, found.texts, found.fabric, found.plan)


def _texts(pattern: str) -> Callable[[], Texts]:
    return lambda: texts_for(pattern)


def words_asked(asked: Asked, planned: Planned | None, bench: Bench) -> Wording:
    """The language and units that a form asks for, with the designer's own words in it."""
    language = text_of(asked, "language", "en")
    units: Units = "in" if text_of(asked, "units") == "in" else "cm"
    key = ("words", planned and planned.request.pattern, language, units)
    return bench.keep(key, lambda: wording_of(planned, language, units))
