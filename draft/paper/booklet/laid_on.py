"""A small drawing of one piece laid on another, right sides together, so that the edges of their seam meet.

The lower one is grey, for its right side is up; the upper one is turned over, white and a little aside.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import norm
from draft.geometry.flatten import polyline
from draft.paper.booklet.folded_drawing import laid_aside
from draft.paper.booklet.set_blocks import Block
from draft.paper.drawing.drawing import Stroke

_OVER = np.array([-1.0, 1.0])  # turns a piece over
_LEAST = 0.15
"""Of the smaller piece so much lies on the other, where they can be laid on one another at all."""


@dataclass(frozen=True)
class Lying:
    """A piece as it was drafted, y up: its outline `(n, 4, 2)` opened out, and where its side of the seam starts and
    ends `(2, 2)`."""

    outline: Floats
    ends: Floats
    single: bool
    """Whether it has neither another half nor another of its pair."""

    @property
    def area(self) -> float:
        """What it covers, mm²."""
        return float(_shape(self.outline).area)

    def turned(self) -> Lying:
        """The other of its pair, or its other half; or this one with its wrong side up."""
        return Lying(self.outline * _OVER, self.ends * _OVER, self.single)


def laid_on(lower: Lying, upper: Lying, thick: Sequence[Floats], line: Stroke, seam: Stroke) -> Block | None:
    """The upper piece on the lower one, with lines of the upper `(n, 4, 2)`, y up, thick; None where they hardly meet.

    Of a pair, and of the halves of a piece, that one lies below on which the upper piece comes to lie.
    """
    below, above, flip = max(_ways(lower, upper), key=lambda way: _shared(way[0], way[1]))
    move = _onto(above.ends, below.ends)
    outline = _moved(above.outline, move)
    least = min(_shape(below.outline).area, _shape(outline).area) * _LEAST
    if _shared(below, above) < least:
        return None
    return laid_aside([below.outline, outline], [_moved(run * flip, move) for run in thick], line, seam)


def _ways(lower: Lying, upper: Lying) -> list[tuple[Lying, Lying, Floats]]:
    """Ways to lay the upper piece on the lower one with its wrong side up, and what its lines are turned by."""
    if not lower.single:
        return [(below, upper.turned(), _OVER) for below in (lower, lower.turned())]
    return [(lower, upper.turned(), _OVER), *([] if upper.single else [(lower, upper, np.ones(2))])]


def _onto(ends: Floats, others: Floats) -> Floats:
    """The turn and the shift `(2,)`, complex, that bring the ends of one line onto those of another."""
    one, other = ends[..., 0] + 1j * ends[..., 1], others[..., 0] + 1j * others[..., 1]
    turn = (other[1] - other[0]) / (one[1] - one[0])
    turn /= abs(turn)
    return np.array([turn, other.mean() - turn * one.mean()])


def _moved(points: Floats, move: Any) -> Floats:
    at = (points[..., 0] + 1j * points[..., 1]) * move[0] + move[1]
    return np.stack([at.real, at.imag], axis=-1)


def _shape(outline: Floats) -> Any:
    import shapely

    return shapely.Polygon(polyline(outline)).buffer(0)


def _shared(below: Lying, above: Lying) -> float:
    outline = _moved(above.outline, _onto(above.ends, below.ends))
    return float(_shape(below.outline).intersection(_shape(outline)).area)


def is_straightforward(ends: Floats) -> bool:
    """Whether a side begins and ends `(2, 2)`, mm, at two places, so that it has a direction."""
    return float(norm(ends[1] - ends[0])) > 1.0
