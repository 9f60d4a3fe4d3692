"""How marks for buttons, buttonholes and snaps are drawn: a cross in a ring, a line with bars, a ring with a dot."""

from __future__ import annotations

from draft.base.arrays import Floats
from draft.garment.garment import Mark
from draft.garment.marks import buttonhole, places
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import circle
from draft.paper.piece.piece_lines import FLIP

_BUTTON = 4.0
_SNAP, _BALL = 3.5, 1.0
_BAR = 5.0


def fastening(mark: Mark, body: int) -> tuple[Floats, ...]:
    """The lines of a fastening for one body, y down: runs of curves `(n, 4, 2)`."""
    if mark.fastening == "buttonhole":
        return tuple(lines_through(line) * FLIP for line in buttonhole(mark, body, _BAR))
    found: list[Floats] = []
    for x, y in places(mark, body) * FLIP:
        found += _button(float(x), float(y)) if mark.fastening == "button" else _snap(float(x), float(y))
    return tuple(found)


def _button(x: float, y: float) -> list[Floats]:
    cross = ((x - _BUTTON, y), (x + _BUTTON, y)), ((x, y - _BUTTON), (x, y + _BUTTON))
    return [circle(x, y, _BUTTON), *(lines_through(line) for line in cross)]


def _snap(x: float, y: float) -> list[Floats]:
    return [circle(x, y, _SNAP), circle(x, y, _BALL)]
