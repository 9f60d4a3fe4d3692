"""Places for words in the order in which they are wanted: the first that lies in a shape and touches nothing.

Most places are out of the question by one of their corners, and of the others a few are looked at at a time, those of
many wishes together: a shapely shape is made for these alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.paper.piece.clutter import Clutter

_FEW = (6, 30)
"""So many are looked at first, and then; and in the end all."""
_APART = (0, 2, 1, 3)
"""Corners that lie far apart come first."""


@dataclass(frozen=True)
class Places:
    """Rectangles by their corners `(n, 5, 2)`, the one most wanted first, and the shapely shape that must hold one."""

    corners: Floats
    inside: Any


def first_places(wishes: Sequence[Places], clutter: Clutter) -> Iterator[tuple[int, Any] | None]:
    """For each wish in turn the number and the shape of its first place, or None.

    Whoever takes one adds it to the clutter before asking for the next.
    """
    likely = _likely(wishes)
    begun = _looked_at([(wish, some[: _FEW[0]]) for wish, some in zip(wishes, likely, strict=True)], clutter)
    for wish, some, (shapes, good) in zip(wishes, likely, begun, strict=True):
        number, looked = clutter.first_apart(shapes, good), 0
        for begin, end in zip(_FEW, (*_FEW[1:], len(some)), strict=True):
            if number is None and len(some) > begin:
                looked = begin
                ((shapes, good),) = _looked_at([(wish, some[begin:end])], clutter)
                number = clutter.first_apart(shapes, good)
        yield None if number is None else (int(some[looked + number]), shapes[number])


def _likely(wishes: Sequence[Places]) -> list[Ints]:
    """The places of each wish whose corners all lie in its shape, by their numbers."""
    import shapely

    counts = [len(wish.corners) for wish in wishes]
    if not sum(counts):
        return [np.zeros(0, dtype=np.intp) for _ in wishes]
    corners = np.concatenate([wish.corners for wish in wishes])
    of, left = np.repeat(np.arange(len(wishes)), counts), np.arange(len(corners))
    insides = np.array([wish.inside for wish in wishes])
    shapely.prepare(insides)
    for corner in _APART:
        x, y = corners[left, corner].T
        left = left[shapely.intersects_xy(insides[of[left]], x, y)]
    ends = np.cumsum(counts)
    parts = np.split(left, np.searchsorted(left, ends[:-1]))
    return [some - begin for some, begin in zip(parts, (ends - counts).tolist(), strict=True)]


def _looked_at(some: Sequence[tuple[Places, Ints]], clutter: Clutter) -> list[tuple[Any, Bools]]:
    """Places of wishes as shapes, and which of them lie in their wish's and clear of all lines."""
    import shapely

    counts = [len(numbers) for _, numbers in some]
    if not some:
        return []
    shapes = shapely.polygons(np.concatenate([wish.corners[numbers] for wish, numbers in some]))
    good = shapely.contains(np.repeat(np.array([wish.inside for wish, _ in some]), counts), shapes)
    good[good] = clutter.off_lines(shapes[good])
    ends = np.cumsum(counts)[:-1]
    return list(zip(np.split(shapes, ends), np.split(good, ends), strict=True))
