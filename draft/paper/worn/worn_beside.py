"""Several garments on forms beside one another: a row each from three sides, at one scale, with what is said."""

from __future__ import annotations

from collections.abc import Sequence

from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Drawing, Item, Label, Layer, Path, Stroke
from draft.paper.drawing.font import fitted_text, wrapped
from draft.paper.drawing.passage import Passage, said_as
from draft.paper.drawing.wording import Wording
from draft.paper.worn.nearest_seen import Frame, Side
from draft.paper.worn.worn_key import key_items
from draft.paper.worn.worn_sheet import (
    HIGH,
    LEFT,
    SMALL,
    TEXT,
    WIDE,
    WornSheet,
    foot_items,
    frame_of,
    placed_view,
    sides_of,
    titled,
)
from draft.paper.worn.worn_view import Place
from draft.paper.worn.worn_words import sentences
from draft.sitting.sit_said import Said
from draft.sitting.sit_told import WARNING

_WORDS = 70.0
"""mm for the words beside each row."""
_GAP = 3.0
_TOP = 14.0  # mm down, below the heading
_LINE = 3.9
_MOST, _ADVICE = 6, 1
"""Sentences beside a row at most, and those of them that say what to do: all are on the sheet of each."""
_APART, _BETWEEN = 1.2, 0.5
_SCALES = tuple(1 / part for part in (12, 13, 14, 15, 16, 17, 18, 20, 22, 25, 30, 40))
_RULE = Stroke(0.15, colour="#9a9a9a")


def worn_beside(
    title: str, sheets: Sequence[WornSheet], wording: Wording, lead: Sequence[str] = ()
) -> tuple[Drawing, ...]:
    """Drawings, 190 mm wide, with as many rows each as fit on a page; all at one scale, levels at the same height.

    `lead` is said before the first row.
    """
    floor = min(frame_of(sheet.worn, "front").low for sheet in sheets)
    frames = [{side: frame_of(sheet.worn, side, floor) for side in sides_of(sheet.worn)} for sheet in sheets]
    room = WIDE - 2 * LEFT - _WORDS - 4 * _GAP
    wide = max(sum(frame.right - frame.left for frame in row.values()) for row in frames)
    scale = next((one for one in _SCALES if one * wide <= room), _SCALES[-1])
    _, below = _foot(sheets, scale, 0.0, wording)
    drawings = list[Drawing]()
    items, y = _lead(lead)
    shown = list[WornSheet]()
    for sheet, row in zip(sheets, frames, strict=True):
        found, end = _row(sheet, row, scale, y, wording)
        if shown and end + below > HIGH:
            drawings.append(_drawing(title, items, shown, scale, y, wording))
            items, shown, (found, end) = [], [], _row(sheet, row, scale, _TOP, wording)
        items, y = [*items, *found], end
        shown.append(sheet)
    return (*drawings, _drawing(title, items, shown, scale, y, wording))


def _drawing(
    title: str, rows: Sequence[Item], shown: Sequence[WornSheet], scale: float, y: float, wording: Wording
) -> Drawing:
    last, low = _foot(shown, scale, y, wording)
    return Drawing(title, WIDE, low, (Layer("sit", (*titled(title), *rows, *last)),))


def _foot(shown: Sequence[WornSheet], scale: float, y: float, wording: Wording) -> tuple[list[Item], float]:
    """The key and what it is and is not, below the rows; and where it ends."""
    key, y = key_items(LEFT, y + 2, WIDE - 2 * LEFT, wording)
    last, y = foot_items(y + 2, scale, wording, [sheet.whose for sheet in shown])
    return [*key, *last], y


def _most_of(told: Sequence[Said], most: int) -> list[Said]:
    """So many sentences at most; what warns of the form is never left out, nor what is to be done first."""
    warns = [one for one in told if one.key in WARNING]
    advice = sorted((one for one in told if one.advice), key=lambda one: one.key == "measure")[:_ADVICE]
    others = [one for one in told if one.key not in WARNING and not one.advice]
    return [*others[: max(most - len(warns) - len(advice), 0)], *advice, *warns]


def _lead(lines: Sequence[str]) -> tuple[list[Item], float]:
    """Lines under the title, the first of them a heading."""
    items, y = list[Item](), _TOP
    for number, text in enumerate(lines):
        said = Passage("P" if number else "H2")
        for line in wrapped(text, TEXT, WIDE - 2 * LEFT, bold=not number):
            items += said_as([Label(line, LEFT, y + TEXT, TEXT, bold=not number)], said)
            y += _LINE + 0.6
    return items, y + 3 if lines else y


def _row(
    sheet: WornSheet, frames: dict[Side, Frame], scale: float, y: float, wording: Wording
) -> tuple[list[Item], float]:
    ends = [(LEFT, y), (WIDE - LEFT, y)]
    items: list[Item] = [Path((lines_through(ends),), _RULE)]
    title = Label(fitted_text(sheet.title, TEXT, WIDE - 2 * LEFT, bold=True), LEFT, y + 5, TEXT, bold=True)
    under = Label(fitted_text(sheet.subtitle, SMALL, WIDE - 2 * LEFT), LEFT, y + 9.4, SMALL)
    items += [*said_as([title], Passage("H2")), *said_as([under], Passage("P"))]
    views = list[Item]()
    top, x = y + 12, LEFT
    for side in frames:
        views += placed_view(sheet.worn, side, frames[side], Place(x, top, scale), wording, marked=())
        x += (frames[side].right - frames[side].left) * scale + _GAP
    items += said_as(views, Passage("Figure", wording.say("sit.drawn")))
    tall = max((frame.high - frame.low) * scale for frame in frames.values()) + 7
    left, low = WIDE - LEFT - _WORDS, top + 3
    room = _MOST - len(sheet.differs)
    texts = [(text, False) for text in sentences(_most_of(sheet.told, room), wording)]
    if sheet.differs:
        heading = (wording.say("sit.differs"), True)
        texts = [heading, *((text, False) for text in sentences(sheet.differs, wording)), *texts]
    for number, (text, bold) in enumerate(texts):
        low += _APART if number == len(sheet.differs) + 1 and sheet.differs else 0.0
        lines = wrapped(text, SMALL, _WORDS, bold)
        labels = [Label(line, left, low + _LINE * k, SMALL, bold=bold) for k, line in enumerate(lines)]
        items += said_as(labels, Passage("H3" if bold else "P"))
        low += _LINE * len(lines) + _BETWEEN
    return items, max(top + tall, low - 1) + 2
