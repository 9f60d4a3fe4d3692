"""The sizes of marks in a nest: the name beside each notch, dart and drill mark; in a row, with leaders, if crowded.

A name stands at its own mark where no other size's mark is nearer. Those that find no such place are gathered in a row
further inside (`names_in_row`), in the order of their marks, each with a fine line to its own; and where no row has
room, wherever there is any (`names_gathered`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Any, TypeAlias

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.cubic import unit
from draft.paper.drawing.drawing import Item
from draft.paper.drawing.room import Spot, rectangles
from draft.paper.piece.budget import Budget
from draft.paper.piece.clutter import KEPT, Clutter
from draft.paper.piece.leaders import to_upright
from draft.paper.piece.names_gathered import gathered
from draft.paper.piece.names_in_row import in_row
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.sizes_drawn import Sizes

_BESIDE = (1.2, 2.0)
"""From a mark to the name that stands at it, mm."""
_LEANS = (0.0, 1.0, -1.0, 3.0, -3.0)
"""How far it stands aside of the way inward, as a share of that way."""
_SAME = 0.3
"""Marks of two sizes nearer than this, mm, are one: a name for both would say no more than the piece."""

_MOST = 25_000.0
"""Looking for blocks of names may cost so much on a piece: the most of any bundled nest is two thirds of it."""


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
    budget = Budget(_MOST)
    for crowded in left:
        for anchor, spot, leader in gathered(crowded, sizes.names_of(crowded), clutter, sizes.grounds, budget):
            found[anchor.size].extend(sizes.led(anchor, spot, leader))
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
    shapes = rectangles(middles.reshape(-1, 2), np.full(fits.size, angle), each, sizes.high, KEPT).reshape(fits.shape)
    of = np.broadcast_to(np.array(sizes.shapes)[number][:, None], fits.shape)
    fits[fits] = shapely.contains(of[fits], shapes[fits])
    fits[fits] = clutter.off_lines(shapes[fits])
    fits[fits] = _on_page(np.array([anchor.point for anchor in anchors]), middles, fits, sizes)
    every = iter(zip(anchors, middles, shapes, fits, strict=True))
    return [list(islice(every, len(some))) for some in families]


def _on_page(points: Floats, middles: Floats, fits: Bools, sizes: Sizes) -> Bools:
    """Which of the places that fit lie on the page of their mark: no page's edge is between the two."""
    import shapely

    edges, (number, place) = sizes.surface.edges, np.nonzero(fits)
    if edges is None:
        return np.ones(len(number), dtype=bool)
    ways = shapely.linestrings(np.stack([points[number], middles[number, place]], axis=1))
    return ~np.asarray(shapely.intersects(edges, ways))


def _about(anchors: Sequence[Anchor], wide: Floats, high: float, angle: float) -> Floats:
    """Middles `(k, n, 2)` of places about marks for names that stand upright at an angle: inward first."""
    points = np.array([anchor.point for anchor in anchors]).reshape(-1, 2)
    inward = np.array([anchor.inward for anchor in anchors]).reshape(-1, 2)
    clear = np.array([anchor.clear for anchor in anchors])[:, None, None]
    across = np.stack([-inward[:, 1], inward[:, 0]], axis=-1)
    ahead = unit(inward[:, None] + np.array(_LEANS)[:, None] * across[:, None])
    turned = np.array([-1.0 if anchor.both else 1.0 for anchor in anchors])[:, None, None]
    ways = np.concatenate([ahead, turned * ahead], axis=1)
    turn = to_upright(angle)
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
    off = np.maximum(np.abs((points - middles[:, :, None]) @ to_upright(angle).T) - half, 0.0)
    return np.asarray(np.hypot(off[..., 0], off[..., 1]))


def _set(anchor: Anchor, spot: Spot, sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> None:
    clutter.take(spot.shape(KEPT))
    found[anchor.size].append(sizes.label(anchor, spot))
