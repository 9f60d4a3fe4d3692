"""The key of lines and signs in columns side by side, for sheets that have no page of instructions."""

from __future__ import annotations

from collections.abc import Mapping

from draft.paper.drawing.drawing import Item
from draft.paper.drawing.flow import Flow, Frame, Type
from draft.paper.pages.sheet import PatternDrawing
from draft.paper.pages.sign_key import put_signs, signs_of

_COLUMN, _APART = 78.0, 6.0
"""The width of a column, and between two, mm."""
_HEAD = Type(14.0, bold=True)


def signs_in_columns(
    pattern: PatternDrawing, items: list[Item], top: float, wide: float, instead: Mapping[str, str] | None = None
) -> float:
    """Add the key to items, in as many columns as there is room for; how far down it reaches, mm.

    Some signs may have others `instead`, or none.
    """
    every = [(instead or {}).get(one, one) for one in signs_of(pattern.garment, pattern.lines, pattern.bodies)]
    signs = [one for one in every if one]
    if not signs:
        return top
    items.append(_HEAD.label(pattern.wording.say("guide.signs"), 0.0, top + _HEAD.size))
    columns = max(int((wide + _APART) / (_COLUMN + _APART)), 1)
    each, low = -(-len(signs) // columns), top
    for column in range(columns):
        frame = Frame(0, column * (_COLUMN + _APART), top + 1.5 * _HEAD.line_height, _COLUMN, float("inf"))
        flow = Flow([frame], {0: items})
        put_signs(flow, signs[column * each : (column + 1) * each], pattern.wording)
        low = max(low, flow.y)
    return low
