"""Stripes and checks on a cutting layout: a thin line for each repeat, and a dot where a piece meets its neighbour."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.paper.drawing.drawing import Item, Path, Stroke, circle, straight_lines

_LINE = Stroke(0.18, colour="#8a8a8a")
_RADIUS = 0.7
_MOST = 400
"""Finer lines than so many would be a grey cloth."""


def repeat_lines(at: Floats, every: Floats, width: float, low: float, high: float) -> tuple[Floats, ...]:
    """The lines `(2, 2)` of cloth whose stripes return after `every` `(2,)` mm across and along, one lying at `at`.

    The cloth is `width` mm wide and runs from `low` to `high`.
    """
    across = [np.array([(x, low), (x, high)]) for x in _places(at[0], every[0], 0.0, width)]
    along = [np.array([(0.0, y), (width, y)]) for y in _places(at[1], every[1], low, high)]
    return (*across, *along)


def _places(at: float, every: float, low: float, high: float) -> Floats:
    if not every or (high - low) / every > _MOST:
        return np.zeros(0)
    return at + every * np.arange(np.ceil((low - at) / every), np.floor((high - at) / every) + 1)


def drawn_repeat(lines: Sequence[Floats]) -> list[Item]:
    """The lines `(2, 2)` of the sheet, thin."""
    return [straight_lines(lines, _LINE)] if lines else []


def meeting_dots(points: Floats) -> list[Item]:
    """Dots at points `(n, 2)` of the sheet."""
    runs = tuple(circle(float(x), float(y), _RADIUS) for x, y in points)
    return [Path(runs, None, "#000000", closed=True)] if runs else []
