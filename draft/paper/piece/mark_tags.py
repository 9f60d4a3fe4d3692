"""The sizes of marks in a nest: the name beside each notch, dart and drill mark; in a row, with leaders, if crowded.

A name stands at its own mark where no other size's mark is nearer. Those that find no such place are gathered in a row
further inside (`names_in_row`), in the order of their marks, each with a fine line to its own; and where no row has
room, wherever there is any (`names_gathered`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, permutations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.cubic import unit
from draft.paper.drawing.drawing import Item
from draft.paper.drawing.room import Spot, corners_of
from draft.paper.piece.budget import Budget
from draft.paper.piece.clutter import KEPT, Clutter
from draft.paper.piece.in_turn import Places, nearest_of, take_first
from draft.paper.piece.leaders import to_upright
from draft.paper.piece.names_gathered import gathered
from draft.paper.piece.names_in_row import headed_row, in_row
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.sizes_drawn import Sizes
from draft.paper.piece.together import SAME_MARK

_BESIDE = (1.2, 2.0)
"""From a mark to the name that stands at it, mm."""
_LEANS = (0.0, 1.0, -1.0, 3.0, -3.0)
"""How far it stands aside of the way inward, as a share of that way."""

_ORDERS = 6
"""In so many orders levels of a piece are tried: all of three."""
_MOST = 25_000.0
"""Looking for blocks of names may cost so much on a piece: the most of any bundled nest is two thirds of it."""


def mark_tags(families: Sequence[Sequence[Anchor]], sizes: Sizes, clutter: Clutter) -> list[list[Item]]:
    """For each size the names of its marks, and their leaders. What is placed is added to the clutter."""
    found: list[list[Item]] = [[] for _ in sizes.names]
    named, left = list(_to_name(families)), list[list[Anchor]]()
    if sizes.surface.level and not sizes.narrow:
        named, left = _without_levels(named, sizes, clutter, found)
    if sizes.narrow:
        left = named
    elif named:
        each = _spots(named, _places(named, sizes), sizes, clutter)
        for family in named:
            crowded = _crowded(family, each, sizes, clutter, found)
            if crowded and not in_row(crowded, sizes, clutter, found):
                left.append(crowded)
    budget = Budget(_MOST)
    for crowded in left:
        for anchor, spot, leader in gathered(crowded, sizes.names_of(crowded), clutter, sizes.grounds, budget):
            found[anchor.size].extend(sizes.led(anchor, spot, leader))
    return found


def _without_levels(
    named: Sequence[list[Anchor]], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]
) -> tuple[list[list[Anchor]], list[list[Anchor]]]:
    """Set levels below their own words, before all else; what is to be named then, and levels without room.

    Which of a few levels comes first is changed about until the most have room.
    """
    levels = [family for family in named if family[0].alike]
    before, counts, best = clutter.taken, [len(items) for items in found], (len(levels) + 1, levels)
    for order in islice(permutations(levels), _ORDERS):
        left = [family for family in order if not headed_row(family, sizes, clutter, found)]
        best = min(best, (len(left), list(order)), key=lambda one: one[0])
        if not left:
            break
        clutter.give_back(before)
        for items, count in zip(found, counts, strict=True):
            del items[count:]
    else:
        left = [family for family in best[1] if not headed_row(family, sizes, clutter, found)]
    return [family for family in named if not family[0].alike], left


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
    return float(np.hypot(*(one - other))) < SAME_MARK


def _apart(family: Sequence[Anchor]) -> list[Anchor]:
    """Those of a family that no other lies on; a mark that all sizes share needs no name."""
    points = np.array([anchor.point for anchor in family])
    near = np.hypot(*(points[:, None] - points[None]).transpose(2, 0, 1)) < SAME_MARK
    return [anchor for anchor, alike in zip(family, near.sum(axis=1), strict=True) if alike < max(len(family), 2)]


def _crowded(
    family: Sequence[Anchor],
    each: Iterator[list[Spot | None]],
    sizes: Sizes,
    clutter: Clutter,
    found: Sequence[list[Item]],
) -> list[Anchor]:
    """Set the names that have places at their own marks; those left over. Large names are kept together."""
    before = clutter.taken
    placed = list(zip(family, next(each), strict=True))
    if sizes.surface.level and not all(spot for _, spot in placed):
        clutter.give_back(before)
        return list(family)
    for anchor, spot in placed:
        if spot is not None:
            found[anchor.size].append(sizes.label(anchor, spot))
    return [anchor for anchor, spot in placed if spot is None]


def _spots(
    families: Sequence[Sequence[Anchor]], places: tuple[Floats, Bools], sizes: Sizes, clutter: Clutter
) -> Iterator[list[Spot | None]]:
    """For the marks of each family in turn a place for its name that has room, if any has; it is taken."""
    anchors = [anchor for family in families for anchor in family]
    middles, near = places
    near = _on_page(np.array([anchor.point for anchor in anchors]), middles, near, sizes)
    wide, counts = np.array([sizes.wide(anchor) for anchor in anchors]), near.sum(axis=1)
    corners = corners_of(middles[near], sizes.surface.upright, np.repeat(wide, counts), sizes.high, KEPT)
    parts = np.split(corners, np.cumsum(counts)[:-1])
    wishes = [Places(part, sizes.shapes[anchor.size]) for part, anchor in zip(parts, anchors, strict=True)]
    every = middles.shape[1]
    nearest, begin = nearest_of(wishes, clutter, every), 0
    for family in families:
        part = slice(begin, begin := begin + len(family))
        numbers = take_first(wishes[part], nearest[part], clutter, every)
        taken = zip(family, middles[part], near[part], numbers, strict=True)
        yield [
            None if number is None else sizes.spot(anchor, about[np.flatnonzero(some)[number]])
            for anchor, about, some, number in taken
        ]


def _on_page(points: Floats, middles: Floats, near: Bools, sizes: Sizes) -> Bools:
    """Which of the near places `(marks, n)` lie on the page of their mark: no page's edge is between the two."""
    import shapely

    edges, (number, place) = sizes.surface.edges, np.nonzero(near)
    if edges is None or not len(number):
        return near
    ways = shapely.linestrings(np.stack([points[number], middles[number, place]], axis=1))
    found = near.copy()
    found[near] = ~shapely.intersects(edges, ways)
    return found


def _places(families: Sequence[Sequence[Anchor]], sizes: Sizes) -> tuple[Floats, Bools]:
    """The places about all marks `(marks, n, 2)`, and which are nearer to them than to others of their families."""
    anchors = [anchor for family in families for anchor in family]
    angle, wide = sizes.surface.upright, np.array([sizes.wide(anchor) for anchor in anchors])
    middles = _about(anchors, wide, sizes.high, angle)
    near = np.empty(middles.shape[:2], dtype=bool)
    alike = dict[tuple[int, ...], list[tuple[int, Sequence[Anchor]]]]()
    firsts = np.cumsum([0, *map(len, families[:-1])]).tolist()
    for first, family in zip(firsts, families, strict=True):
        alike.setdefault(tuple(len(_ends(anchor)) for anchor in family), []).append((first, family))
    for counts, some in alike.items():
        which = np.array([first for first, _ in some])[:, None] + np.arange(len(counts))
        near[which] = _nearest(middles[which], [family for _, family in some], wide[which], sizes.high, angle)
    return middles, near


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


def _nearest(middles: Floats, families: Sequence[Sequence[Anchor]], wide: Floats, high: float, angle: float) -> Bools:
    """Which rectangles about middles `(f, k, n, 2)` are nearer to their own mark than to others of its family.

    What is near is a mark, or the nearest of its ends, of which all families `(f,)` have as many.
    """
    ends = [[_ends(anchor) for anchor in family] for family in families]
    first = np.cumsum([0, *map(len, ends[0][:-1])])
    points = np.array([np.concatenate(some) for some in ends])
    number = np.array([[anchor.size for anchor in family] for family in families])
    away = np.sqrt(np.minimum.reduceat(_distances(middles, points, wide, high, angle), first, axis=3))
    own = np.diagonal(away, axis1=1, axis2=3).transpose(0, 2, 1)[..., None]
    of_same = number[:, :, None, None] == number[:, None, None]
    return np.asarray(((away > own + 1.0) | of_same).all(axis=-1))


def _ends(anchor: Anchor) -> Floats:
    return anchor.point[None] if anchor.ends is None else anchor.ends


def _distances(middles: Floats, points: Floats, wide: Floats, high: float, angle: float) -> Floats:
    """From rectangles `wide` `(f, k)` about middles `(f, k, n, 2)` to points `(f, m, 2)`, squared, `(f, k, n, m)`."""
    turn = to_upright(angle).T
    at, to = middles @ turn, points @ turn
    found = np.zeros((*middles.shape[:3], points.shape[1]))
    for axis, half in enumerate((wide[..., None, None] / 2, high / 2)):
        off = to[:, None, None, :, axis] - at[..., None, axis]
        np.maximum(np.abs(off, out=off) - half, 0.0, out=off)
        found += np.square(off, out=off)
    return found
