"""A garment on a form of its wearer, from in front and from the side: its room level by level, and what that means."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.record import dataclass
from draft.bodies.given_measures import NAME
from draft.bodies.tapes import TAPES
from draft.fit.levels import closeness, levels, over
from draft.fit.room_on_form import Room, room_on_form
from draft.fit.room_words import NOT_YOU, room_words
from draft.form.dress_form import Form
from draft.form.silhouette import View
from draft.garment.garment import Garment
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Drawing, Item, Label, Layer, Path, Stroke, rectangle
from draft.paper.drawing.font import fitted_text, wrapped
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.pictures.form_views import FORM, ROOM, TIGHT, Placed, broadest, view_items
from draft.paper.pictures.measured_levels import LEGS, height_on_form, mark_items
from draft.paper.pictures.room_chart import chart_items

WIDE = 190.0
TOP, TALL = 18.0, 112.0  # of the views
SCALE = 0.1
LEFT, GAP = 8.0, 4.0  # of the views
CHART = (114.0, 139.0)
NOTES, RIGHT = 143.0, 186.0
SMALL, TEXT = 2.9, 3.4  # over 8 pt
ROW, BESIDE = 4.6, 4.0
LEADER = Stroke(0.15, (0.8, 0.8), "#8a8a8a")
IN_CM = Wording("en", "cm")
AT_LEVELS = "Compared at the levels that are measured on this garment, not between them."
_BELOW = 40.0  # mm of the body that is shown below what is worn


@dataclass(frozen=True)
class Level:
    """One level for one body: mm round the body and round the garment, and how it sits in words.

    `cloth` is what its cloth measures; more than the garment where elastic draws that in.
    """

    name: str
    tape: str
    body: float
    garment: float
    cloth: float

    @property
    def ease(self) -> float:
        """By how much the garment is larger, mm."""
        return self.garment - self.body

    @property
    def sits(self) -> str:
        """`stretched`, `close fitting`, `semi-fitted` or `loose`."""
        return "stretched" if self.ease < 0 else closeness(self.ease, self.body)

    @property
    def at(self) -> str:
        """The level of a form that it is: `hip`, `thigh`; nothing where it is unknown."""
        return self.tape.removesuffix("_girth")

    @property
    def girths(self) -> tuple[float, float]:
        """Round the body, and round the garment once elastic has given, mm."""
        return self.body, max(self.garment, min(self.cloth, self.body))

    def lines(self, wording: Wording) -> tuple[str, str, str]:
        """What is printed beside its name: how it sits, and both girths."""
        sits = wording.say(f"form.{self.sits.replace(' ', '_').replace('-', '_')}")
        key = "form.ease" if self.ease >= 0 else "form.less_than_body"
        flat = wording.say("form.garment", around=wording.length(self.garment), flat=wording.length(self.garment / 2))
        return (
            wording.say(key, ease=wording.length(abs(self.ease)), sits=sits),
            wording.say("form.body", around=wording.length(self.body)),
            flat,
        )


def levels_of(garment: Garment, body: int) -> list[Level]:
    """The levels of a garment for one of its bodies."""
    found = []
    for finished in levels(garment):
        assert finished.over
        names = (finished.over[0].replace(" ", "_"), f"{finished.name}_girth")
        tape = next((name for name in names if name in TAPES and TAPES[name].girth), "")
        cloth = finished.values if finished.flat is None else finished.flat
        girths = (float(values[body]) for values in (over(finished), finished.values, cloth))
        found.append(Level(finished.title, tape, *girths))
    return found


def fit_drawing(
    garment: Garment, form: Form | None, body: int = 0, followed: Sequence[str] = (), wording: Wording = IN_CM
) -> Drawing:
    """The drawing for one of the bodies, 190 mm wide; words alone where no form could be made.

    `followed` are sentences on what of the body's shape, beyond its girths, the garment is drafted to; these and those
    on room are told in English alone.
    """
    room = room_on_form(garment, form, body) if form is not None else None
    whom = garment.sizes[body]
    whom = wording.say("form.made_to_measure") if whom == NAME else whom
    title = fitted_text(f"{wording.named(garment.title)}, {whom}", 4.6, WIDE - 16, bold=True)
    items: list[Item] = [Label(title, 8, 10, 4.6, bold=True)]
    foot = TOP
    if form is not None:
        found, foot = _views(garment, form, body, room, wording)
        items += [*found, *_key(foot, wording)]
        foot += 8
    told = [line for one in followed for line in wrapped(f"{capitalised(one)}.", TEXT, WIDE - 16)]
    words = [*told, *_words(garment, form, body, room, wording)]
    items += [Label(line, 8, foot + ROW * k, TEXT, bold=k == len(words) - 1) for k, line in enumerate(words)]
    return Drawing(title, WIDE, foot + ROW * len(words) + 4, (Layer("fit", tuple(items)),))


def _views(garment: Garment, form: Form, body: int, room: Room | None, wording: Wording) -> tuple[list[Item], float]:
    """Both views, the chart and what stands beside it; and how far down the paper they reach."""
    found = levels_of(garment, body)
    lowest = _lowest(form, body, room, found)
    front, side = _places(form, body, room, lowest)
    items = view_items(form, body, "front", front, room, lowest)
    items += view_items(form, body, "side", side, room, lowest)
    known = [(height, level) for level in found if (height := height_on_form(form, body, level.at)) is not None]
    if room is not None:
        items += chart_items(room.heights, room.ease, front, CHART, wording)
    elif known:
        items += _measured(form, body, (front, side), known, wording)
    beside, low = _beside([(front.up(height), level) for height, level in known], wording)
    items.append(Label(f"1 : {1 / front.scale:.0f}", LEFT, front.up(lowest) + 6, SMALL))
    return items + beside, max(front.up(lowest) + 14, low + 4)


def _measured(
    form: Form, body: int, places: tuple[Placed, Placed], known: list[tuple[float, Level]], wording: Wording
) -> list[Item]:
    """The measured levels in both views, and as bars beside them."""
    views: tuple[View, View] = ("front", "side")
    items: list[Item] = []
    for view, place in zip(views, places, strict=True):
        for _, level in known:
            items += mark_items(form, body, view, place, level.at, level.girths)
    heights, eases = (np.array(row) for row in zip(*((height, level.ease) for height, level in known), strict=True))
    return items + chart_items(heights, eases, places[0], CHART, wording)


def _places(form: Form, body: int, room: Room | None, lowest: float) -> tuple[Placed, Placed]:
    """Where both views stand, as large as there is room for them beside one another."""
    views: tuple[View, View] = ("front", "side")
    (left, right), (before, behind) = (broadest(form, body, view, room) for view in views)
    top = float(form.rows[body, -1])
    scale = min(SCALE, TALL / (top - lowest), (CHART[0] - LEFT - 2 * GAP) / (right - left + behind - before))
    first = LEFT - left * scale
    second = first + right * scale + GAP - before * scale
    return Placed(first, TOP + scale * top, scale), Placed(second, TOP + scale * top, scale)


def _lowest(form: Form, body: int, room: Room | None, found: list[Level]) -> float:
    """How far down the body is shown: a little below what is worn, or below where a leg was measured."""
    lowest = float(form.rows[body, 0])
    if room is not None:
        return min(lowest, float(room.heights[0]) - _BELOW)
    legs = [height_on_form(form, body, level.at) for level in found if level.at in LEGS]
    return min([lowest, *(leg - _BELOW for leg in legs if leg is not None)])


def _beside(shown: list[tuple[float, Level]], wording: Wording) -> tuple[list[Item], float]:
    """What is known of levels, beside the chart at their places down the paper, none on another; and where it ends."""
    items: list[Item] = []
    free = TOP
    for y, level in sorted(shown, key=lambda one: one[0]):
        first = max(y - 1.0, free)
        items.append(Path((lines_through([(CHART[1], y), (NOTES - 2, y), (NOTES - 0.6, first - 1)]),), LEADER))
        items.append(Label(capitalised(wording.named(level.name)), NOTES, first, TEXT, bold=True))
        lines = [line for said in level.lines(wording) for line in wrapped(said, SMALL, RIGHT - NOTES)]
        items += [Label(line, NOTES, first + BESIDE * (k + 1), SMALL) for k, line in enumerate(lines)]
        free = first + BESIDE * (len(lines) + 1) + 1.5
    return items, free


def _key(y: float, wording: Wording) -> list[Item]:
    form, room, tight = (wording.say(f"form.key_{key}") for key in ("form", "room", "tight"))
    items: list[Item] = [Path((rectangle(8, y - 2.6, 5, 3),), fill=FORM), Label(form, 14.5, y, SMALL)]
    items += [Path((rectangle(26, y - 2.6, 5, 3),), Stroke(0.2), ROOM), Label(room, 32.5, y, SMALL)]
    for k, width in enumerate((0.25, 0.5, 0.9)):
        x = 66.0 + 3 * k
        items.append(Path((lines_through([(x, y - 1), (x + 2.4, y - 1)]),), Stroke(width, colour=TIGHT)))
    return [*items, Label(tight, 76.5, y, SMALL)]


def _words(garment: Garment, form: Form | None, body: int, room: Room | None, wording: Wording) -> list[str]:
    if wording.language != IN_CM.language:
        return [wording.say("form.not_you" if form else "form.too_little_known")]
    said = [f"{capitalised(one).removesuffix('.')}." for one in room_words(garment, body, form, room)]
    if form is None:
        said.append("No form is drawn: too little is known of this body.")
    else:
        said += [] if room is not None else [AT_LEVELS]
        said += [f"{capitalised(caution)}." for caution in form.cautions[body]]
        of_a_top = any(level.at == "bust" for level in levels_of(garment, body))
        said.append(f"{NOT_YOU} Shoulders and arms are not compared." if of_a_top else NOT_YOU)
    return [line for one in said for line in wrapped(one, TEXT, WIDE - 16)]
