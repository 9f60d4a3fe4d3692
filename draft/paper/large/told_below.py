"""What a projected page says below its pieces: what the finished garment measures in each size, and the key of signs.

On the pieces themselves letters that are large enough to be projected leave no room for either.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.base.units import MM_PER_INCH
from draft.paper.drawing.drawing import Item, Label
from draft.paper.drawing.flow import Type
from draft.paper.drawing.wording import capitalised
from draft.paper.large.sign_columns import signs_in_columns
from draft.paper.pages.sheet import PatternDrawing
from draft.paper.piece.across_lines import levels_of
from draft.paper.piece.title_block import SMALLEST

_MARGIN, _GAP = 2 * MM_PER_INCH, 2 * MM_PER_INCH
_APART = 6.0
_PLAIN, _STRONG, _HEAD = Type(SMALLEST), Type(SMALLEST, bold=True), Type(14.0, bold=True)
_INSTEAD = {"fold": "middle"}
"""Signs of paper, and those of a projected piece, which is drawn whole."""


def told_below(
    pattern: PatternDrawing, width: float, height: float, enlarged: float, opened: bool
) -> tuple[tuple[Item, ...], float, float]:
    """The table and the key below all that is drawn on a page of these sides, mm, and the sides with them."""
    small: list[Item] = []
    wide, low = _measures(pattern, small)
    most = max((width - 2 * _MARGIN) / enlarged, wide)
    low = signs_in_columns(pattern, small, low + (_APART if low else 0.0), most, _INSTEAD if opened else {"fold": ""})
    if not small:
        return (), width, height
    top = height - _MARGIN + _GAP
    items = tuple(_enlarged(item, enlarged, np.array([_MARGIN, top])) for item in small)
    ends = most * enlarged + 2 * _MARGIN, top + low * enlarged + _MARGIN
    sides = np.ceil(np.maximum((width, height), ends) / MM_PER_INCH - 1e-6) * MM_PER_INCH
    return items, float(sides[0]), float(sides[1])


def _measures(pattern: PatternDrawing, items: list[Item]) -> tuple[float, float]:
    """A row for each level of any piece, a column a size; and how far right and down they reach."""
    levels = {
        name: values
        for piece in pattern.garment.pieces
        for name, values in levels_of(pattern.garment, piece, pattern.bodies)
    }
    if not levels:
        return 0.0, 0.0
    wording = pattern.wording
    rows: list[tuple[str, Sequence[str]]] = [("", pattern.sizes)]
    for name, values in levels.items():
        said = capitalised(wording.named(name))
        if wording.units != "in":
            rows.append((f"{said}, {wording.say('units.centimetre')}", [wording.number(mm / 10, 1) for mm in values]))
        if wording.units != "cm":
            rows.append((f"{said}, {wording.say('units.inch')}", [wording.inch_figure(mm) for mm in values]))
    first = max(_PLAIN.width(name) for name, _ in rows) + _APART
    step = max(_STRONG.width(figure) for _, figures in rows for figure in figures) + _APART
    items.append(_HEAD.label(wording.say("choosing.finished"), 0.0, _HEAD.size))
    y = _HEAD.line_height
    for number, (name, figures) in enumerate(rows):
        y += _PLAIN.line_height
        items += [_PLAIN.label(name, 0.0, y)] if name else []
        kind = _PLAIN if number else _STRONG
        items += [kind.label(figure, first + step * (k + 1) - _APART, y, "end") for k, figure in enumerate(figures)]
    return first + step * len(pattern.sizes), y + _PLAIN.line_height


def _enlarged(item: Item, factor: float, corner: np.ndarray) -> Item:
    """An item made larger about the corner of all, and moved to where that stands."""
    if isinstance(item, Label):
        return replace(item, x=item.x * factor + corner[0], y=item.y * factor + corner[1], size=item.size * factor)
    return replace(item, runs=tuple(run * factor + corner for run in item.runs))
