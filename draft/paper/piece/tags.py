"""Size tags: the size's name beside its own cutting line, where no other line or word is in the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.geometry import cubic
from draft.geometry.ruler import Ruler, places_along
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import Spot, words_at
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST

_SIZE = SMALLEST * PT
_AIR = 0.7
"""Between a tag and the middle of any line, in mm."""
_APART = 170.0
"""One tag for about so much of a cutting line, in mm: at least one shows on most printed pages."""
_SAME_LINE = 0.6
"""Nearer than this many mm to another size's line, a tag would not say which of the two it names."""
_TRIES = 24
_SIDES = np.array([-1, 1])
_RIGHT, _DOWN = np.array([-1, 1, 1, -1, -1]), np.array([-1, -1, 1, 1, -1])
_LOOKED_AT = (4, 16, 4 * _TRIES)
"""Most tags find room in one of so many places; where it is crowded, more are looked at."""
_NEAREST = 4
"""And so many steps from where it is wanted are enough for the first of these."""
_STEPS_TO = (12, 2 * _TRIES)
"""So many mostly for the rest."""


def without_each(lines: Sequence[Sequence[Floats]]) -> tuple[Any, ...]:
    """For each size the polylines of points `(n, 2)` of all others as one shapely line: how far away do they run?"""
    import shapely

    every = [line for some in lines for line in some]
    of = np.repeat(np.arange(len(every)), [len(line) for line in every])
    parts = shapely.linestrings(np.concatenate(every), indices=of)
    size = np.repeat(np.arange(len(lines)), [len(some) for some in lines])
    found = tuple(shapely.multilinestrings(parts[size != number]) for number in range(len(lines)))
    for one in found:
        shapely.prepare(one)
    return found


@dataclass(frozen=True)
class Tagged:
    """One size: its name, which of those drawn together it is, and what measures each line that bears the name.

    Tags stand `inside` the size's own outline, and only where its lines run apart from the `others`.
    """

    name: str
    index: int
    rulers: Sequence[Ruler]
    inside: Any
    others: Any


@dataclass(frozen=True)
class Missed:
    """A tag of a size that found no room: which of its lines, and which of so many tags along that."""

    size: int
    line: int
    tag: int
    tags: int


def tags_of(sizes: Sequence[Tagged], clutter: Clutter, surface: Surface) -> tuple[list[list[Label]], list[Missed]]:
    """The tags of each size, and those without room. The nearest places of each are looked at for all at once."""
    wishes = [wish for number, size in enumerate(sizes) for wish in _wishes(number, size, len(sizes), surface)]
    found: list[list[Label]] = [[] for _ in sizes]
    missed = list[Missed]()
    for wish, one in zip(wishes, _looked_at(wishes, sizes, clutter, surface), strict=True):
        number = clutter.first_apart(one.shapes, one.good)
        if number is None and not one.whole:
            (one,) = _fitting(_beside([wish], sizes, 2 * _TRIES), 4 * _TRIES, sizes, clutter, surface)
            number = clutter.first_apart(one.shapes, one.good)
        if number is not None:
            spot = one.spot(number, name_wide(sizes[wish.size].name, surface), surface)
            clutter.take(spot.shape(1.0))
            found[wish.size].append(name_of_size(sizes[wish.size].name, sizes[wish.size].index, spot, surface))
        elif len(one.shapes):
            missed.append(Missed(wish.size, *wish.which))
    return found, missed


def _looked_at(wishes: Sequence[_Wish], sizes: Sequence[Tagged], clutter: Clutter, surface: Surface) -> list[_Places]:
    """For each wish its nearest places, and whether each is clear of all lines: more where none is."""
    found = _fitting(_beside(wishes, sizes, _NEAREST), _LOOKED_AT[0], sizes, clutter, surface)
    points: dict[int, _Beside] = {}
    for steps, most in zip(_STEPS_TO, _LOOKED_AT[1:], strict=True):
        still = [k for k, one in enumerate(found) if not one.good.any() and not one.whole]
        few = [k for k in still if k not in points or not points[k].enough(most)]
        points |= dict(zip(few, _beside([wishes[k] for k in few], sizes, steps), strict=True))
        few = [k for k in few if not points[k].enough(most)]
        points |= dict(zip(few, _beside([wishes[k] for k in few], sizes, 2 * _TRIES), strict=True))
        looked = _fitting([points[k] for k in still], most, sizes, clutter, surface)
        for k, one in zip(still, looked, strict=True):
            found[k] = one
    return found


def name_of_size(name: str, index: int, spot: Spot, surface: Surface, bold: bool = True) -> Label:
    """The name of a size in its place, in the ink of its cutting line; `index` is which of those drawn it is."""
    ink = line_styles.cutting_stroke(index).colour
    return words_at(spot, name, _SIZE * surface.enlarged, bold=bold, colour=ink)


@lru_cache(maxsize=256)
def name_wide(name: str, surface: Surface, bold: bool = True) -> float:
    """How wide the name of a size is set, mm."""
    return font.text_width(name, _SIZE * surface.enlarged, bold=bold)


def name_high(surface: Surface) -> float:
    """How high it is set, mm."""
    return _SIZE * (font.CAP_HEIGHT + font.DESCENT) * surface.enlarged


@dataclass(frozen=True)
class _Wish:
    """A tag wished for: its size, and the line along which it is to stand, for `span` mm about `middle`.

    It is wanted nearest to `at`, and looked for in steps to both sides of that.
    """

    size: int
    ruler: Ruler
    middle: float
    span: float
    at: float
    which: tuple[int, int, int]
    """Which line of the size that is, and which of so many tags along it."""


def _wishes(number: int, size: Tagged, count: int, surface: Surface) -> Iterator[_Wish]:
    """The tags of one size: one for so much of each of its lines, in the size's turn in the row of tags."""
    turn = (size.index - (count - 1) / 2) * (name_wide(size.name, surface) + 3.0) * 0.8
    for line, ruler in enumerate(size.rulers):
        tags = max(1, round(ruler.length / (_APART * surface.enlarged)))
        span = ruler.length / tags
        for tag, middle in enumerate((ruler.length * (np.arange(tags) + 0.5) / tags).tolist()):
            yield _Wish(number, ruler, middle, span, middle + turn, (line, tag, tags))


@dataclass(frozen=True)
class _Beside:
    """Points `(n, 2)` of a line with its directions there, from the nearest on; whether they are all that there are."""

    size: int
    points: Floats
    directions: Floats
    whole: bool

    def enough(self, most: int) -> bool:
        """Whether there are points for so many places, or no more points."""
        return self.whole or len(self.points) >= most // 2


_STEPS = np.arange(2 * _TRIES)
_SOONER = (_STEPS + 1) // 2 * np.where(_STEPS % 2, 1, -1)


def _beside(wishes: Sequence[_Wish], sizes: Sequence[Tagged], steps: int) -> list[_Beside]:
    """For each wish its points within so many steps that lie apart from the lines of other sizes."""
    import shapely

    if not wishes:
        return []
    middles, spans, wanted = np.array([(wish.middle, wish.span, wish.at) for wish in wishes]).T[..., None]
    at = wanted + spans / _TRIES * _SOONER[:steps]
    here = np.abs(at - middles) <= spans / 2
    counts = here.sum(axis=1)
    points, directions = places_along([wish.ruler for wish in wishes], [a[h] for a, h in zip(at, here, strict=True)])
    others = np.array([size.others for size in sizes])[np.repeat([wish.size for wish in wishes], counts)]
    apart = ~shapely.dwithin(others, shapely.points(points), _SAME_LINE)
    apart &= cubic.norm(directions) > 0  # an edge that has no length in this size
    ends = np.cumsum(counts)
    parts = [slice(end - count, end) for end, count in zip(ends.tolist(), counts.tolist(), strict=True)]
    whole = steps == 2 * _TRIES
    return [
        _Beside(wish.size, points[part][apart[part]], directions[part][apart[part]], whole)
        for wish, part in zip(wishes, parts, strict=True)
    ]


@dataclass(frozen=True)
class _Places:
    """Places for a tag beside points of a line, first on the one side of each and then on the other.

    Their middles `(n, 2)`, the ways that the line runs there, their shapes `(n,)` and which are clear of all lines.
    """

    middles: Floats
    directions: Floats
    shapes: Any
    good: Bools
    whole: bool
    """Whether there are no more."""

    def spot(self, number: int, width: float, surface: Surface) -> Spot:
        """One of the places."""
        (x, y), along = self.middles[number].tolist(), self.directions[number // 2]
        angle = surface.along(float(np.degrees(np.arctan2(along[1], along[0]))))
        return Spot(x, y, width, name_high(surface), angle)


def _fitting(
    beside: Sequence[_Beside], most: int, sizes: Sequence[Tagged], clutter: Clutter, surface: Surface
) -> list[_Places]:
    """So many places of each wish, and which of them lie inside their size's outline and clear of all lines."""
    import shapely

    if not beside:
        return []
    points = np.concatenate([one.points[: most // 2] for one in beside])
    directions = np.concatenate([one.directions[: most // 2] for one in beside])
    counts = np.array([min(len(one.points), most // 2) for one in beside])
    of = np.repeat([one.size for one in beside], counts)
    widths = np.array([name_wide(size.name, surface) for size in sizes])[of]
    middles = _middles(points, directions, widths, surface)
    corners = _corners(middles, directions, widths, surface)
    fits = ~clutter.cross(corners[:, :2].mean(axis=1), corners[:, 2:4].mean(axis=1))  # most are told apart so
    every = np.empty(len(fits), dtype=object)
    every[fits] = shapely.polygons(corners[fits])
    inside = np.array([size.inside for size in sizes])[np.repeat(of, 2)]
    fits[fits] = shapely.contains(inside[fits], every[fits])
    fits[fits] = clutter.off_lines(every[fits])
    found, ends = list[_Places](), np.cumsum(counts).tolist()
    for one, end, count in zip(beside, ends, counts.tolist(), strict=True):
        part, whole = slice(2 * (end - count), 2 * end), one.whole and count == len(one.points)
        found.append(_Places(middles[part], directions[end - count : end], every[part], fits[part], whole))
    return found


def _middles(points: Floats, directions: Floats, widths: float | Floats, surface: Surface) -> Floats:
    """Of the tags on both sides of points of lines, `(2n, 2)`."""
    ways = cubic.right_of(directions)
    off = np.reshape(surface.reach(ways, widths, name_high(surface)), (-1, 1, 1)) + _AIR * surface.enlarged + 0.1
    sides = points[:, None] + ways[:, None] * _SIDES[:, None] * off
    return np.asarray(sides.reshape(-1, 2))


def _corners(middles: Floats, directions: Floats, widths: Floats, surface: Surface) -> Floats:
    """Tags beside points of lines as closed rectangles `(2n, 5, 2)`, grown by what a tag keeps clear of lines."""
    wide, high = widths / 2 + _AIR, name_high(surface) / 2 + _AIR
    along = directions / cubic.norm(directions)[:, None]  # the rectangle is the same whichever way it is read
    if surface.level:
        turn = np.radians(surface.upright)
        along = np.broadcast_to(np.array([np.cos(turn), np.sin(turn)]), along.shape)
    across = np.stack([-along[:, 1], along[:, 0]], axis=1)
    right, down = along * wide[:, None], across * high
    turned = right[:, None] * _RIGHT[:, None] + down[:, None] * _DOWN[:, None]
    return np.asarray(middles[:, None] + np.repeat(turned, 2, axis=0))
