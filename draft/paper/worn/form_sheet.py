"""A form of somebody's measures by itself: from three sides, its levels with what the tape reads, and its doubts."""

from __future__ import annotations

from draft.base.record import dataclass
from draft.paper.drawing.drawing import Drawing, Item, Label, Layer
from draft.paper.drawing.font import wrapped
from draft.paper.drawing.passage import Passage, said_as
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.worn.nearest_seen import Frame, Side
from draft.paper.worn.worn_sheet import (
    LEFT,
    SMALL,
    TEXT,
    TOP,
    WIDE,
    frame_of,
    levels_beside,
    placed_view,
    scale_of,
    titled,
)
from draft.paper.worn.worn_view import Place
from draft.sitting.worn import Worn

_ROW = 4.6


@dataclass(frozen=True, eq=False)
class FormSheet:
    """A form to draw: its title, its surface, what the tape reads at its levels in mm, and what was estimated."""

    title: str
    worn: Worn
    girths: dict[str, float]
    estimated: tuple[str, ...]
    outside: tuple[str, ...]


def form_sheet(sheet: FormSheet, wording: Wording) -> Drawing:
    """The sheet, 190 mm wide."""
    worn = sheet.worn
    frames: dict[Side, Frame] = {side: frame_of(worn, side) for side in ("front", "back", "side")}
    front, beside = frames["front"], frames["side"]
    scale = scale_of(front)
    wide = (front.right - front.left) * scale
    items, views = titled(sheet.title), list[Item]()
    views += placed_view(worn, "front", front, Place(WIDE / 2 - wide - 2, TOP, scale), wording, marked=())
    views += placed_view(worn, "back", frames["back"], Place(WIDE / 2 + 2, TOP, scale), wording, marked=())
    foot = TOP + (front.high - front.low) * scale + 10
    place = Place(LEFT + 34, foot, scale)
    views += placed_view(worn, "side", beside, place, wording, marked=())
    words = _girth_words(sheet, wording)
    views += levels_beside(worn, beside, place, words)
    items += said_as(views, Passage("Figure", ", ".join([sheet.title, *words.values()])))
    right = place.x + (beside.right - beside.left) * scale + 10
    y = foot + TEXT
    for text, bold in _sentences(sheet, wording):
        lines = wrapped(text, TEXT, WIDE - LEFT - right, bold)
        labels = [Label(line, right, y + _ROW * k, TEXT, bold=bold) for k, line in enumerate(lines)]
        items += said_as(labels, Passage("P"))
        y += _ROW * len(lines) + 1.6
    low = max(y, foot + (beside.high - beside.low) * scale + 10)
    number = wording.say("sit.scale", number=wording.number(1 / scale, 0))
    items.append(Label(number, LEFT, low, SMALL))
    return Drawing(sheet.title, WIDE, low + 4, (Layer("form", tuple(items)),))


def _girth_words(sheet: FormSheet, wording: Wording) -> dict[str, str]:
    found = {}
    for name, girth in sheet.girths.items():
        level = capitalised(wording.say(f"sit.level_{name}"))
        length = wording.length(girth) if wording.units != "both" else wording.centimetres(girth)
        found[name] = wording.say("sit.girth", level=level, girth=length)
    return found


def _sentences(sheet: FormSheet, wording: Wording) -> list[tuple[str, bool]]:
    found = [(wording.say("sit.not_you"), True), (wording.say("sit.without"), False)]
    if sheet.estimated:
        names = wording.listed([_called(name, wording) for name in sheet.estimated])
        found.append((wording.say("sit.estimated", measures=names), False))
    for name in sheet.outside:
        found.append((capitalised(wording.say("sit.outside", measure=_called(name, wording))), False))
    return found


def _called(name: str, wording: Wording) -> str:
    key = f"measures.{name}"
    return wording.say(key) if wording.has(key) else wording.named(name)
