"""Size tags: the size's name beside its own cutting line, where no other line or word is in the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field
from itertools import islice
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.geometry import cubic
from draft.geometry.ruler import Ruler
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import Spot, words_at
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


@dataclass
class Clutter:
    """What tags must keep clear of: lines as shapely shapes, and the tags already placed."""

    lines: Sequence[Any]
    placed: list[Any] = field(default_factory=list)

    def __post_init__(self) -> None:
        import shapely

        parts = shapely.get_parts(np.array(list(self.lines), dtype=object))
        thin = shapely.get_dimensions(parts) == 1
        self._lines = shapely.multilinestrings(parts[thin])
        shapely.prepare(self._lines)
        self._tree = shapely.STRtree(parts[~thin])

    def free(self, shapes: Any) -> Bools:
        """Which of the shapes `(n,)` touch none of them."""
        import shapely

        free = self.off_lines(shapes)
        if self.placed:
            free[free] = ~shapely.intersects(shapes[free][:, None], np.array(self.placed)[None]).any(axis=1)
        return free

    def off_lines(self, shapes: Any) -> Bools:
        """Which of the shapes `(n,)` touch none of the lines, wherever tags are."""
        import shapely

        free = ~shapely.intersects(self._lines, shapes)
        if len(self._tree.geometries):
            free[self._tree.query(shapes, predicate="intersects")[0]] = False
        return np.asarray(free)

    def within(self, shape: Any) -> Any:
        """All lines and tags `(n,)` that touch a shape."""
        import shapely

        every = np.array([*self.lines, *self.placed], dtype=object)
        return every[shapely.intersects(every, shape)]

    def off_words(self, lines: Any, crossing: bool = False) -> Bools:
        """Which of the lines `(n,)` run through no word, wherever they cross drawn lines.

        They may be `crossing` lines already placed too, those that lead to tags.
        """
        import shapely

        off = np.ones(len(lines), dtype=bool)
        if len(self._tree.geometries):
            off[self._tree.query(lines, predicate="intersects")[0]] = False
        placed = [one for one in self.placed if not crossing or one.geom_type != "LineString"]
        if placed:
            off &= ~shapely.intersects(lines[:, None], np.array(placed)[None]).any(axis=1)
        return off

    def first_apart(self, shapes: Any, good: Bools) -> int | None:
        """The number of the first of the good ones among shapes `(n,)` that touches no tag already placed."""
        import shapely

        for number in np.flatnonzero(good).tolist():
            if not self.placed or not shapely.intersects(shapes[number], np.array(self.placed)).any():
                return int(number)
        return None

    def take(self, shape: Any) -> None:
        """Keep later tags off this shape."""
        self.placed.append(shape)


def as_one_line(polylines: Sequence[Floats]) -> Any:
    """Polylines of points `(n, 2)` as one shapely line, for measuring how far away they run."""
    import shapely

    lines = shapely.MultiLineString(list(polylines))
    shapely.prepare(lines)
    return lines


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


def tags_of(sizes: Sequence[Tagged], clutter: Clutter, surface: Surface) -> list[list[Label]]:
    """The tags of each size. Where the nearest places of each are free is looked at for all at once."""
    wished = _wished(sizes, surface)
    found: list[list[Label]] = [[] for _ in sizes]
    for one, (shapes, good) in zip(wished, _looked_at(wished, sizes, clutter), strict=True):
        number = clutter.first_apart(shapes, good)
        if number is None and len(shapes) < 2 * len(one.points):
            number = _later_free(one, len(shapes), sizes[one.size].inside, clutter)
        if number is not None:
            spot = one.spot(number)
            clutter.take(spot.shape(1.0))
            found[one.size].append(name_of_size(sizes[one.size].name, sizes[one.size].index, spot, surface))
    return found


def _looked_at(wished: Sequence[_Beside], sizes: Sequence[Tagged], clutter: Clutter) -> list[tuple[Any, Bools]]:
    """For each wish the shapes of its nearest places, and whether each is clear of all lines: more if none is."""
    found: list[tuple[Any, Bools]] = [(np.zeros(0, dtype=object), np.zeros(0, dtype=bool))] * len(wished)
    for most in _LOOKED_AT:
        still = [k for k, (_, fits) in enumerate(found) if not fits.any()]
        looked = _fitting([wished[k] for k in still], most, sizes, clutter)
        for k, one in zip(still, looked, strict=True):
            found[k] = one
    return found


def name_of_size(name: str, index: int, spot: Spot, surface: Surface) -> Label:
    """The name of a size in its place, in the ink of its cutting line; `index` is which of those drawn it is."""
    ink = line_styles.cutting_stroke(index).colour
    return words_at(spot, name, _SIZE * surface.enlarged, bold=True, colour=ink)


def name_wide(name: str, surface: Surface) -> float:
    """How wide the name of a size is set, mm."""
    return font.text_width(name, _SIZE * surface.enlarged, bold=True)


def name_high(surface: Surface) -> float:
    """How high it is set, mm."""
    return _SIZE * (font.CAP_HEIGHT + font.DESCENT) * surface.enlarged


def _wished(sizes: Sequence[Tagged], surface: Surface) -> list[_Beside]:
    """For each tag wished for its places, nearest first to its size's turn in the row of tags."""
    import shapely

    rows = [row for number, size in enumerate(sizes) for row in _rows(number, size, len(sizes), surface)]
    points = np.concatenate([np.zeros((0, 2)), *(row[2] for row in rows)])
    others = np.array([size.others for size in sizes])[
        np.repeat([row[0] for row in rows], [len(row[2]) for row in rows])
    ]
    apart = iter(~shapely.dwithin(others, shapely.points(points), _SAME_LINE))
    found = []
    for number, width, at, ways in rows:
        keep = np.array(list(islice(apart, len(at))), dtype=bool)
        found.append(_Beside(number, at[keep], ways[keep], width, surface))
    return found


def _rows(number: int, size: Tagged, count: int, surface: Surface) -> Iterator[tuple[int, float, Floats, Floats]]:
    """For each tag wished for its size's number, its width, and points `(n, 2)` of the line with directions there."""
    steps = np.arange(2 * _TRIES)
    sooner = (steps + 1) // 2 * np.where(steps % 2, 1, -1)
    width = name_wide(size.name, surface)
    turn = (size.index - (count - 1) / 2) * (width + 3.0) * 0.8
    for ruler in size.rulers:
        tags = max(1, round(ruler.length / (_APART * surface.enlarged)))
        middles, span = ruler.length * (np.arange(tags) + 0.5) / tags, ruler.length / tags
        at = (middles + turn)[:, None] + span / _TRIES * sooner
        here = np.abs(at - middles[:, None]) <= span / 2
        points, directions = ruler.places(at[here])
        counts = here.sum(axis=1)
        for end, some in zip(np.cumsum(counts).tolist(), counts.tolist(), strict=True):
            yield number, width, points[end - some : end], directions[end - some : end]


def _fitting(
    wished: Sequence[_Beside], most: int, sizes: Sequence[Tagged], clutter: Clutter
) -> list[tuple[Any, Bools]]:
    """The shapes of so many places of each wish, and which lie inside their size's outline and clear of all lines."""
    import shapely

    if not wished:
        return []
    points = [one.points[: most // 2] for one in wished]
    directions = [one.directions[: most // 2] for one in wished]
    numbers = np.repeat(np.arange(len(wished)), [len(some) for some in points])
    widths, counts = np.array([one.width for one in wished]), [2 * len(some) for some in points]
    corners = _corners(np.concatenate(points), np.concatenate(directions), widths[numbers], wished[0].surface)
    every, of = shapely.polygons(corners), np.repeat([one.size for one in wished], counts)
    fits = clutter.off_lines(every)
    inside = np.array([size.inside for size in sizes])
    fits[fits] = shapely.contains(inside[of[fits]], every[fits])
    ends = np.cumsum(counts).tolist()
    return [(every[end - count : end], fits[end - count : end]) for count, end in zip(counts, ends, strict=True)]


@dataclass(frozen=True)
class _Beside:
    """Places for a tag of a size beside the points of a line, first on the one side of each and then on the other."""

    size: int
    points: Floats
    directions: Floats
    width: float
    surface: Surface

    def spot(self, number: int) -> Spot:
        """One of the places."""
        point = slice(number // 2, number // 2 + 1)
        x, y = _middles(self.points[point], self.directions[point], self.width, self.surface)[number % 2]
        along = self.directions[number // 2]
        angle = self.surface.along(float(np.degrees(np.arctan2(along[1], along[0]))))
        return Spot(float(x), float(y), self.width, name_high(self.surface), angle)

    def shapes(self, first: int) -> Any:
        """All places from a number on, an even one, as shapely polygons."""
        import shapely

        points, directions = self.points[first // 2 :], self.directions[first // 2 :]
        return shapely.polygons(_corners(points, directions, self.width, self.surface))


def _middles(points: Floats, directions: Floats, widths: float | Floats, surface: Surface) -> Floats:
    """Of the tags on both sides of points of lines, `(2n, 2)`."""
    ways = cubic.right_of(directions)
    off = np.reshape(surface.reach(ways, widths, name_high(surface)), (-1, 1, 1)) + _AIR * surface.enlarged + 0.1
    sides = points[:, None] + ways[:, None] * _SIDES[:, None] * off
    return np.asarray(sides.reshape(-1, 2))


def _corners(points: Floats, directions: Floats, widths: float | Floats, surface: Surface) -> Floats:
    """Tags beside points of lines as closed rectangles `(2n, 5, 2)`, grown by what a tag keeps clear of lines."""
    wide, high = np.broadcast_to(widths, len(points)) / 2 + _AIR, name_high(surface) / 2 + _AIR
    along = directions / cubic.norm(directions)[:, None]  # the rectangle is the same whichever way it is read
    if surface.level:
        turn = np.radians(surface.upright)
        along = np.broadcast_to(np.array([np.cos(turn), np.sin(turn)]), along.shape)
    across = np.stack([-along[:, 1], along[:, 0]], axis=1)
    right, down = along * wide[:, None], across * high
    turned = right[:, None] * _RIGHT[:, None] + down[:, None] * _DOWN[:, None]
    return np.asarray(_middles(points, directions, widths, surface)[:, None] + np.repeat(turned, 2, axis=0))


def _later_free(places: _Beside, first: int, inside: Any, clutter: Clutter) -> int | None:
    """The first of the places from a number on that lies inside and touches nothing."""
    import shapely

    shapes = places.shapes(first)
    fits = clutter.free(shapes)
    fits[fits] = shapely.contains(inside, shapes[fits])
    return first + int(fits.argmax()) if fits.any() else None
