"""The number, the name and the direction of a piece in a cutting layout, inside it and as large as there is room."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Item, Label, Path, Stroke, Turn, rectangle, straight_lines

_NUMBER = 15.0 * PT
_SMALL = 9.0 * PT
_NAME = 8.0 * PT
_CLEAR = 0.8
_GAP = 1.2
_ARROW = 8.0
_HEAD = 1.6
_LINE = Stroke(0.3)
_AS_ROOMY = 1e-6  # mm: of two sides of a symmetrical piece the first, whatever a machine rounds off
UPPER_END = "upper-end"
"""What the head of the arrow is called."""


def piece_label(number: str, name: str, ring: Floats, up: int, cleared: bool) -> list[Item]:
    """The number with the name under it; beside one another in a band; the number alone where there is no room.

    `ring` is the piece's outline `(n, 2)` in mm. `up` is 1 or -1 where an arrow shows the piece's upper end. `cleared`
    sets white behind the words, over hatching.
    """
    import shapely

    shape = shapely.Polygon(ring).buffer(-_CLEAR)
    if shape.is_empty or shape.geom_type != "Polygon":
        shape = shapely.Polygon(ring)
    middle = _middle(shape)
    for words, arrow in _settings(number, name, up):
        width, height = words.size
        full = width + (2 * _GAP + 2 * _HEAD if arrow else 0.0)
        tall = max(height, _ARROW if arrow else 0.0)
        if _box(middle, full, tall).within(shape):
            return words.items(middle, cleared, up if arrow else 0)
        long = width + (_GAP + _ARROW if arrow else 0.0)
        if not (words.stacked and words.name) and _box(middle, max(height, _HEAD), long).within(shape):
            aside = Turn(3, float(middle[0]), float(middle[1]))
            return [item.moved(aside) for item in words.along(long, cleared, up if arrow else 0)]
    alone = _Words(number, "", _NAME, stacked=True)
    width, height = alone.size
    low_x, low_y, high_x, high_y = shape.bounds
    if not _box(middle, width, height).within(shape) and width > height and high_y - low_y > high_x - low_x:
        aside = Turn(3, float(middle[0]), float(middle[1]))  # along a narrow piece, rather than over those beside it
        return [item.moved(aside) for item in alone.items(np.zeros(2), cleared, 0)]
    return alone.items(middle, cleared, 0)


def side_label(text: str, side: str, line: Floats, on_left: bool) -> Label:
    """The words beside a line along the cloth, from its lower end to its upper one `(2, 2)`; on it where edges meet."""
    if side == "meeting":
        return Label(text, float(line[1, 0]), float(line[1, 1]) - 2.0, _SMALL, "middle", id=f"side-{side}")
    across, along = line.mean(axis=0).tolist()
    aside = -2.5 if on_left else 2.5 + _SMALL * font.CAP_HEIGHT
    return Label(text, across + aside, along, _SMALL, "middle", angle=270.0, bold=side == "fold", id=f"side-{side}")


class _Words:
    """A number and a name, over one another or side by side."""

    def __init__(self, number: str, name: str, large: float, stacked: bool) -> None:
        self.number, self.name, self.large, self.stacked = number, name, large, stacked

    @property
    def size(self) -> tuple[float, float]:
        number = font.text_width(self.number, self.large, bold=True)
        name = font.text_width(self.name, _NAME) if self.name else 0.0
        tall = self.large * font.CAP_HEIGHT
        if not self.name:
            return number, tall
        if self.stacked:
            return max(number, name), tall + _GAP + _NAME * (font.CAP_HEIGHT + font.DESCENT)
        return number + _GAP + name, max(tall, _NAME * (font.CAP_HEIGHT + font.DESCENT))

    def items(self, middle: Floats, cleared: bool, up: int) -> list[Item]:
        width, height = self.size
        x, y = float(middle[0]), float(middle[1])
        room = (x - width / 2 - _CLEAR, y - height / 2 - _CLEAR, width + 2 * _CLEAR, height + 2 * _CLEAR)
        items: list[Item] = [Path((rectangle(*room),), None, "#ffffff", closed=True)] if cleared else []
        tall = self.large * font.CAP_HEIGHT
        if self.stacked or not self.name:
            items.append(Label(self.number, x, y - height / 2 + tall, self.large, "middle", bold=True))
            if self.name:
                items.append(Label(self.name, x, y + height / 2 - _NAME * font.DESCENT, _NAME, "middle"))
        else:
            left = x - width / 2
            items.append(Label(self.number, left, y + tall / 2, self.large, bold=True))
            after = left + font.text_width(self.number, self.large, bold=True) + _GAP
            items.append(Label(self.name, after, y + _NAME * font.CAP_HEIGHT / 2, _NAME))
        return [*items, *(_arrow(x + width / 2 + _GAP + _HEAD, y, up) if up else [])]

    def along(self, long: float, cleared: bool, up: int) -> list[Item]:
        """The words along a narrow piece as if that lay across, around 0; behind them an arrow along it."""
        width = self.size[0]
        items = self.items(np.array([(width - long) / 2, 0.0]), cleared, 0)
        return [*items, *(_arrow_across(long / 2 - _ARROW / 2, up) if up else [])]


def _settings(number: str, name: str, up: int) -> list[tuple[_Words, bool]]:
    """From the most generous setting to the least; a direction is kept as long as anything."""
    full = [_Words(number, name, _NUMBER, True), _Words(number, name, _SMALL, True)]
    side = _Words(number, name, _SMALL, False)
    bare = [_Words(number, "", size, True) for size in (_NUMBER, _SMALL, _NAME)]
    every = [*full, side, *bare]
    return [(words, True) for words in every if up] + [(words, False) for words in every]


def _arrow(x: float, y: float, up: int) -> list[Item]:
    top, bottom = y - up * _ARROW / 2, y + up * _ARROW / 2
    head = [(x - _HEAD / 2, top + up * _HEAD), (x, top), (x + _HEAD / 2, top + up * _HEAD)]
    return [
        straight_lines([[(x, bottom), (x, top)]], _LINE),
        Path((lines_through(head, closed=True),), None, "#000000", closed=True, id=UPPER_END),
    ]


def _arrow_across(x: float, up: int) -> list[Item]:
    """An arrow whose middle is at `x`, across the words: it is turned with them, and points along the cloth then."""
    return [item.moved(Turn(1, x, 0.0)) for item in _arrow(0.0, 0.0, up)]


def _middle(shape: Any) -> Floats:
    """The roomiest place of a shape: nearest to its middle among those about as far from its outline."""
    import shapely

    low_x, low_y, high_x, high_y = shape.bounds
    across, along = np.meshgrid(np.linspace(low_x, high_x, _PLACES), np.linspace(low_y, high_y, _PLACES))
    points = np.stack([across, along], axis=-1)
    inside = shapely.contains_xy(shape, across, along)
    if not inside.any():
        return np.asarray(shapely.get_coordinates(shape.representative_point())[0])
    off = np.hypot(*np.moveaxis(points - np.array([(low_x + high_x) / 2, (low_y + high_y) / 2]), -1, 0))
    room = _roominess(shape.boundary, points, inside, off)
    best: Floats = points[np.unravel_index(int(np.argmax(room > room.max() - _AS_ROOMY)), room.shape)]
    return best


_PLACES = 41
_EVERY = 4
_DEEP = 12.0
"""Further from the outline than this no place is any roomier, mm."""
_PULL = 0.05


def _roominess(outline: Any, points: Floats, inside: Bools, off: Floats) -> Floats:
    """How roomy each place `(rows, columns, 2)` inside is; nothing of others, and of those that cannot be the roomiest.

    A place is no further from the outline than another, and so far as they are apart: where every fourth place has
    been measured, few others can be better.
    """
    import shapely

    near = np.round(np.arange(_PLACES) / _EVERY).astype(int) * _EVERY
    measured = np.zeros(inside.shape, dtype=bool)
    measured[::_EVERY, ::_EVERY] = True
    depth, room = np.zeros(inside.shape), np.full(inside.shape, -np.inf)

    def measure(which: Bools) -> None:
        depth[which] = shapely.distance(outline, shapely.points(points[which]))
        room[which] = np.minimum(depth[which], _DEEP) - _PULL * off[which]

    measure(inside & measured)
    neighbour = np.ix_(near, near)
    most = depth[neighbour] + np.hypot(*np.moveaxis(points - points[neighbour], -1, 0))
    hopeful = np.minimum(most, _DEEP) - _PULL * off >= room.max() - 2 * _AS_ROOMY
    measure(inside & ~measured & hopeful)
    return room


def _box(middle: Floats, width: float, height: float) -> Any:
    import shapely

    x, y = middle
    return shapely.box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
