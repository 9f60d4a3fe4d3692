"""The sizes of marks in a nest: the name beside each notch, dart and drill mark; in a row, with leaders, if crowded.

A name stands at its own mark where no other size's mark is nearer. Those that find no such place are gathered in a row
further inside, in the order of their marks, each with a fine line to its own; and where no row has room, wherever there
is any (`names_gathered`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Any, TypeAlias

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.geometry.cubic import unit
from draft.paper.drawing.drawing import Item, Label
from draft.paper.drawing.room import Spot, rectangles, spot_shapes
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.leaders import leader_drawn, leaders_of
from draft.paper.piece.names_gathered import Grounds, Names, gathered
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
_NARROW = 2.2
"""A piece narrower than twice so many heights of names has none of its marks' on it."""

_MUCH = 12000
"""Beside more points of lines no places for a block of names are looked for; bundled garments have fewer."""


@dataclass(frozen=True)
class Sizes:
    """The sizes that are drawn together: their names, and the shapely shapes that each is cut to."""

    names: Sequence[str]
    shapes: Sequence[Any]
    surface: Surface
    grounds: Grounds

    @property
    def high(self) -> float:
        """The height of a name, mm."""
        return name_high(self.surface)

    @property
    def narrow(self) -> bool:
        """Whether names are so large beside the piece that they stand on the paper about it."""
        if not self.surface.level:
            return False
        return all(shape.buffer(-_NARROW * self.high).is_empty for shape in self.shapes)

    def said(self, anchor: Anchor) -> str:
        """What is said of a mark: its size, behind its own word if it has one."""
        return f"{anchor.word} {self.names[anchor.size]}".strip()

    def wide(self, anchor: Anchor) -> float:
        """The width of what is said of a mark, mm."""
        return name_wide(self.said(anchor), self.surface, anchor.bold)

    def spot(self, anchor: Anchor, middle: Floats) -> Spot:
        """The place of that about a point `(2,)`."""
        return Spot(float(middle[0]), float(middle[1]), self.wide(anchor), self.high, self.surface.upright)

    def names_of(self, anchors: Sequence[Anchor]) -> Names:
        """What the names of marks take up."""
        wide = [self.wide(anchor) for anchor in anchors]
        return Names(wide, self.high, [self.shapes[anchor.size] for anchor in anchors], self.surface)

    def label(self, anchor: Anchor, spot: Spot) -> Label:
        """What is said of a mark, in its place and its size's ink: lighter than the names of cutting lines."""
        return name_of_size(self.said(anchor), anchor.size, spot, self.surface, anchor.bold)


def mark_tags(families: Sequence[Sequence[Anchor]], sizes: Sizes, clutter: Clutter) -> list[list[Item]]:
    """For each size the names of its marks, and their leaders. What is placed is added to the clutter."""
    found: list[list[Item]] = [[] for _ in sizes.names]
    named, left = list(_to_name(families)), list[list[Anchor]]()
    if sizes.narrow:
        left = named
    for places in _places(named, sizes, clutter) if named and not sizes.narrow else ():
        crowded = _crowded(places, sizes, clutter, found)
        if crowded and not in_row(crowded, sizes, clutter, found):
            left.append(crowded)
    for crowded in left if clutter.points <= _MUCH else ():
        for anchor, spot, leader in gathered(crowded, sizes.names_of(crowded), clutter, sizes.grounds):
            _led(anchor, spot, leader, sizes, found)
    return found


def _to_name(families: Sequence[Sequence[Anchor]]) -> Iterator[list[Anchor]]:
    """Those of each family that need a name: none that all sizes share, nor one on a mark that has its size's name."""
    named = dict[int, list[Floats]]()
    for family in families:
        anchors = [one for one in _apart(family) if not any(_same(one.point, at) for at in named.get(one.size, ()))]
        for one in anchors:
            named.setdefault(one.size, []).append(one.point)
        if anchors:
            yield anchors


def _same(one: Floats, other: Floats) -> bool:
    return float(np.hypot(*(one - other))) < _SAME


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
            _set(anchor, sizes.spot(anchor, middles[number]), sizes, clutter, found)
    return left


def _places(families: Sequence[Sequence[Anchor]], sizes: Sizes, clutter: Clutter) -> list[list[_Around]]:
    """For each family the places about its marks: looked at for all at once."""
    import shapely

    anchors = [anchor for family in families for anchor in family]
    angle, number = sizes.surface.upright, np.array([anchor.size for anchor in anchors])
    wide = np.array([sizes.wide(anchor) for anchor in anchors])
    middles = _about(anchors, wide, sizes.high, angle)
    ends = np.cumsum([len(some) for some in families]).tolist()
    parts = [slice(end - len(some), end) for some, end in zip(families, ends, strict=True)]
    fits = np.concatenate(
        [_nearest(middles[p], some, wide[p], sizes.high, angle) for some, p in zip(families, parts, strict=True)]
    )
    each = np.broadcast_to(wide[:, None], fits.shape).ravel()
    shapes = rectangles(middles.reshape(-1, 2), np.full(fits.size, angle), each, sizes.high, _KEPT).reshape(fits.shape)
    of = np.broadcast_to(np.array(sizes.shapes)[number][:, None], fits.shape)
    fits[fits] = shapely.contains(of[fits], shapes[fits])
    fits[fits] = clutter.off_lines(shapes[fits])
    every = iter(zip(anchors, middles, shapes, fits, strict=True))
    return [list(islice(every, len(some))) for some in families]


def _about(anchors: Sequence[Anchor], wide: Floats, high: float, angle: float) -> Floats:
    """Middles `(k, n, 2)` of places about marks for names that stand upright at an angle: inward first."""
    points = np.array([anchor.point for anchor in anchors]).reshape(-1, 2)
    inward = np.array([anchor.inward for anchor in anchors]).reshape(-1, 2)
    clear = np.array([anchor.clear for anchor in anchors])[:, None, None]
    across = np.stack([-inward[:, 1], inward[:, 0]], axis=-1)
    ahead = unit(inward[:, None] + np.array(_LEANS)[:, None] * across[:, None])
    turned = np.array([-1.0 if anchor.both else 1.0 for anchor in anchors])[:, None, None]
    ways = np.concatenate([ahead, turned * ahead], axis=1)
    turn = _turn(angle)
    upright = ways @ turn.T
    half = np.stack([wide / 2, np.full(len(wide), high / 2)], axis=-1)[:, None]
    reach = (np.sign(upright) * half * np.minimum(1, np.abs(upright) * 1.5)) @ turn
    off = (clear[..., None] + np.array(_BESIDE)[:, None, None]) * ways[:, None]
    return np.asarray((points[:, None, None] + off + reach[:, None]).reshape(len(points), -1, 2))


def _nearest(middles: Floats, family: Sequence[Anchor], wide: Floats, high: float, angle: float) -> Bools:
    """Which rectangles about middles `(k, n, 2)` are nearer to their own mark than to others of its family `(k, n)`.

    What is near is a mark, or the nearest of its ends.
    """
    ends = [anchor.point[None] if anchor.ends is None else anchor.ends for anchor in family]
    first, number = np.cumsum([0, *map(len, ends[:-1])]), np.array([anchor.size for anchor in family])
    away = np.minimum.reduceat(_distances(middles, np.concatenate(ends), wide, high, angle), first, axis=2)
    own = np.diagonal(away, axis1=0, axis2=2).T
    return np.asarray(np.all((away > own[..., None] + 1.0) | (number[:, None, None] == number), axis=-1))


def _distances(middles: Floats, points: Floats, wide: Floats, high: float, angle: float) -> Floats:
    """From rectangles `wide` `(k,)` about middles `(k, n, 2)` to points `(m, 2)`, mm `(k, n, m)`."""
    half = np.stack([wide / 2, np.full(len(wide), high / 2)], axis=-1)[:, None, None]
    off = np.maximum(np.abs((points - middles[:, :, None]) @ _turn(angle).T) - half, 0.0)
    return np.asarray(np.hypot(off[..., 0], off[..., 1]))


def _turn(angle: float) -> Floats:
    """Takes paper to a frame in which words at this angle, in degrees clockwise, stand upright."""
    c, s = np.cos(np.radians(angle)), np.sin(np.radians(angle))
    return np.array([[c, s], [-s, c]])


def _set(anchor: Anchor, spot: Spot, sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> None:
    clutter.take(spot.shape(_KEPT))
    found[anchor.size].append(sizes.label(anchor, spot))


def _led(anchor: Anchor, spot: Spot, leader: Any, sizes: Sizes, found: Sequence[list[Item]]) -> None:
    found[anchor.size].append(sizes.label(anchor, spot))
    found[anchor.size].append(leader_drawn(anchor, leader, sizes.said(anchor), sizes.surface.enlarged))


def in_row(anchors: Sequence[Anchor], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> bool:
    """Gather the names in a row inside the piece, with leaders; whether any row has room."""
    for number, (row, spots) in _roomy(_rows(_in_order(anchors, sizes), sizes), sizes, clutter):
        if _run_clear(_leaders(row, spots), spot_shapes(spots, _KEPT), clutter):
            row, spots = _uncrossed(row, spots, number, sizes, clutter)
            for anchor, spot, leader in zip(row, spots, _leaders(row, spots), strict=True):
                clutter.take(spot.shape(_KEPT))
                clutter.take(leader)
                _led(anchor, spot, leader, sizes, found)
            return True
    return False


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
    middles, wide = np.array([(spot.x, spot.y) for spot in spots]), np.array([spot.width for spot in spots])
    return leaders_of(row, middles, wide, spots[0].height, spots[0].angle)


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
    takes = np.array([sizes.wide(anchor) if axis == 0 else sizes.high for anchor in row]) + _GAP
    along = np.cumsum(takes) - takes / 2 - takes.sum() / 2 + points[:, axis].mean()
    into = np.sign(inward[1 - axis]) or 1.0
    deepest = (points[:, 1 - axis] * into).max()
    half = (sizes.high if axis == 0 else max(sizes.wide(anchor) for anchor in row)) / 2
    for deep in _DEEP:
        for aside in _ASIDE:
            middles = np.empty((len(row), 2))
            middles[:, axis], middles[:, 1 - axis] = along + aside, into * (deepest + deep + half)
            yield row, [sizes.spot(anchor, at) for anchor, at in zip(row, middles @ turn, strict=True)]


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
