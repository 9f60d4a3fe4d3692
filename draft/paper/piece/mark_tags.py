"""The sizes of marks in a nest: the name beside each notch, dart and drill mark; in a row, with leaders, if crowded.

A name stands at its own mark where no other size's mark is nearer. Those that find no such place are gathered in a row
further inside, in the order of their marks, each with a fine line to its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Any, TypeAlias

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.geometry.cubic import lines_through, unit
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Item, Label, Path, Stroke
from draft.paper.drawing.room import Spot, rectangles, spot_shapes
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.surface import Surface
from draft.paper.piece.tags import name_high, name_of_size, name_wide

_BESIDE = (1.2, 2.0)
"""From a mark to the name that stands at it, mm."""
_LEANS = (0.0, 1.0, -1.0, 3.0, -3.0)
"""How far it stands aside of the way inward, as a share of that way."""
_KEPT = 0.5
_SAME = 0.3
"""Marks of two sizes nearer than this, mm, are one: a name for both would say no more than the piece."""
_DEEP = tuple(float(deep) for deep in range(5, 75, 5))
_ASIDE = (0.0, 6.0, -6.0, 12.0, -12.0, 20.0, -20.0, 30.0, -30.0)
"""Where a row is tried, mm: so deep inside of its marks, and so far aside of their middle."""
_GAP = 1.6
_LEADER = 0.13
_SHORT = 0.3
"""A leader is as thin as a printer draws, and ends so many mm before its name."""


@dataclass(frozen=True)
class Sizes:
    """The sizes that are drawn together: their names, and the shapely shapes that each is cut to."""

    names: Sequence[str]
    shapes: Sequence[Any]
    surface: Surface

    @property
    def high(self) -> float:
        """The height of a name, mm."""
        return name_high(self.surface)

    def wide(self, size: int) -> float:
        """The width of a size's name, mm."""
        return name_wide(self.names[size], self.surface)

    def spot(self, size: int, middle: Floats) -> Spot:
        """The place of a size's name about a point `(2,)`."""
        return Spot(float(middle[0]), float(middle[1]), self.wide(size), self.high, self.surface.upright)

    def label(self, size: int, spot: Spot) -> Label:
        """The name of a size in its place and its ink."""
        return name_of_size(self.names[size], size, spot, self.surface)


def mark_tags(families: Sequence[Sequence[Anchor]], sizes: Sizes, clutter: Clutter) -> list[list[Item]]:
    """For each size the names of its marks, and their leaders. What is placed is added to the clutter."""
    found: list[list[Item]] = [[] for _ in sizes.names]
    named = [anchors for anchors in map(_apart, families) if anchors]
    for places in _places(named, sizes, clutter) if named else ():
        crowded = _crowded(places, sizes, clutter, found)
        if crowded:
            _in_row(crowded, sizes, clutter, found)
    return found


def _apart(family: Sequence[Anchor]) -> list[Anchor]:
    """Those of a family that no other lies on; a mark that all sizes share needs no name."""
    points = np.array([anchor.point for anchor in family])
    near = np.hypot(*(points[:, None] - points[None]).transpose(2, 0, 1)) < _SAME
    return [anchor for anchor, alike in zip(family, near.sum(axis=1), strict=True) if alike < max(len(family), 2)]


_Around: TypeAlias = tuple[Anchor, Floats, Any, Bools]
"""A mark, the places about it, `(n, 2)` and as shapely shapes, and which are good and clear of all lines."""


def _crowded(places: Sequence[_Around], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> list[Anchor]:
    """Set the names at their own marks, where there is room and no other size's mark is nearer; those left over."""
    left = []
    for anchor, middles, shapes, fits in places:
        number = clutter.first_apart(shapes, fits)
        if number is None:
            left.append(anchor)
        else:
            _set(anchor.size, sizes.spot(anchor.size, middles[number]), sizes, clutter, found)
    return left


def _places(families: Sequence[Sequence[Anchor]], sizes: Sizes, clutter: Clutter) -> list[list[_Around]]:
    """For each family the places about its marks: looked at for all at once."""
    import shapely

    anchors = [anchor for family in families for anchor in family]
    angle, number = sizes.surface.upright, np.array([anchor.size for anchor in anchors])
    family = np.repeat(np.arange(len(families)), [len(some) for some in families])
    points, inward = np.array([a.point for a in anchors]), np.array([a.inward for a in anchors])
    wide = np.array([sizes.wide(size) for size in number.tolist()])
    middles = _about(points, inward, wide, sizes.high, angle)
    away = _distances(middles, points, wide, sizes.high, angle)
    own = np.diagonal(away, axis1=0, axis2=2).T
    other = (number != number[:, None]) & (family == family[:, None])
    fits = np.all((away > own[..., None] + 1.0) | ~other[:, None], axis=-1)
    each = np.broadcast_to(wide[:, None], fits.shape).ravel()
    shapes = rectangles(middles.reshape(-1, 2), np.full(fits.size, angle), each, sizes.high, _KEPT).reshape(fits.shape)
    of = np.broadcast_to(np.array(sizes.shapes)[number][:, None], fits.shape)
    fits[fits] = shapely.contains(of[fits], shapes[fits])
    fits[fits] = clutter.off_lines(shapes[fits])
    every = iter(zip(anchors, middles, shapes, fits, strict=True))
    return [list(islice(every, len(some))) for some in families]


def _about(points: Floats, inward: Floats, wide: Floats, high: float, angle: float) -> Floats:
    """Middles `(k, n, 2)` of places about points `(k, 2)` for names that stand upright at an angle: inward first."""
    across = np.stack([-inward[:, 1], inward[:, 0]], axis=-1)
    ways = unit(inward[:, None] + np.array(_LEANS)[:, None] * across[:, None])
    turn = _turn(angle)
    upright = ways @ turn.T
    half = np.stack([wide / 2, np.full(len(wide), high / 2)], axis=-1)[:, None]
    reach = (np.sign(upright) * half * np.minimum(1, np.abs(upright) * 1.5)) @ turn
    off = np.array(_BESIDE)[:, None, None] * ways[:, None]
    return np.asarray((points[:, None, None] + off + reach[:, None]).reshape(len(points), -1, 2))


def _distances(middles: Floats, points: Floats, wide: Floats, high: float, angle: float) -> Floats:
    """From rectangles `wide` `(k,)` about middles `(k, n, 2)` to points `(m, 2)`, mm `(k, n, m)`."""
    half = np.stack([wide / 2, np.full(len(wide), high / 2)], axis=-1)[:, None, None]
    off = np.maximum(np.abs((points - middles[:, :, None]) @ _turn(angle).T) - half, 0.0)
    return np.asarray(np.hypot(off[..., 0], off[..., 1]))


def _turn(angle: float) -> Floats:
    """Takes paper to a frame in which words at this angle, in degrees clockwise, stand upright."""
    c, s = np.cos(np.radians(angle)), np.sin(np.radians(angle))
    return np.array([[c, s], [-s, c]])


def _set(size: int, spot: Spot, sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> None:
    clutter.take(spot.shape(_KEPT))
    found[size].append(sizes.label(size, spot))


def _in_row(anchors: Sequence[Anchor], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> None:
    """Gather the names in a row inside the piece, with leaders; they are left out only where no row has room."""
    for number, (row, spots) in _roomy(_rows(_in_order(anchors, sizes), sizes), sizes, clutter):
        if _run_clear(_leaders(row, spots), spot_shapes(spots, _KEPT), clutter):
            row, spots = _uncrossed(row, spots, number, sizes, clutter)
            for anchor, spot in zip(row, spots, strict=True):
                leader = _leader(anchor, spot)
                _set(anchor.size, spot, sizes, clutter, found)
                clutter.take(leader)
                found[anchor.size].append(_drawn(anchor, leader, sizes))
            return


_Row: TypeAlias = tuple[list[Anchor], list[Spot]]
"""Marks in their order, and the places of their names."""


def _roomy(rows: Iterator[_Row], sizes: Sizes, clutter: Clutter) -> Iterator[tuple[int, _Row]]:
    """The rows whose names all have room, by their numbers: those that lie as deep are looked at at once."""
    for first in range(0, len(_DEEP) * len(_ASIDE), len(_ASIDE)):
        some = list(islice(rows, len(_ASIDE)))
        every = [anchor for row, _ in some for anchor in row]
        room = _have_room(every, spot_shapes([spot for _, spots in some for spot in spots], _KEPT), sizes, clutter)
        for k in np.flatnonzero(room.reshape(len(some), -1).all(axis=1)).tolist():
            yield first + k, some[k]


def _stand_clear(row: Sequence[Anchor], spots: Sequence[Spot], sizes: Sizes, clutter: Clutter) -> bool:
    """Whether the names of a row have room, and no leader runs through a name or other words."""
    shapes = spot_shapes(spots, _KEPT)
    return bool(_have_room(row, shapes, sizes, clutter).all()) and _run_clear(_leaders(row, spots), shapes, clutter)


def _leaders(row: Sequence[Anchor], spots: Sequence[Spot]) -> Any:
    return np.array([_leader(anchor, spot) for anchor, spot in zip(row, spots, strict=True)])


def _uncrossed(
    row: list[Anchor], spots: list[Spot], number: int, sizes: Sizes, clutter: Clutter
) -> tuple[list[Anchor], list[Spot]]:
    """The row with names changed about until no two leaders cross, if they have room so too."""
    import shapely

    tried, places = list(row), list(spots)
    for _ in range(len(row) ** 2):
        leaders = _leaders(tried, places)
        first, second = np.nonzero(np.triu(shapely.crosses(leaders[:, None], leaders[None]), 1))
        if not len(first):
            return (tried, places) if _stand_clear(tried, places, sizes, clutter) else (row, spots)
        k, other = int(first[0]), int(second[0])
        tried[k], tried[other] = tried[other], tried[k]
        tried, places = next(islice(_rows(tried, sizes), number, None))
    return row, spots


def _frame(anchors: Sequence[Anchor], sizes: Sizes) -> tuple[Floats, Floats, int]:
    """The marks `(n, 2)` and the way into the piece as words stand upright, and along which axis their row runs."""
    turn = _turn(sizes.surface.upright)
    points = np.array([anchor.point for anchor in anchors]) @ turn.T
    inward = turn @ np.mean([anchor.inward for anchor in anchors], axis=0)
    return points, inward, 0 if abs(inward[1]) >= abs(inward[0]) else 1


def _in_order(anchors: Sequence[Anchor], sizes: Sizes) -> list[Anchor]:
    """As their marks stand along the row."""
    points, _, axis = _frame(anchors, sizes)
    return [anchors[k] for k in np.argsort(points[:, axis], kind="stable")]


def _rows(row: list[Anchor], sizes: Sizes) -> Iterator[_Row]:
    """A row of marks in this order, and the places of their names, the nearest row first."""
    points, inward, axis = _frame(row, sizes)
    turn = _turn(sizes.surface.upright)
    takes = np.array([sizes.wide(anchor.size) if axis == 0 else sizes.high for anchor in row]) + _GAP
    along = np.cumsum(takes) - takes / 2 - takes.sum() / 2 + points[:, axis].mean()
    into = np.sign(inward[1 - axis]) or 1.0
    deepest = (points[:, 1 - axis] * into).max()
    half = (sizes.high if axis == 0 else max(sizes.wide(anchor.size) for anchor in row)) / 2
    for deep in _DEEP:
        for aside in _ASIDE:
            middles = np.empty((len(row), 2))
            middles[:, axis], middles[:, 1 - axis] = along + aside, into * (deepest + deep + half)
            yield row, [sizes.spot(anchor.size, at) for anchor, at in zip(row, middles @ turn, strict=True)]


def _have_room(anchors: Sequence[Anchor], shapes: Any, sizes: Sizes, clutter: Clutter) -> Bools:
    """Which names of marks, shapes `(n,)`, lie in their size's outline and clear of all."""
    import shapely

    own = np.array(sizes.shapes)[[anchor.size for anchor in anchors]]
    free = np.asarray(shapely.contains(own, shapes))
    free[free] = clutter.free(shapes[free])
    return free


def _run_clear(leaders: Any, shapes: Any, clutter: Clutter) -> bool:
    """Whether no leader `(n,)` runs through another name than its own, shapes `(n,)`, nor through other words."""
    import shapely

    crossed = shapely.intersects(leaders[:, None], shapes[None])
    return bool(crossed.sum() == np.trace(crossed) and clutter.off_words(leaders).all())


def _leader(anchor: Anchor, spot: Spot) -> Any:
    """The shapely line from a mark to the nearest side of its name."""
    import shapely

    turn = _turn(spot.angle)
    off = turn @ (anchor.point - np.array([spot.x, spot.y]))
    half = np.array([spot.width, spot.height]) / 2 + _SHORT
    end = np.array([spot.x, spot.y]) + turn.T @ (off / max(np.abs(off / half).max(), 1.0))
    return shapely.LineString([anchor.point, end])


def _drawn(anchor: Anchor, leader: Any, sizes: Sizes) -> Path:
    ink = line_styles.cutting_stroke(anchor.size).colour
    data = (("leader", sizes.names[anchor.size]),)
    return Path((lines_through(list(leader.coords)),), Stroke(_LEADER, colour=ink), data=data)
