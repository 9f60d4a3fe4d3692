"""The styles that a pattern offers, those too that are there only under some options of another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from draft.base.notes import Note, Problems
from draft.base.record import dataclass
from draft.base.units import QuantityError, read_quantity
from draft.drafting.request import Request
from draft.fabrics.fabric import Fabric
from draft.plan.library import Texts
from draft.plan.make import plan_texts
from draft.plan.plan import Plan, Style
from draft.trying.settings import Offer, Setting

MOST_OPTIONS = 60
"""Options of choices that are looked under for further styles, some fifteen choices."""


@dataclass
class Plans:
    """The plans of one pattern in any styles, and what is wrong with it in those in which there is none."""

    request: Request
    texts: Texts
    fabric: Fabric | None
    _found: dict[Setting, Plan | tuple[Note, ...]] = field(default_factory=dict)

    def of(self, setting: Setting) -> Plan | tuple[Note, ...]:
        """The plan in a setting, or the notes on why there is none."""
        if setting not in self._found:
            try:
                self._found[setting] = plan_texts(self.texts, {**self.request.styles, **dict(setting)}, self.fabric)
            except Problems as problems:
                self._found[setting] = problems.notes
        return self._found[setting]


def offers_of(plans: Plans) -> list[Offer]:
    """Every style that can be tried, but for those that were asked for. Looks under each option of each choice."""
    found: dict[str, Offer] = {}
    waiting: list[Setting] = [()]
    for looked in range(MOST_OPTIONS):
        if looked >= len(waiting):
            break
        under = waiting[looked]
        plan = plans.of(under)
        for style in plan.styles if isinstance(plan, Plan) else ():
            if style.name not in found and style.name not in plans.request.styles and style.name not in dict(under):
                found[style.name] = offer = _offer(style, under)
                waiting += [(*under, (style.name, end)) for end in offer.ends] if style.is_choice else []
    return list(found.values())


def _offer(style: Style, under: Setting) -> Offer:
    usual = _figure(style.set_to) if not style.is_choice else style.set_to
    ends = [end for end in style.ends if (end if style.is_choice else _figure(end)) != usual]
    return Offer(style.name, tuple(ends), style.is_choice, under)


def _figure(text: str) -> float | str:
    try:
        return read_quantity(text).value
    except QuantityError:
        return text


def ranges(plan: Plan, setting: Mapping[str, str]) -> dict[str, float]:
    """What of a setting are amounts, by their names: in mm, rad or as a number, as the plan's steps have them."""
    amounts = {style.name for style in plan.styles if not style.is_choice}
    return {name: read_quantity(text).value for name, text in setting.items() if name in amounts}
