"""Places for the names of sizes beside their cutting lines: along each line, on both sides, clear of all else."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, lru_cache
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.geometry import cubic
from draft.geometry.ruler import Ruler, places_along
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT
from draft.paper.drawing.room import Spot
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST

NAME_SIZE = SMALLEST * PT
STEPS = 48
"""A line is looked at in so many places for each tag along it, on both sides."""
_AIR = 0.7
"""Between a tag and the middle of any line, in mm."""
_SAME_LINE = 0.6
"""Nearer than this many mm to another size's line, a tag would not say which of the two it names."""
_FEW = 3
"""Of the places with room so many are offered first, those of all tags together."""
_SIDES = np.array([-1, 1])
_RIGHT, _DOWN = np.array([-1, 1, 1, -1, -1]), np.array([-1, -1, 1, 1, -1])


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


def name_wide(name: str, surface: Surface, bold: bool = True) -> float:
    """How wide the name of a size is set, mm."""
    return _wide(name, surface.enlarged, bold)


@lru_cache(maxsize=256)
def _wide(name: str, enlarged: float, bold: bool) -> float:
    return font.text_width(name, NAME_SIZE * enlarged, bold=bold)


def name_high(surface: Surface) -> float:
    """How high it is set, mm."""
    return NAME_SIZE * (font.CAP_HEIGHT + font.DESCENT) * surface.enlarged


@dataclass(frozen=True)
class Wish:
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


@dataclass(frozen=True)
class Beside:
    """Points `(n, 2)` of a line with its directions there, from the nearest on; whether they are all that there are."""

    size: int
    points: Floats
    directions: Floats
    whole: bool

    def enough(self, most: int) -> bool:
        """Whether there are points for so many places, or no more points."""
        return self.whole or len(self.points) >= most // 2


_STEPS = np.arange(STEPS)
_SOONER = (_STEPS + 1) // 2 * np.where(_STEPS % 2, 1, -1)


def points_beside(wishes: Sequence[Wish], sizes: Sequence[Tagged], steps: int) -> list[Beside]:
    """For each wish its points within so many steps that lie apart from the lines of other sizes."""
    import shapely

    if not wishes:
        return []
    middles, spans, wanted = np.array([(wish.middle, wish.span, wish.at) for wish in wishes]).T[..., None]
    at = wanted + spans / (STEPS / 2) * _SOONER[:steps]
    here = np.abs(at - middles) <= spans / 2
    counts = here.sum(axis=1)
    points, directions = places_along([wish.ruler for wish in wishes], [a[h] for a, h in zip(at, here, strict=True)])
    others = np.array([size.others for size in sizes])[np.repeat([wish.size for wish in wishes], counts)]
    apart = ~shapely.dwithin(others, shapely.points(points), _SAME_LINE)
    apart &= cubic.norm(directions) > 0  # an edge that has no length in this size
    ends = np.cumsum(counts)
    parts = [slice(end - count, end) for end, count in zip(ends.tolist(), counts.tolist(), strict=True)]
    whole = steps == STEPS
    return [
        Beside(wish.size, points[part][apart[part]], directions[part][apart[part]], whole)
        for wish, part in zip(wishes, parts, strict=True)
    ]


@dataclass(frozen=True)
class TagPlaces:
    """Places for a tag beside points of a line, first on the one side of each and then on the other.

    Their middles `(n, 2)`, the ways that the line runs there, their shapes `(n,)` and which are clear of all lines.
    """

    middles: Floats
    directions: Floats
    shapes: Any
    good: Bools
    whole: bool
    """Whether there are no more."""

    @cached_property
    def chosen(self) -> Ints:
        """The numbers `(n,)` of the first few that are clear."""
        return np.flatnonzero(self.good)[:_FEW]

    def spot(self, number: int, width: float, surface: Surface) -> Spot:
        """One of the places."""
        (x, y), along = self.middles[number].tolist(), self.directions[number // 2]
        angle = surface.along(float(np.degrees(np.arctan2(along[1], along[0]))))
        return Spot(x, y, width, name_high(surface), angle)


def fitting(
    beside: Sequence[Beside], most: int, sizes: Sequence[Tagged], clutter: Clutter, surface: Surface
) -> list[TagPlaces]:
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
    corners = tag_corners(middles, np.repeat(directions, 2, axis=0), np.repeat(widths, 2), surface, _AIR)
    fits = ~clutter.cross(corners[:, :2].mean(axis=1), corners[:, 2:4].mean(axis=1))  # most are told apart so
    every = np.empty(len(fits), dtype=object)
    every[fits] = shapely.polygons(corners[fits])
    inside = np.array([size.inside for size in sizes])[np.repeat(of, 2)]
    fits[fits] = shapely.contains(inside[fits], every[fits])
    fits[fits] = clutter.off_lines(every[fits])
    found, ends = list[TagPlaces](), np.cumsum(counts).tolist()
    for one, end, count in zip(beside, ends, counts.tolist(), strict=True):
        part, whole = slice(2 * (end - count), 2 * end), one.whole and count == len(one.points)
        found.append(TagPlaces(middles[part], directions[end - count : end], every[part], fits[part], whole))
    return found


def _middles(points: Floats, directions: Floats, widths: float | Floats, surface: Surface) -> Floats:
    """Of the tags on both sides of points of lines, `(2n, 2)`."""
    ways = cubic.right_of(directions)
    off = np.reshape(surface.reach(ways, widths, name_high(surface)), (-1, 1, 1)) + _AIR * surface.enlarged + 0.1
    sides = points[:, None] + ways[:, None] * _SIDES[:, None] * off
    return np.asarray(sides.reshape(-1, 2))


def tag_corners(middles: Floats, directions: Floats, widths: Floats, surface: Surface, air: float) -> Floats:
    """Tags about middles beside a line as closed rectangles `(n, 5, 2)`, grown by what is kept clear about them."""
    wide, high = widths / 2 + air, name_high(surface) / 2 + air
    along = directions / cubic.norm(directions)[:, None]  # the rectangle is the same whichever way it is read
    if surface.level:
        turn = np.radians(surface.upright)
        along = np.broadcast_to(np.array([np.cos(turn), np.sin(turn)]), along.shape)
    across = np.stack([-along[:, 1], along[:, 0]], axis=1)
    right, down = along * wide[:, None], across * high
    return np.asarray(middles[:, None] + (right[:, None] * _RIGHT[:, None] + down[:, None] * _DOWN[:, None]))
