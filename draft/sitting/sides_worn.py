"""A body whose left and right differ: each side dressed as if both were like it, and the halves looked at together.

In the middle each half lies as it would with its like beside it, which is what a seam or a fold there asks of both.
What is said is of the side that is tighter.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.sitting.reading import HemRead, LevelRead, Reading
from draft.sitting.worn import Worn


def joined(left: Worn, right: Worn) -> Worn:
    """The left half of one and the right half of another; each has its left half first, then its mirror image."""
    points, triangles = _halves(left.points, left.triangles, right.points, right.triangles)
    skin = _halves(left.skin, left.skin_triangles, right.skin, right.skin_triangles)
    bare = _halves(left.bare, left.bare_triangles, right.bare, right.bare_triangles)
    hem = {name: (left.hem[name] + right.hem[name]) / 2 for name in left.hem}
    drags = np.concatenate([_first(left.drags), _last(right.drags)])
    seams = (*_of_left(left.seams), *_of_right(right.seams))
    edges = (*_of_left(left.edges), *_of_right(right.edges))
    return Worn(
        points,
        triangles,
        _both(left.stretched, right.stretched),
        _both(left.off, right.off),
        _both(left.doubtful, right.doubtful),
        drags,
        seams,
        edges,
        *skin,
        *bare,
        left.trunk,
        left.levels,
        hem,
        right.trunk,
        apart=True,
    )


def _halves(points: Floats, triangles: Ints, other: Floats, others: Ints) -> tuple[Floats, Ints]:
    count, far = len(points) // 2, len(other) // 2
    moved = others[len(others) // 2 :] - far + count
    return np.concatenate([points[:count], other[far:]]), np.concatenate([triangles[: len(triangles) // 2], moved])


def _both(left: Floats, right: Floats) -> Floats:
    return np.concatenate([_first(left), _last(right)])


def _first(of: Floats) -> Floats:
    return of[: len(of) // 2]


def _last(of: Floats) -> Floats:
    return of[len(of) // 2 :]


def _of_left(lines: tuple[Floats, ...]) -> tuple[Floats, ...]:
    return lines[: len(lines) // 2]


def _of_right(lines: tuple[Floats, ...]) -> tuple[Floats, ...]:
    return lines[len(lines) // 2 :]


def tighter(left: Reading, right: Reading) -> Reading:
    """What is read of the tighter side at each level, and of hem and rising the mean or the most."""
    names = list(dict.fromkeys(level.name for reading in (left, right) for level in reading.levels))
    levels = [_tighter([level for one in (left, right) if (level := one.level(name))]) for name in names]
    hems = (left.hem, right.hem)
    front, side, front_spread, side_spread = np.mean(
        [(hem.front, hem.side, hem.front_spread, hem.side_spread) for hem in hems], axis=0
    ).tolist()
    return Reading(
        tuple(levels),
        HemRead(front, side, front_spread, side_spread),
        _most(left.stays, right.stays),
        _most(left.rides, right.rides),
        _most(left.reaches, right.reaches),
        max((one.hollow for one in (left, right) if one.hollow), key=lambda found: found[1], default=None),
        (left.doubtful + right.doubtful) / 2,
        tuple(dict.fromkeys((*left.estimated, *right.estimated))),
        {**left.outside, **right.outside},
        left.left_out,
        tuple(dict.fromkeys((*left.cautions, *right.cautions))),
        sides_apart=True,
        from_waist=left.from_waist,
        from_bust=max(left.from_bust, right.from_bust),
        not_tried=left.not_tried or right.not_tried,
        shaped=left.shaped,
        over_elbow=_most(left.over_elbow, right.over_elbow),
    )


def _tighter(levels: Sequence[LevelRead]) -> LevelRead:
    return max(levels, key=lambda level: (level.stretched, -(level.room or 0.0)))


def _most(one: float | None, other: float | None) -> float | None:
    known = [value for value in (one, other) if value is not None]
    return max(known) if known else None
