"""How lines are told apart: seven dash patterns that need no colour, and an ink for each that helps in colour."""

from __future__ import annotations

from functools import lru_cache

from draft.paper.drawing.drawing import INK, Stroke

CUT = 0.45
"""Width of a cutting line in mm: seen at arm's length, and narrower than the cut of scissors (common practice)."""
SEW = 0.18
FINE = 0.25
SIGN = 0.35
GREY = "#666666"

_DOT = 0.01  # with a round cap this is a dot; a length of nothing is dropped by some viewers

PATTERNS: tuple[tuple[float, ...], ...] = (
    (),
    (6.0, 2.0),
    (2.2, 1.5),
    (_DOT, 1.5),
    (7.0, 1.7, _DOT, 1.7),
    (13.0, 2.0, 2.2, 2.0),
    (7.0, 1.6, _DOT, 1.6, _DOT, 1.6),
)

BLUE, RUST = "#0a4a8f", "#a33c00"
"""What is drawn in colour beside a size's own lines."""

INKS = ("#000000", "#3c69ff", "#5a0f00", "#786900", "#2d0078", "#e10087", "#005a4b")
"""An ink for each of the patterns: dark enough to be read, apart for every kind of colour blindness, and in grey each
lighter or darker than the next, so that lines of neighbouring sizes are told apart."""

FOLD = Stroke(SIGN, (11.0, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6, 1.6))
"""A long dash and three short ones: no size's cutting line has such."""


MIDDLE = Stroke(SIGN, (1.2, 3.6))
"""The middle of a piece that is shown whole: sparse short dashes, so that nobody folds or cuts there."""


@lru_cache(maxsize=64)
def cutting_stroke(index: int) -> Stroke:
    """The cutting line of the size at `index` among those shown; after seven they come again, heavier."""
    pattern, round_ = PATTERNS[index % len(PATTERNS)], index // len(PATTERNS)
    dotted = _DOT in pattern
    width = CUT * (1 + 0.6 * round_) * (1.4 if pattern == (_DOT, 1.5) else 1.0)
    return Stroke(width, pattern, INKS[index % len(INKS)], cap="round" if dotted or not pattern else "butt")


def evenly_dashed(stroke: Stroke, length: float) -> Stroke:
    """The stroke with its pattern scaled a little so that a line of this length ends as it began, with a dash.

    Corners are then always inked. A line shorter than one pattern is left as it is.
    """
    period = sum(stroke.dash)
    times = round((length - stroke.dash[0]) / period) if stroke.dash else 0
    if times < 1:
        return stroke
    scale = length / (times * period + stroke.dash[0])
    dash = tuple(part * scale for part in stroke.dash)
    return Stroke(stroke.width, dash, stroke.colour, stroke.cap, stroke.join)


@lru_cache(maxsize=64)
def sewing_stroke(index: int) -> Stroke:
    """The sewing line that belongs to `cutting(index)`: thin, short dashes."""
    return Stroke(SEW, (2.4, 1.6), INKS[index % len(INKS)] if index else GREY)


@lru_cache(maxsize=64)
def sign_stroke(colour: str = INK) -> Stroke:
    """Notches, the arrows of grain and stretch, the bracket of the fold: the signs of the trade."""
    return Stroke(SIGN, colour=colour)


def square_stroke() -> Stroke:
    """The squares that test the scale: fine, with sharp corners to measure from."""
    return Stroke(FINE, join="miter")
