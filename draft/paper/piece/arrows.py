"""The arrows of a piece: its grain, and its greatest stretch (common practice)."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path
from draft.paper.drawing.room import CLEAR, Room, Spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece.surface import Surface

ARROW_WORDS = 10.0  # points
ARROW_ROOM = 6.0
"""Height kept free along an arrow, in mm: its head and its word."""
HEAD = 5.0
_SHAFT = 7.0  # the least that reads as an arrow on each side of its word
_LENGTHS = (260.0, 220.0, 170.0, 130.0, 100.0, 75.0, 55.0, 40.0, 30.0)
_LONGEST_STRETCH = 130.0  # the grain is laid against the cloth and wants length; the stretch is only pointed out
_SHORT = (22.0, 18.0, 15.0, 12.0)
_BESIDE = 3.0
_ASLANT = 0.3
"""The sine of the angle from which on a level word is set across its arrow."""


@dataclass(frozen=True)
class _Arrow:
    """What an arrow says, whether its heads are filled, how long it may be, and how much larger it is than on paper."""

    word: str
    filled: bool
    longest: float
    enlarged: float

    @property
    def size(self) -> float:
        """Of its word, in mm."""
        return ARROW_WORDS * PT * self.enlarged

    @property
    def room(self) -> float:
        """Height kept free along it, in mm."""
        return ARROW_ROOM * self.enlarged

    @property
    def width(self) -> float:
        """Of its word, in mm."""
        return font.text_width(self.word, self.size)


def grain_arrow(
    room: Room, direction: Floats, near: tuple[float, float], wording: Wording, surface: Surface
) -> tuple[tuple[Item, ...], Spot | None]:
    """The grain line with a filled head at each end, and where it lies. `direction` `(2,)` has y down."""
    return _arrow(
        room, direction, near, _Arrow(wording.say("piece.grain"), True, _LENGTHS[0], surface.enlarged), surface
    )


def stretch_arrow(
    room: Room, direction: Floats, near: tuple[float, float], wording: Wording, surface: Surface
) -> tuple[tuple[Item, ...], Spot | None]:
    """The arrow of greatest stretch, a unit vector `(2,)`, with open heads."""
    arrow = _Arrow(wording.say("piece.stretch"), False, _LONGEST_STRETCH * surface.enlarged, surface.enlarged)
    return _arrow(room, direction, near, arrow, surface)


def _arrow(
    room: Room, direction: Floats, near: tuple[float, float], arrow: _Arrow, surface: Surface
) -> tuple[tuple[Item, ...], Spot | None]:
    angle = surface.readable(float(np.degrees(np.arctan2(direction[1], direction[0]))))
    words = surface.along(angle)
    turned = abs(np.sin(np.radians(words - angle)))  # 1 where the word stands square to its arrow
    high = arrow.size * (font.CAP_HEIGHT + font.DESCENT)
    gap, room_across = (arrow.width + 3.0, arrow.room) if turned < _ASLANT else (1.6 * high, arrow.width + 3.0)
    shortest = gap + 2 * _SHAFT
    for clear in (CLEAR[-5:], CLEAR[-2:]):
        for size in (*(s for s in _LENGTHS if shortest < s <= arrow.longest), shortest):
            spot = room.find(size, room_across, angle, near, clear)
            if spot is not None:
                return _drawn_arrow(spot, arrow, gap, words), spot
    return ((), None) if surface.level else _short_arrow(room, angle, near, arrow, surface)


def _short_arrow(
    room: Room, angle: float, near: tuple[float, float], arrow: _Arrow, surface: Surface
) -> tuple[tuple[Item, ...], Spot | None]:
    """Where the word has no room within the arrow it stands beside it, across."""
    width = arrow.width + _BESIDE
    for size in _SHORT:
        spot = room.find(size, width + arrow.room, angle, near, CLEAR[-2:])
        if spot is not None:
            across = surface.readable(angle + 90.0)
            side = float(np.sign(np.sin(np.radians(across - angle))))  # which way the word reads from the arrow
            x, y = spot.at(0, -side * width / 2)
            drawn = _drawn_arrow(Spot(x, y, size, arrow.room, angle), arrow, 0.0, angle)[:-1]
            start = Spot(*spot.at(0, side * (_BESIDE - width / 2)), 0, 0, across).at(0, arrow.size * 0.36)
            return (*drawn, Label(arrow.word, *start, arrow.size, "start", across)), spot
    return (), None


def _drawn_arrow(spot: Spot, arrow: _Arrow, gap: float, words: float) -> tuple[Item, ...]:
    end, half = spot.width / 2, gap / 2
    shaft_end = end - HEAD * 0.8 if arrow.filled else end
    shafts = tuple(lines_through([spot.at(s * half, 0), spot.at(s * shaft_end, 0)]) for s in (-1, 1))
    width = 1.4 if arrow.filled else 1.7
    heads = tuple(
        lines_through(
            [spot.at(s * (end - HEAD), -width), spot.at(s * end, 0), spot.at(s * (end - HEAD), width)], arrow.filled
        )
        for s in (-1, 1)
    )
    x, y = Spot(spot.x, spot.y, 0, 0, words).at(0, arrow.size * font.CAP_HEIGHT / 2)
    label = Label(arrow.word, x, y, arrow.size, "middle", words)
    if arrow.filled:
        return (
            Path(shafts, line_styles.sign_stroke()),
            Path(heads, fill=line_styles.sign_stroke().colour, closed=True),
            label,
        )
    return Path(shafts + heads, line_styles.sign_stroke()), label
