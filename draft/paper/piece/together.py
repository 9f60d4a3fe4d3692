"""The sizes of a piece that are drawn together: where each one's levels stand, and how long its notches are.

Notches of neighbouring sizes that stand in one line would make one line: each ends well before the next begins.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Mark
from draft.geometry.cubic import cross, dot, line, norm
from draft.paper.piece.level_places import LevelPlaces, across_of, side_by_side
from draft.paper.piece.piece_lines import Outlines, Strokes

SAME_MARK = 0.3
"""Marks of two sizes nearer than this, mm, are one: a name for both would say no more than the piece."""
_ASIDE = 1.2
"""Strokes no further than this many mm aside of one another stand in one line."""
_OF_GAP, _LEAST = 0.6, 1.0
"""A stroke takes so much of the way to the next one, but no less than so many mm."""
_AIR = 1.0
_SAME = 0.3
"""Levels no further from one another than this, mm, are one."""


@dataclass(frozen=True, eq=False)
class Together:
    """The outlines of a piece in all sizes that are drawn, and what they ask of one another."""

    outlines: tuple[Outlines, ...]
    levels: LevelPlaces

    @property
    def is_nest(self) -> bool:
        """Whether there is more than one size."""
        return len(self.outlines) > 1

    @property
    def middle(self) -> int:
        """Which of the sizes is in the middle."""
        return len(self.outlines) // 2

    def level(self, mark: Mark, size: int) -> Floats:
        """Where a level of one of the sizes is drawn `(2,)`, y down; not finite where it has none."""
        return np.array(dict(self.levels)[mark.name][size])

    def are_apart(self, mark: Mark) -> bool:
        """Whether a level lies elsewhere in some size, so that each bears its name with the size's."""
        points = np.array(dict(self.levels)[mark.name])
        return self.is_nest and bool(np.any(np.nanmax(points, axis=0) - np.nanmin(points, axis=0) > _SAME))

    def is_row(self, mark: Mark) -> bool:
        """Whether the levels of the sizes stand side by side."""
        points = np.array(dict(self.levels)[mark.name])
        rows = points[np.isfinite(points).all(axis=1)]
        return len(rows) > 1 and (side_by_side(rows, across_of(self.outlines[0])) or _spread(rows))

    @cached_property
    def notches(self) -> tuple[Strokes, ...]:
        """For each size its notches by their number: the strokes of each `(n, 1, 4, 2)`, y up."""
        every = [one.notch_strokes for one in self.outlines]
        if not self.is_nest:
            return tuple(every)
        numbered = dict[int, list[tuple[int, Floats]]]()
        for size, some in enumerate(every):
            for number, strokes in some:
                numbered.setdefault(number, []).append((size, strokes))
        found: list[list[tuple[int, Floats]]] = [[] for _ in every]
        for number, sizes in sorted(numbered.items()):
            for (size, _), strokes in zip(sizes, _shortened([strokes for _, strokes in sizes]), strict=True):
                found[size].append((number, strokes))
        return tuple(map(tuple, found))


def _spread(points: Floats) -> bool:
    """Whether points lie further apart across than up and down."""
    wide, high = np.ptp(points, axis=0)
    return bool(wide > high)


def _shortened(sizes: Sequence[Floats]) -> list[Floats]:
    """Strokes of one notch in some sizes, each `(n, 1, 4, 2)`, that end before another size's that stands in line."""
    every = np.concatenate(sizes)[:, 0]
    of = np.repeat(np.arange(len(sizes)), [len(strokes) for strokes in sizes])
    start, way = every[:, 0], every[:, 3] - every[:, 0]
    long = norm(way)
    way = way / np.maximum(long, 1e-9)[:, None]
    off = start[None] - start[:, None]
    ahead, aside = dot(way[:, None], off), cross(way[:, None], off)
    near = (np.abs(aside) < _ASIDE) & (ahead > _AIR / 3) & (ahead < long[:, None] + _AIR) & (of != of[:, None])
    most = np.maximum(_LEAST, _OF_GAP * np.min(ahead, axis=1, where=near, initial=np.inf))
    ends = start + np.minimum(long, most)[:, None] * way
    return np.split(line(start, ends)[:, None], np.cumsum([len(strokes) for strokes in sizes])[:-1])
