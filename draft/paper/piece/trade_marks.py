"""The marks of the trade: fold, grain, greatest stretch and notches (common practice)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Notch, Piece
from draft.geometry import cubic
from draft.geometry.outline_parts import ON_LINE
from draft.geometry.ruler import Ruler
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path, chain
from draft.paper.drawing.room import CLEAR, Room, Spot, label_spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece.page_edges import Pages

ARROW_WORDS = 10.0  # points
ARROW_ROOM = 6.0
"""Height kept free along an arrow, in mm: its head and its word."""
_HEAD = 5.0
_SHAFT = 7.0  # the least that reads as an arrow on each side of its word
_LENGTHS = (260.0, 220.0, 170.0, 130.0, 100.0, 75.0, 55.0, 40.0, 30.0)
_LONGEST_STRETCH = 130.0  # the grain is laid against the cloth and wants length; the stretch is only pointed out
_SHORT = (22.0, 18.0, 15.0, 12.0)
_BESIDE = 3.0

FOLD_IN = 11.0
"""How far the fold bracket stands inside the fold, in mm."""
_FOLD_DEEPER = (0.0, 6.0, 12.0, 18.0)
"""By so many mm further in where the edge of a page runs along the fold."""
FOLD_LONGEST = 240.0
_FOLD_LARGEST = 2.0  # larger words would stand over the bracket

NOTCH = 5.0
"""Length of a notch in mm; never more than half of the allowance, so that a snip stays well clear of the seam. Beside a
corner the cutting line may come nearer than the allowance: then it is half of what is there."""
NOTCH_PART = 0.45
NOTCH_OUT = 4.0  # where there is no allowance to snip into, the mark stands outside the edge
NOTCH_APART = 5.0


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


def grain(
    room: Room, direction: Floats, near: tuple[float, float], wording: Wording, pages: Pages
) -> tuple[tuple[Item, ...], Spot | None]:
    """The grain line with a filled head at each end, and where it lies. `direction` `(2,)` has y down."""
    return _arrow(room, direction, near, _Arrow(wording.say("piece.grain"), True, _LENGTHS[0], pages.enlarged), pages)


def stretch(
    room: Room, direction: Floats, near: tuple[float, float], wording: Wording, pages: Pages
) -> tuple[tuple[Item, ...], Spot | None]:
    """The arrow of greatest stretch, with open heads, and where it lies. `direction` `(2,)` has y down."""
    arrow = _Arrow(wording.say("piece.stretch"), False, _LONGEST_STRETCH * pages.enlarged, pages.enlarged)
    return _arrow(room, direction, near, arrow, pages)


def _arrow(
    room: Room, direction: Floats, near: tuple[float, float], arrow: _Arrow, pages: Pages
) -> tuple[tuple[Item, ...], Spot | None]:
    angle = pages.readable(float(np.degrees(np.arctan2(direction[1], direction[0]))))
    gap = arrow.width + 3.0
    shortest = gap + 2 * _SHAFT
    for clear in (CLEAR[-5:], CLEAR[-2:]):
        for size in (*(s for s in _LENGTHS if shortest < s <= arrow.longest), shortest):
            spot = room.find(size, arrow.room, angle, near, clear)
            if spot is not None:
                return _drawn_arrow(spot, arrow, gap), spot
    return _short_arrow(room, angle, near, arrow, pages)


def _short_arrow(
    room: Room, angle: float, near: tuple[float, float], arrow: _Arrow, pages: Pages
) -> tuple[tuple[Item, ...], Spot | None]:
    """Where the word has no room within the arrow it stands beside it, across."""
    width = arrow.width + _BESIDE
    for size in _SHORT:
        spot = room.find(size, width + arrow.room, angle, near, CLEAR[-2:])
        if spot is not None:
            across = pages.readable(angle + 90.0)
            side = float(np.sign(np.sin(np.radians(across - angle))))  # which way the word reads from the arrow
            x, y = spot.at(0, -side * width / 2)
            drawn = _drawn_arrow(Spot(x, y, size, arrow.room, angle), arrow, 0.0)[:-1]
            start = Spot(*spot.at(0, side * (_BESIDE - width / 2)), 0, 0, across).at(0, arrow.size * 0.36)
            return (*drawn, Label(arrow.word, *start, arrow.size, "start", across)), spot
    return (), None


def _drawn_arrow(spot: Spot, arrow: _Arrow, gap: float) -> tuple[Item, ...]:
    end, half = spot.width / 2, gap / 2
    shaft_end = end - _HEAD * 0.8 if arrow.filled else end
    shafts = tuple(chain([spot.at(s * half, 0), spot.at(s * shaft_end, 0)]) for s in (-1, 1))
    width = 1.4 if arrow.filled else 1.7
    heads = tuple(
        chain(
            [spot.at(s * (end - _HEAD), -width), spot.at(s * end, 0), spot.at(s * (end - _HEAD), width)], arrow.filled
        )
        for s in (-1, 1)
    )
    x, y = spot.at(0, arrow.size * font.CAP_HEIGHT / 2)
    label = Label(arrow.word, x, y, arrow.size, "middle", spot.angle)
    if arrow.filled:
        return Path(shafts, line_styles.mark()), Path(heads, fill=line_styles.mark().colour, closed=True), label
    return Path(shafts + heads, line_styles.mark()), label


def fold(
    start: Floats, end: Floats, inside: Floats, within: Any, wording: Wording, pages: Pages
) -> tuple[tuple[Item, ...], Any]:
    """The fold bracket and its words between two points of the fold, and the shape it takes up.

    The arrows point at the fold; `inside` is the unit vector `(2,)` from the fold into the piece, and `within` the
    shape that holds the words. They stand on one page if they have room on one.
    """
    for deeper in _FOLD_DEEPER if pages.edges is not None else ():
        for stretch in (*_on_one_page(start, end, inside * (FOLD_IN / 2 + deeper), pages), (start, end)):
            items, taken = _bracket(*stretch, inside, deeper, wording, pages)
            words = label_spot(items[-1]).shape()
            if not pages.cross(words) and within.contains(words):
                return items, taken
    return _bracket(start, end, inside, 0.0, wording, pages)


def _on_one_page(start: Floats, end: Floats, aside: Floats, pages: Pages) -> list[tuple[Floats, Floats]]:
    """The parts of the fold between two points whose words, so far `aside`, lie on one page each, the longest first."""
    import shapely

    left = pages.off(shapely.LineString([start + aside, end + aside]), _BESIDE)
    parts = sorted((part for part in shapely.get_parts(left) if part.length > 0), key=lambda part: -round(part.length))
    ends = [(np.array(part.coords[0]) - aside, np.array(part.coords[-1]) - aside) for part in parts]
    return [(a, b) if cubic.dot(b - a, end - start) > 0 else (b, a) for a, b in ends]


def _bracket(
    start: Floats, end: Floats, inside: Floats, deeper: float, wording: Wording, pages: Pages
) -> tuple[tuple[Path, Path, Label], Any]:
    import shapely

    along, middle = cubic.unit(end - start), (start + end) / 2
    reach = min(FOLD_LONGEST, 0.6 * float(cubic.norm(end - start))) / 2
    a, b = middle - along * reach, middle + along * reach
    tips = [p + inside * 1.0 for p in (a, b)]
    corners = [p + inside * (FOLD_IN + deeper) for p in (a, b)]
    bracket = chain([tips[0], corners[0], corners[1], tips[1]])
    heads = tuple(
        chain([t + inside * _HEAD - along * 1.4, t, t + inside * _HEAD + along * 1.4], closed=True) for t in tips
    )
    taken = shapely.LineString([a, b]).buffer(FOLD_IN + deeper + 5, cap_style="flat")
    label = _fold_words(middle + inside * deeper, along, inside, wording, pages)
    return (
        Path((bracket,), line_styles.mark()),
        Path(heads, fill=line_styles.mark().colour, closed=True),
        label,
    ), taken


def _fold_words(middle: Floats, along: Floats, inside: Floats, wording: Wording, pages: Pages) -> Label:
    size = (ARROW_WORDS + 1) * PT * min(pages.enlarged, _FOLD_LARGEST)
    angle = pages.readable(float(np.degrees(np.arctan2(along[1], along[0]))))
    turn = np.radians(angle)
    down = np.array([-np.sin(turn), np.cos(turn)])
    x, y = middle + inside * (FOLD_IN + 1.0) / 2 + down * size * font.CAP_HEIGHT / 2
    return Label(wording.say("piece.place_on_fold"), float(x), float(y), size, "middle", angle)


def notch(piece: Piece, body: int, mark: Notch, cutting: Any, outward: float) -> tuple[Floats, ...]:
    """The strokes of a notch as straight segments `(1, 4, 2)`, y up as in the piece.

    `cutting` is the cutting outline as a shapely ring; `outward` is 1 where the outline runs counterclockwise, else -1.
    """
    edge = piece.edge(mark.edge)
    first = float(mark.at[body]) - NOTCH_APART * (mark.strokes - 1) / 2
    return tuple(
        stroke(edge.segments[body], first + NOTCH_APART * k, edge.allowance, cutting, outward)
        for k in range(mark.strokes)
    )


def stroke(segments: Floats, at: float, allowance: float, cutting: Any, outward: float) -> Floats:
    """One stroke of a notch `(1, 4, 2)`, y up, at distance `at` along an edge; see `notch`."""
    point, direction = Ruler(segments).place(at)
    normal = cubic.right_of(direction) * outward
    if allowance <= ON_LINE:
        return chain([point, point + normal * NOTCH_OUT])
    edge = _cutting_point(point, normal, allowance, cutting)
    return chain([edge, edge - normal * min(NOTCH, NOTCH_PART * float(cubic.norm(edge - point)))])


def _cutting_point(point: Floats, normal: Floats, allowance: float, cutting: Any) -> Floats:
    """Where a line square to the edge meets the cutting line; the allowance's own width off if it misses it."""
    import shapely

    ray = shapely.LineString([point + normal * ON_LINE, point + normal * allowance * 2.0])
    met = np.asarray(shapely.get_coordinates(ray.intersection(cutting)))
    if not len(met):
        return point + normal * allowance
    return np.asarray(met[np.argmin(cubic.norm(met - point))])
