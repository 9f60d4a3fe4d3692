"""Where the words stand along a line on which something is placed, such as a centre front or the outline of a pocket.

A maker has one page of a long line before her at a time, and each of its pages without a word would leave her guessing:
a long line is named in both of its halves.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import norm
from draft.paper.drawing.room import Spot
from draft.paper.piece.surface import Surface
from draft.paper.piece.words_at_marks import longest_leg, spots_about

_LONG = 300.0
"""A line of so many mm lies on more than one page."""
_AT = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)
"""Where along its part of the line a name may stand, the best first."""


def is_long(lines: Sequence[Floats]) -> bool:
    """Whether the first of some lines `(n, 2)` has a leg too long for one page."""
    begin, end = longest_leg(lines[0])
    return bool(np.isfinite(lines[0]).all()) and float(norm(end - begin)) > _LONG


def placements_named(lines: Sequence[Floats], texts: Sequence[str], surface: Surface) -> Iterator[Iterator[list[Spot]]]:
    """For each half of a line, given in a few sizes `(n, 2)`, y down, rows of places: first those on its own pages."""
    legs = [longest_leg(line) for line in lines if np.isfinite(line).all()]
    for half in (0.0, 0.5):
        parts = [(begin + (end - begin) * half, begin + (end - begin) * (half + 0.5)) for begin, end in legs]
        yield _rows(parts, texts, surface)


def _rows(parts: Sequence[tuple[Floats, Floats]], texts: Sequence[str], surface: Surface) -> Iterator[list[Spot]]:
    for joined in (True, False) if surface.edges is not None else (False,):
        for begin, end in parts:
            for at in _AT:
                about = begin + np.outer([at - 0.05, at + 0.05], end - begin)
                yield spots_about(about, texts, surface, joined)
