"""Room and tightness level by level, beside the form at its heights: pale bars to the right, dark ones to the left."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Item, Label, Path, Stroke, rectangle
from draft.paper.drawing.wording import Wording
from draft.paper.pictures.form_views import ROOM, TIGHT, Placed

AXIS = Stroke(0.25, colour="#1d2b3a")
RIM = Stroke(0.12, colour="#7d95ad")
SMALL = 2.9
_THICKEST = 3.0
_CM = 10.0  # mm of ease
_LEAST_ROOM, _LEAST_TIGHT = 120.0, 30.0  # mm of ease that the chart shows at least on either side
_STEPS = (5, 10, 20, 50, 100)


def chart_items(heights: Floats, eases: Floats, at: Placed, ends: tuple[float, float], wording: Wording) -> list[Item]:
    """The chart of ease `(n,)`, mm, at heights `(n,)`, between two places across the paper and beside the views."""
    left, right = ends
    most, least = max(float(eases.max()), _LEAST_ROOM), min(float(eases.min()), -_LEAST_TIGHT)
    scale = (right - left) / (most - least)
    zero = left - least * scale
    thick = min(at.scale * float(np.ptp(heights)) / max(len(heights) - 1, 1) * 0.8, _THICKEST)
    thick = thick if len(heights) > 1 else _THICKEST
    pairs = zip(heights.tolist(), eases.tolist(), strict=True)
    items: list[Item] = [_bar(at, height, ease * scale, zero, thick) for height, ease in pairs]
    top, low = at.up(float(heights.max())) - 2, at.up(float(heights.min())) + 2
    items.append(Path((lines_through([(zero, top), (zero, low)]),), AXIS))
    room = Label(wording.say("form.cm_of_room"), zero + 1, low + 8, SMALL)
    tight = Label(wording.say("form.tight"), zero - 1, low + 8, SMALL, "end")
    return [*items, *_figures(least, most, scale, zero, low), room, tight]


def _bar(at: Placed, height: float, long: float, zero: float, thick: float) -> Path:
    y = at.up(height) - thick / 2
    if long >= 0:
        return Path((rectangle(zero, y, long, thick),), RIM, ROOM, closed=True)
    return Path((rectangle(zero + long, y, -long, thick),), None, TIGHT, closed=True)


def _figures(least: float, most: float, scale: float, zero: float, low: float) -> list[Item]:
    """The scale below: in centimetres round the body, on either side of the body's own girth."""
    step = next((s for s in _STEPS if (most - least) / _CM / s <= 5), _STEPS[-1])
    marks = [k * step for k in range(int(np.ceil(least / _CM / step)), int(most / _CM // step) + 1)]
    items: list[Item] = []
    for mark in marks:
        x = zero + mark * _CM * scale
        items += [Path((lines_through([(x, low), (x, low + 1)]),), AXIS), Label(f"{mark}", x, low + 4, SMALL, "middle")]
    return items
