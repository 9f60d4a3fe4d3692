"""The sizes of marks in a nest: the name beside each notch, dart and drill mark; in a row, with leaders, if crowded.

A name stands at its own mark where no other size's mark is nearer. Those that find no such place are gathered in a row
further inside, in the order of their marks, each with a fine line to its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path, Stroke
from draft.paper.drawing.room import Spot, rectangles
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.surface import Surface
from draft.paper.piece.tags import Clutter
from draft.paper.piece.title_block import SMALLEST

_SIZE = SMALLEST * PT
_BESIDE = (1.2, 2.0)
"""From a mark to the name that stands at it, mm."""
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
        return _SIZE * (font.CAP_HEIGHT + font.DESCENT) * self.surface.enlarged

    def wide(self, size: int) -> float:
        """The width of a size's name, mm."""
        return font.text_width(self.names[size], _SIZE * self.surface.enlarged, bold=True)

    def spot(self, size: int, middle: Floats) -> Spot:
        """The place of a size's name about a point `(2,)`."""
        return Spot(float(middle[0]), float(middle[1]), self.wide(size), self.high, self.surface.upright)

    def label(self, size: int, spot: Spot) -> Label:
        """The name of a size in its place and its ink."""
        em = _SIZE * self.surface.enlarged
        x, y = spot.at(0, spot.height / 2 - em * font.DESCENT)
        ink = line_styles.cutting_stroke(size).colour
        return Label(self.names[size], x, y, em, "middle", spot.angle, bold=True, colour=ink)


def mark_tags(families: Sequence[Sequence[Anchor]], sizes: Sizes, clutter: Clutter) -> list[list[Item]]:
    """For each size the names of its marks, and their leaders. What is placed is added to the clutter."""
    found: list[list[Item]] = [[] for _ in sizes.names]
    for family in families:
        anchors = _apart(family)
        crowded = [anchor for anchor in anchors if not _beside(anchor, anchors, sizes, clutter, found)]
        if crowded:
            _in_row(crowded, sizes, clutter, found)
    return found


def _apart(family: Sequence[Anchor]) -> list[Anchor]:
    """Those of a family that no other lies on; a mark that all sizes share needs no name."""
    points = np.array([anchor.point for anchor in family])
    near = np.hypot(*(points[:, None] - points[None]).transpose(2, 0, 1)) < _SAME
    return [anchor for anchor, alike in zip(family, near.sum(axis=1), strict=True) if alike < max(len(family), 2)]


def _beside(
    anchor: Anchor, family: Sequence[Anchor], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]
) -> bool:
    """Set the name at its own mark, if there is room where no other of the family is nearer."""
    wide, high, angle = sizes.wide(anchor.size), sizes.high, sizes.surface.upright
    middles = _about(anchor, wide, high, angle)
    others = np.array([other.point for other in family if other.size != anchor.size]).reshape(-1, 2)
    own = _distance(middles, anchor.point[None], wide, high, angle)[:, 0]
    good = np.all(_distance(middles, others, wide, high, angle) > own[:, None] + 1.0, axis=1)
    number = _first_free(middles, good, anchor.size, sizes, clutter)
    if number is None:
        return False
    _set(anchor.size, sizes.spot(anchor.size, middles[number]), sizes, clutter, found)
    return True


def _about(anchor: Anchor, wide: float, high: float, angle: float) -> Floats:
    """Middles `(n, 2)` of places about a point for a name that stands upright at an angle: inward first."""
    across = np.array([-anchor.inward[1], anchor.inward[0]])
    ways = [anchor.inward + lean * across for lean in (0.0, 1.0, -1.0, 3.0, -3.0)]
    turn = _turn(angle)
    middles = []
    for off in _BESIDE:
        for way in ways:
            x, y = turn @ (way / np.hypot(*way))
            reach = np.array(
                [np.sign(x) * wide / 2 * min(1, abs(x) * 1.5), np.sign(y) * high / 2 * min(1, abs(y) * 1.5)]
            )
            middles.append(anchor.point + off * way / np.hypot(*way) + turn.T @ reach)
    return np.array(middles)


def _turn(angle: float) -> Floats:
    """Takes paper to a frame in which words at this angle, in degrees clockwise, stand upright."""
    c, s = np.cos(np.radians(angle)), np.sin(np.radians(angle))
    return np.array([[c, s], [-s, c]])


def _distance(middles: Floats, points: Floats, wide: float, high: float, angle: float) -> Floats:
    """From rectangles about middles `(n, 2)` to points `(m, 2)`, mm `(n, m)`."""
    off = np.abs((points[None] - middles[:, None]) @ _turn(angle).T) - np.array([wide, high]) / 2
    return np.asarray(np.hypot(*np.maximum(off, 0.0).transpose(2, 0, 1)))


def _first_free(middles: Floats, good: Bools, size: int, sizes: Sizes, clutter: Clutter) -> int | None:
    """The number of the first good place that lies in the size's own outline and touches nothing."""
    import shapely

    numbers = np.flatnonzero(good)
    angles = np.full(len(numbers), sizes.surface.upright)
    shapes = rectangles(middles[numbers], angles, sizes.wide(size), sizes.high, _KEPT)
    fits = shapely.contains(sizes.shapes[size], shapes)
    fits[fits] = clutter.free(shapes[fits])
    return int(numbers[fits.argmax()]) if fits.any() else None


def _set(size: int, spot: Spot, sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> None:
    clutter.take(spot.shape(_KEPT))
    found[size].append(sizes.label(size, spot))


def _in_row(anchors: Sequence[Anchor], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> None:
    """Gather the names in a row inside the piece, with leaders; they are left out only where no row has room."""
    for row, spots in _rows(anchors, sizes):
        leaders = [_leader(anchor, spot) for anchor, spot in zip(row, spots, strict=True)]
        if _free(row, spots, leaders, sizes, clutter):
            for anchor, spot, leader in zip(row, spots, leaders, strict=True):
                _set(anchor.size, spot, sizes, clutter, found)
                clutter.take(leader)
                found[anchor.size].append(_drawn(anchor, leader, sizes))
            return


def _rows(anchors: Sequence[Anchor], sizes: Sizes) -> Iterator[tuple[list[Anchor], list[Spot]]]:
    """Anchors in the order of their row, and the places of their names, the nearest row first."""
    turn = _turn(sizes.surface.upright)
    points = np.array([anchor.point for anchor in anchors]) @ turn.T
    inward = turn @ np.mean([anchor.inward for anchor in anchors], axis=0)
    axis = 0 if abs(inward[1]) >= abs(inward[0]) else 1
    order = np.argsort(points[:, axis], kind="stable")
    row = [anchors[k] for k in order]
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


def _free(row: Sequence[Anchor], spots: Sequence[Spot], leaders: Sequence[Any], sizes: Sizes, clutter: Clutter) -> bool:
    """Whether every name lies in its size's outline and clear of all, and no leader runs through another name."""
    import shapely

    shapes = np.array([spot.shape(_KEPT) for spot in spots])
    own = np.array([sizes.shapes[anchor.size] for anchor in row])
    if not (shapely.contains(own, shapes).all() and clutter.free(shapes).all()):
        return False
    lines = np.array(leaders)
    crossed = shapely.intersects(lines[:, None], shapes[None])
    return bool(crossed.sum() == np.trace(crossed) and clutter.off_words(lines).all())


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
