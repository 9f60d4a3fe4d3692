"""Size tags: the size's name beside its own cutting line, where no other line or word is in the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry import cubic
from draft.geometry.ruler import Ruler
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import Spot
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
_FEW_AT_A_TIME = (slice(0, 4), slice(4, 16), slice(16, 4 * _TRIES))
"""Most tags find room at once; where it is crowded, many places are looked at together."""


@dataclass
class Clutter:
    """What tags must keep clear of: lines as shapely shapes, and the tags already placed."""

    lines: Sequence[Any]
    placed: list[Any] = field(default_factory=list)

    def __post_init__(self) -> None:
        import shapely

        self._tree = shapely.STRtree(list(self.lines))

    def free(self, shapes: Any) -> Bools:
        """Which of the shapes `(n,)` touch none of them."""
        import shapely

        free = self.off_lines(shapes)
        if self.placed:
            free[free] = ~shapely.intersects(shapes[free][:, None], np.array(self.placed)[None]).any(axis=1)
        return free

    def off_lines(self, shapes: Any) -> Bools:
        """Which of the shapes `(n,)` touch none of the lines, wherever tags are."""
        free = np.ones(len(shapes), dtype=bool)
        free[self._tree.query(shapes, predicate="intersects")[0]] = False
        return free

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
    for one, (looked_at, shapes, good) in zip(wished, _looked_at(wished, sizes, clutter), strict=True):
        number = clutter.first_apart(shapes, good)
        if number is None:
            number = _later_free(one, looked_at, sizes[one.size].inside, clutter)
        if number is not None:
            spot = one.spot(number)
            clutter.take(spot.shape(1.0))
            found[one.size].append(_label(sizes[one.size], spot, surface))
    return found


def _looked_at(wished: Sequence[_Beside], sizes: Sequence[Tagged], clutter: Clutter) -> list[tuple[int, Any, Bools]]:
    """For each wish how many of its places were looked at, those shapes and whether each is clear of all lines.

    More are looked at where none of the nearest is clear.
    """
    found: list[tuple[int, Any, Bools]] = []
    some = _FEW_AT_A_TIME[0].stop
    for shapes, fits in zip(*_fitting(wished, slice(0, some), sizes, clutter), strict=True):
        found.append((some, shapes, fits))
    again = [k for k, (_, _, fits) in enumerate(found) if not fits.any()]
    more, some = [wished[k] for k in again], _FEW_AT_A_TIME[1].stop
    for k, shapes, fits in zip(again, *_fitting(more, slice(0, some), sizes, clutter), strict=True):
        found[k] = some, shapes, fits
    return found


def _label(size: Tagged, spot: Spot, surface: Surface) -> Label:
    high = _SIZE * surface.enlarged
    x, y = spot.at(0, spot.height / 2 - high * font.DESCENT)
    colour = line_styles.cutting_stroke(size.index).colour
    return Label(size.name, x, y, high, "middle", spot.angle, bold=True, colour=colour)


def _wished(sizes: Sequence[Tagged], surface: Surface) -> list[_Beside]:
    """For each tag wished for its places, nearest first to its size's turn in the row of tags."""
    import shapely

    rows = [row for number, size in enumerate(sizes) for row in _rows(number, size, len(sizes), surface)]
    points = np.concatenate([np.zeros((0, 2)), *(row[2] for row in rows)])
    others = np.array([size.others for size in sizes])[
        np.repeat([row[0] for row in rows], [len(row[2]) for row in rows])
    ]
    apart = ~shapely.dwithin(others, shapely.points(points), _SAME_LINE)
    kept = np.split(apart, np.cumsum([len(row[2]) for row in rows])[:-1])
    return [_Beside(n, at[keep], way[keep], wide, surface) for (n, wide, at, way), keep in zip(rows, kept, strict=True)]


def _rows(number: int, size: Tagged, count: int, surface: Surface) -> Iterator[tuple[int, float, Floats, Floats]]:
    """For each tag wished for its size's number, its width, and points `(n, 2)` of the line with directions there."""
    steps = np.arange(2 * _TRIES)
    sooner = (steps + 1) // 2 * np.where(steps % 2, 1, -1)
    width = font.text_width(size.name, _SIZE * surface.enlarged, bold=True)
    turn = (size.index - (count - 1) / 2) * (width + 3.0) * 0.8
    for ruler in size.rulers:
        tags = max(1, round(ruler.length / (_APART * surface.enlarged)))
        middles, span = ruler.length * (np.arange(tags) + 0.5) / tags, ruler.length / tags
        at = (middles + turn)[:, None] + span / _TRIES * sooner
        here = np.abs(at - middles[:, None]) <= span / 2
        points, directions = ruler.places(at[here])
        ends = np.cumsum(here.sum(axis=1))[:-1]
        for some, ways in zip(np.split(points, ends), np.split(directions, ends), strict=True):
            yield number, width, some, ways


def _fitting(
    wished: Sequence[_Beside], some: slice, sizes: Sequence[Tagged], clutter: Clutter
) -> tuple[list[Any], list[Bools]]:
    """Some of the shapes of each wish, and which lie inside their size's outline and clear of all lines."""
    import shapely

    if not wished:
        return [], []
    corners = [one.corners(some) for one in wished]
    every, of = (
        shapely.polygons(np.concatenate(corners)),
        np.repeat([one.size for one in wished], list(map(len, corners))),
    )
    fits = clutter.off_lines(every)
    inside = np.array([size.inside for size in sizes])
    fits[fits] = shapely.contains(inside[of[fits]], every[fits])
    ends = np.cumsum(list(map(len, corners)))[:-1]
    return np.split(every, ends), np.split(fits, ends)


@dataclass(frozen=True)
class _Beside:
    """Places for a tag of a size beside the points of a line, first on the one side of each and then on the other."""

    size: int
    points: Floats
    directions: Floats
    width: float
    surface: Surface

    @property
    def height(self) -> float:
        """Of the tag, mm."""
        return _SIZE * (font.CAP_HEIGHT + font.DESCENT) * self.surface.enlarged

    def middles(self, some: slice) -> Floats:
        """Of some of the tags, an even number of them, `(k, 2)`."""
        off = self.height / 2 + _AIR * self.surface.enlarged + 0.1
        points, directions = (of[some.start // 2 : some.stop // 2] for of in (self.points, self.directions))
        sides = points[:, None] + cubic.right_of(directions)[:, None] * _SIDES[:, None] * off
        return np.asarray(sides.reshape(-1, 2))

    def spot(self, number: int) -> Spot:
        """One of the places."""
        x, y = self.middles(slice(number // 2 * 2, number // 2 * 2 + 2))[number % 2]
        along = self.directions[number // 2]
        angle = self.surface.readable(float(np.degrees(np.arctan2(along[1], along[0]))))
        return Spot(float(x), float(y), self.width, self.height, angle)

    def corners(self, some: slice) -> Floats:
        """Some of the places, an even number, as closed rectangles `(k, 5, 2)`, grown by what a tag keeps clear of."""
        wide, high = self.width / 2 + _AIR, self.height / 2 + _AIR
        corners = np.array([(-wide, -high), (wide, -high), (wide, high), (-wide, high), (-wide, -high)])
        along = self.directions[some.start // 2 : some.stop // 2]  # the rectangle is the same whichever way it is read
        along = along / cubic.norm(along)[:, None]
        across = np.stack([-along[:, 1], along[:, 0]], axis=1)
        turned = corners[None, :, :1] * along[:, None] + corners[None, :, 1:] * across[:, None]
        return np.asarray(self.middles(some)[:, None] + np.repeat(turned, 2, axis=0))


def _later_free(places: _Beside, first: int, inside: Any, clutter: Clutter) -> int | None:
    """The first of the places from a number on that lies inside and touches nothing; looked at a few at a time."""
    import shapely

    for some in _FEW_AT_A_TIME:
        if some.start >= first:
            shapes = shapely.polygons(places.corners(some))
            fits = clutter.free(shapes)
            fits[fits] = shapely.contains(inside, shapes[fits])
            if fits.any():
                return some.start + int(fits.argmax())
    return None
