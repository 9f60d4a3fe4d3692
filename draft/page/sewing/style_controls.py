"""What there is to choose: a garment's styles as controls, the measures that decide, sizes, cloth, and sayings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from draft.base.naming import plain
from draft.base.notes import Problems
from draft.base.units import MM_PER_INCH, Kind, read_quantity
from draft.bodies.measures import MEASURES, BodyMeasure, unknown_measure
from draft.bodies.said import known_sayings
from draft.bodies.tapes import TAPES
from draft.bodies.wearers import WOMEN
from draft.drafting.request import Request
from draft.page.bench import Asked, Bench, Gave
from draft.page.request_asked import chart_asked, garment_asked, text_of, texts_of
from draft.page.sewing.cards import sizes_of
from draft.page.sewing.garment_at_hand import planned, words_asked
from draft.page.sewing.in_plain_words import measure_called
from draft.paper.drawing.svg import svg
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.pictures.figure_drawing import figure_drawing
from draft.paper.pictures.tape import tape_drawing
from draft.plan.plan import Plan, Style

FIRST = (
    "bust_girth", "waist_girth", "hip_girth", "stature", "upper_arm_girth", "back_waist_length", "thigh_girth",
    "inside_leg_length",
)  # fmt: skip
"""What a fitter takes first (common practice); the rest makes it surer. All estimates lean on the stature."""


def choices(asked: Asked, bench: Bench) -> Gave:
    """What a garment declares: `styles`, `measures` (those that decide are `first`), `charts` where it has several, the
    `sizes` of the one that is asked for, `cloths`, `stretch`."""
    name = garment_asked(asked, bench)
    found = planned(Request(name, styles=texts_of(asked, "styles")), bench)
    wording = words_asked(asked, found, bench)
    plan = found.plan
    return {
        "title": wording.named(plan.title),
        "sizes": list(sizes_of(name, bench, chart_asked(asked, name))),
        "charts": _charts(plan, wording),
        "styles": [_style(style, wording) for style in plan.styles],
        "measures": [_measure(plan.known[one], one in FIRST, wording) for one in _in_order(plan)],
        "cloths": [wording.named(cloth.name) for cloth in plan.cloths],
        "stretch": {p.name: {"now": p.set_to, "suits": p.limits} for p in plan.properties if "stretch" in p.name},
        "women": plan.wearers is WOMEN,
    }


def _charts(plan: Plan, wording: Wording) -> list[dict[str, str]]:
    """Each chart of several by its `name`, `title` and `words`, all of them empty where the usual one has no name."""
    if len(plan.charts) < 2:
        return []
    titles = {name: capitalised(wording.named(plain(name))) for name, _ in plan.charts}
    return [{"name": name, "title": titles[name], "words": wording.named(words)} for name, words in plan.charts]


def _in_order(plan: Plan) -> list[str]:
    """What decides first, in a fitter's order; then the rest in the order in which a person is measured."""
    asked = set(plan.measures) | ({"stature"} if plan.measures else set())
    first = [name for name in FIRST if name in asked]
    return [*first, *(name for name in plan.known if name in asked and name not in first)]


def _measure(measure: BodyMeasure, is_first: bool, wording: Wording) -> dict[str, Any]:
    key = measure.name
    low, high = (_in_units(end, measure.kind, wording) for end in (measure.low, measure.high))
    return {
        "name": key,
        "title": capitalised(measure_called(key, wording)),
        "how": wording.say(f"how.{key}") if wording.has(f"how.{key}") else measure.how,
        "first": is_first,
        "angle": measure.kind is Kind.ANGLE,
        "low": math.ceil(low * 10) / 10,
        "high": math.floor(high * 10) / 10,
        "drawn": key in TAPES,
    }


def _in_units(value: float, kind: Kind, wording: Wording) -> float:
    if kind is Kind.ANGLE:
        return math.degrees(value)
    return value / (MM_PER_INCH if wording.units == "in" else 10.0)


def _style(style: Style, wording: Wording) -> dict[str, Any]:
    """A control: `options` of a choice, or the ends and steps of an amount in the reader's units."""
    said: dict[str, Any] = {
        "name": style.name,
        "title": capitalised(wording.named(plain(style.name))),
        "words": capitalised(wording.named(style.words)),
        "now": style.set_to,
    }
    if style.is_choice:
        return said | {"options": [{"value": one, "title": capitalised(wording.option(one))} for one in style.ends]}
    ends = [read_quantity(end) for end in style.ends]
    now = read_quantity(style.set_to)
    if len(ends) != 2 or now.kind not in (Kind.LENGTH, Kind.ANGLE, Kind.NUMBER):
        return said
    unit, step = _unit(style, now.kind, wording)
    low, high = (end.value / unit[1] for end in ends)
    return said | {
        "unit": unit[0],
        "low": math.ceil(low / step - 1e-6) * step,
        "high": math.floor(high / step + 1e-6) * step,
        "value": round(now.value / unit[1], 3),
        "step": step,
    }


def _unit(style: Style, kind: Kind, wording: Wording) -> tuple[tuple[str, float], float]:
    """The unit that an amount is chosen in, how large it is, and the step."""
    if kind is Kind.ANGLE:
        return ("deg", math.radians(1.0)), 1.0
    if kind is Kind.NUMBER:
        return (("%", 0.01), 0.5) if "%" in style.set_to else (("", 1.0), 0.05)
    return (("in", MM_PER_INCH), 0.125) if wording.units == "in" else (("cm", 10.0), 0.5)


def measure_drawn(asked: Asked, _bench: Bench) -> Gave:
    """Where the tape goes for a measure, as `svg`. Raises Problems for a word that is no measure."""
    name = text_of(asked, "about")
    if name not in MEASURES:
        raise Problems([unknown_measure(name)])
    return {"name": name, "svg": svg(tape_drawing(name)) if name in TAPES else ""}


def sayings(asked: Asked, bench: Bench) -> Gave:
    """What can be said of a figure in place of a tape: `words`, the `group` of which one can be so, what is `seen`."""
    wording = words_asked(asked, None, bench)
    return {"sayings": bench.keep(("sayings", wording.language), lambda: _sayings(wording))}


def _sayings(wording: Wording) -> Sequence[dict[str, str]]:
    return [
        {
            "words": one.words,
            "title": capitalised(wording.named(one.words)),
            "group": one.group,
            "seen": wording.named(one.seen),
            "svg": svg(figure_drawing(one)),
        }
        for one in known_sayings()
    ]
