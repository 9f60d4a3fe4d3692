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
from draft.geometry.cubic import line, norm
from draft.paper.piece.level_places import LevelPlaces, across_of, side_by_side
from draft.paper.piece.piece_lines import Outlines, Strokes

_ASIDE = 1.2
"""Strokes no further than this many mm aside of one another stand in one line."""
_OF_GAP, _LEAST = 0.6, 1.0
"""A stroke takes so much of the way to the next one, but no less than so many mm."""
_AIR = 1.0


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
        begins = [{number: strokes[:, 0, 0] for number, strokes in some} for some in every]
        return tuple(
            tuple((number, _shortened(strokes, _of_others(begins, size, number))) for number, strokes in some)
            for size, some in enumerate(every)
        )


def _spread(points: Floats) -> bool:
    """Whether points lie further apart across than up and down."""
    wide, high = np.ptp(points, axis=0)
    return bool(wide > high)


def _of_others(begins: Sequence[dict[int, Floats]], size: int, number: int) -> Floats:
    """Where the strokes of one notch begin in all other sizes `(n, 2)`."""
    found = [some[number] for other, some in enumerate(begins) if other != size and number in some]
    return np.concatenate([np.zeros((0, 2)), *found])


def _shortened(strokes: Floats, others: Floats) -> Floats:
    """Strokes that end before the nearest of the points `(n, 2)` that lies in line with them."""
    kept = []
    for stroke in strokes:
        start, end = stroke[0, 0], stroke[0, 3]
        long = float(norm(end - start))
        way = (end - start) / max(long, 1e-9)
        ahead, aside = (others - start) @ way, (others - start) @ np.array([-way[1], way[0]])
        near = ahead[(np.abs(aside) < _ASIDE) & (ahead > _AIR / 3) & (ahead < long + _AIR)]
        most = max(_LEAST, _OF_GAP * float(near.min())) if len(near) else long
        kept.append(line(start, start + min(long, most) * way)[None])
    return np.array(kept)
