"""What is said of a garment on a form, in a language: sentences filled in with figures as a sewist reads them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from draft.paper.drawing.wording import Wording, capitalised
from draft.sitting.sit_said import Said
from draft.toile.why_not import Filled, Why

_HALF = 5.0
"""mm: nothing here is known to better than half a centimetre, and some of it is said to the whole one."""


def sentences(told: Sequence[Said], wording: Wording) -> list[str]:
    """The sentences of what is told, each with a capital."""
    return [sentence(one, wording) for one in told]


def sentence(one: Said, wording: Wording) -> str:
    """One sentence."""
    return capitalised(_filled(one.key, one.figures, wording))


def not_dressed(reason: Why, wording: Wording) -> str:
    """Why something is not dressed, as a part of a sentence."""
    return _filled(reason.key, reason.figures, wording)


def _filled(key: str, figures: Sequence[tuple[str, Filled]], wording: Wording) -> str:
    return wording.say(f"sit.{key}", **dict(_field(name, figure, wording) for name, figure in figures))


def _field(name: str, figure: Filled, wording: Wording) -> tuple[str, str]:
    kind, _, field = name.partition("_")
    if kind == "mm":
        assert isinstance(figure, float | int)
        return field, about(figure, wording, whole=field == "most")
    if kind == "share":
        assert isinstance(figure, float | int)
        return field, wording.say("units.percent", number=wording.number(figure * 100, 0 if figure >= 0.0095 else 1))
    if kind == "count":
        assert isinstance(figure, float | int)
        return field, wording.number(figure, 0)
    if kind == "plain":
        return field, str(figure)
    if isinstance(figure, tuple):
        return field, wording.listed([_named(field, part, wording) for part in figure])
    assert isinstance(figure, str)
    return field, _named(field, figure, wording)


def _named(field: str, name: str, wording: Wording) -> str:
    key = name.replace(" ", "_")
    for section in ({"level": "sit.level_", "place": "sit.place_", "how": "sit.how_"}.get(field, ""), "measures."):
        if section and wording.has(f"{section}{key}"):
            return wording.say(f"{section}{key}")
    return wording.named(name)


def about(mm: float, wording: Wording, whole: bool = False) -> str:
    """A length as far as it is known: to half a centimetre or a quarter inch; a bound up to the next `whole` one."""
    step = 2 * _HALF if whole else _HALF
    rounding = math.ceil if whole else round
    rounded = max(rounding(mm / step) * step, step)
    if wording.units == "cm":
        return wording.centimetres(rounded)
    inch = 25.4 / 2 if whole else 25.4 / 4
    inches = wording.inches(max(rounding(mm / inch) * inch, inch), 4)
    if wording.units == "in":
        return inches
    return wording.say("units.both", inches=inches, centimetres=wording.centimetres(rounded))
