"""A garment against a body, level by level: bars of both girths, and on a figure where it is close and where loose."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.base.units import in_centimetres
from draft.bodies.tapes import TAPES
from draft.fit.levels import closeness, levels, over
from draft.garment.garment import Garment
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Drawing, Item, Label, Layer, Path, Stroke, rectangle
from draft.paper.drawing.font import fitted_text
from draft.paper.drawing.wording import capitalised
from draft.paper.pictures.tape import BODY, clipped, figure_lines, loop

WIDE, HIGH = 190.0, 132.0
FIGURE = 1.1  # mm to a unit of the figure: from crown to knee on the height of the drawing
MIDDLE = 32.0  # of the figure, from the left
LEFT, RIGHT = 78.0, 184.0  # between these the bars lie
TOP, ROW = 24.0, 16.5
BAR = 5.0
SMALL, TEXT = 2.9, 3.4  # over 8 pt

LOOKS = {
    "stretched": Stroke(2.2, (1.0, 0.8), "#c00000"),
    "close fitting": Stroke(2.2, (), "#a33c00"),
    "semi-fitted": Stroke(2.2, (5.0, 1.2), "#0a4a8f"),
    "loose": Stroke(2.2, (0.9, 2.0), "#555555"),
}
"""How a level is shown: by the pattern of its line as well as by its colour."""


@dataclass(frozen=True)
class Level:
    """One level for one body: mm round the body and round the garment, and how it sits in words."""

    name: str
    tape: str
    body: float
    garment: float

    @property
    def ease(self) -> float:
        """By how much the garment is larger, mm."""
        return self.garment - self.body

    @property
    def sits(self) -> str:
        """`stretched`, `close fitting`, `semi-fitted` or `loose`."""
        return "stretched" if self.ease < 0 else closeness(self.ease, self.body)


def levels_of(garment: Garment, body: int) -> list[Level]:
    """The levels of a garment for one of its bodies."""
    found = []
    for finished in levels(garment):
        assert finished.over
        names = (finished.over[0].replace(" ", "_"), f"{finished.name}_girth")
        tape = next((name for name in names if name in TAPES and TAPES[name].girth), "")
        found.append(Level(finished.title, tape, float(over(finished)[body]), float(finished.values[body])))
    return found


def fit_drawing(garment: Garment, body: int = 0) -> Drawing:
    """The drawing for one of the bodies, 190 x 132 mm or longer; empty but for the figure where no level is known."""
    found = levels_of(garment, body)
    high = max(HIGH, TOP + ROW * len(found) + 12)
    title = fitted_text(f"{garment.title}, {garment.sizes[body]}", 4.6, WIDE - 16, bold=True)
    items: list[Item] = [Label(title, 8, 10, 4.6, bold=True), *_figure(found, high), *_bars(found), *_key(found, high)]
    return Drawing(title, WIDE, high, (Layer("fit", tuple(items)),))


def _place(points: Floats) -> Floats:
    return np.asarray(points * FIGURE + np.array([MIDDLE, 20.0]))


def _figure(found: list[Level], high: float) -> list[Item]:
    outline = clipped(Path(tuple(_place(run) for run in figure_lines()), BODY), LEFT - 4, high - 6)
    items: list[Item] = [outline] if outline else []
    for level in found:
        if level.tape:
            line = TAPES[level.tape].line
            items.append(Path((_place(loop(line, 1.0)),), LOOKS[level.sits]))
    return items


def _bars(found: list[Level]) -> list[Item]:
    longest = max((max(level.body, level.garment) for level in found), default=1.0)
    scale = (RIGHT - LEFT) / longest
    items: list[Item] = []
    for k, level in enumerate(found):
        y = TOP + k * ROW
        look = LOOKS[level.sits]
        ease = f"{in_centimetres(abs(level.ease))} {'ease' if level.ease >= 0 else 'less than the body'}, {level.sits}"
        items += [
            Label(capitalised(level.name), LEFT, y - 1.4, TEXT, bold=True),
            Label(ease, RIGHT, y - 1.4, SMALL, anchor="end"),
            Path((rectangle(LEFT, y, level.body * scale, BAR),), fill="#d9d9d9"),
            Path((lines_through([(LEFT, y), (LEFT + level.garment * scale, y), (LEFT + level.garment * scale, y + BAR),
                         (LEFT, y + BAR)], closed=True),), Stroke(0.5, colour=look.colour)),
            Label(f"body {in_centimetres(level.body)}", LEFT + 1.5, y + 3.6, SMALL),
            Label(f"garment {in_centimetres(level.garment)}, flat {in_centimetres(level.garment / 2)}",
                  LEFT, y + BAR + 3.4, SMALL),
        ]  # fmt: skip
    return items


def _key(found: list[Level], high: float) -> list[Item]:
    shown = [sits for sits in LOOKS if any(level.sits == sits for level in found)]
    items: list[Item] = []
    for k, sits in enumerate(shown):
        x, y = LEFT + 26.0 * k, high - 5
        items += [Path((lines_through([(x, y), (x + 7, y)]),), LOOKS[sits]), Label(sits, x + 8.5, y + 1, SMALL)]
    return items
