"""What the colours, strokes and dots on a form mean: both scales, and the strokes for tension, doubt and level."""

from __future__ import annotations

from collections.abc import Sequence

from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Item, Label, Path, Stroke, circle, rectangle, straight_lines
from draft.paper.drawing.font import text_width, wrapped
from draft.paper.drawing.passage import Passage, said_as
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.worn.worn_colours import ACROSS, DOTS, DOUBT, DRAG, LEVEL, STANDS_OFF, STRETCHED, Band

SMALL = 2.9
_HEADINGS = ("key_stretched", "key_off")
_BOX, _TALL = 12.5, 4.6
_SIGN, _LINE, _SHORT = 10.5, 80.0, 60.0
"""mm that a stroke takes, that a line of its words is long at most, and within which long ones are not begun."""
_RIM = Stroke(0.15, colour="#46525e")


def key_items(x: float, y: float, width: float, wording: Wording) -> tuple[list[Item], float]:
    """The key from its upper left corner on, as wide as there is room; and where it ends down the paper.

    Each scale and each sign is a figure by itself, so that they can stand below one another on a narrow screen.
    """
    items: list[Item] = []
    percents = [wording.percent(band.least) for band in STRETCHED]
    lengths = [wording.length(band.least, 4) if wording.units != "both" else wording.centimetres(band.least)
               for band in STANDS_OFF]  # fmt: skip
    foot = y
    at = x
    for key, bands, figures in zip(_HEADINGS, (STRETCHED, STANDS_OFF), (percents, lengths), strict=True):
        heading = capitalised(wording.say(f"sit.{key}"))
        wide = max(_BOX * len(bands), text_width(heading, SMALL, True)) + 6
        if at > x and at + wide > x + width:
            at, y = x, foot + 3.5
        told = Passage("Figure", f"{heading} {', '.join(figures)}")
        items += said_as(_scale(at, y, heading, bands, figures), told)
        at += wide
        foot = y + SMALL + _TALL + 5.5
    signs, foot = _signs(x, foot, width, wording)
    return [*items, *signs], foot + 1


def _signs(x: float, y: float, width: float, wording: Wording) -> tuple[list[Item], float]:
    """The strokes with what they mean, beside one another as far as there is room; and where they end."""
    items, at, foot = list[Item](), x, y
    for sign in ("drag", "level", "doubt"):
        text = wording.say(f"sit.key_{sign}")
        room = min(x + width - at - _SIGN, _LINE)
        if at > x and text_width(text, SMALL) > room < _SHORT:
            at, y, room = x, foot, min(width - _SIGN, _LINE)
        lines = wrapped(text, SMALL, room)
        labels = [Label(line, at + _SIGN, y + 4.1 + 3.7 * k, SMALL) for k, line in enumerate(lines)]
        items += said_as([*_sign(sign, at, y + 3.2), *labels], Passage("Figure", capitalised(text)))
        at += _SIGN + max(text_width(line, SMALL) for line in lines) + 5
        foot = max(foot, y + 3.7 * len(lines) + 1.4)
    return items, foot


def _scale(x: float, y: float, heading: str, bands: Sequence[Band], figures: Sequence[str]) -> list[Item]:
    items: list[Item] = [Label(heading, x, y + SMALL, SMALL, bold=True)]
    top = y + SMALL + 1.4
    for k, (band, figure) in enumerate(zip(bands, figures, strict=True)):
        left = x + k * _BOX
        items.append(Path((rectangle(left, top, _BOX, _TALL),), _RIM, band.colour, closed=True))
        items += _marks(left, top, band, bands is STRETCHED)
        items.append(Label(figure, left, top + _TALL + 3.4, SMALL))
    return items


def _marks(left: float, top: float, band: Band, strokes: bool) -> list[Item]:
    if not band.mark:
        return []
    if strokes:
        lines = [[(left, top + y), (left + _BOX, top + y)] for y in (0.8, 2.3, 3.8)]
        return [straight_lines(lines, Stroke(band.mark, colour=ACROSS))]
    spots = [(left + 1.2 + 1.7 * k + 0.85 * (row % 2), top + 0.7 + 1.6 * row) for row in range(3) for k in range(6)]
    dots = tuple(circle(px, py, band.mark) for px, py in spots)
    return [Path(dots, fill=DOTS, closed=True)]


def _sign(sign: str, x: float, y: float) -> list[Item]:
    if sign == "drag":
        return [Path((lines_through([(x + 1, y + 1.0), (x + 8, y - 1.0)]),), DRAG)]
    if sign == "level":
        return [Path((lines_through([(x, y), (x + 9, y)]),), LEVEL)]
    slants = [[(x + k, y - 1.8), (x + k + 3.2, y + 1.4)] for k in (0.0, 1.9, 3.8, 5.7)]
    return [straight_lines(slants, DOUBT)]
