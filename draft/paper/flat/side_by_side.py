"""Both views of the finished garment beside one another, as large as they are asked for."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Path
from draft.paper.drawing.wording import ENGLISH, Wording, capitalised
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.views import views

_GAP = 12.0
_LABEL = 10.0 * PT


def flat_drawing(garment: Garment, body: int, height: float = 90.0, wording: Wording = ENGLISH) -> Drawing | None:
    """Front and back side by side, so many mm high without their words; None if there is no panel to draw."""
    canvases = views(garment, body)
    if not canvases:
        return None
    return _side_by_side(
        [(canvas, wording.say(f"flat.{key}")) for key, canvas in canvases.items()], garment, height, wording
    )


def _side_by_side(canvases: Sequence[tuple[Canvas, str]], garment: Garment, height: float, wording: Wording) -> Drawing:
    boxes = [canvas.box() for canvas, _ in canvases]
    floors = [float(box[0, 1]) + canvas.hangs for (canvas, _), box in zip(canvases, boxes, strict=True)]
    below = max(canvas.hangs for canvas, _ in canvases)
    scale = height / (below + max(float(box[1, 1]) - floor for floor, box in zip(floors, boxes, strict=True)))
    items: list[Item] = []
    x = 1.0
    for (canvas, word), box, floor in zip(canvases, boxes, floors, strict=True):
        corner = np.array([x - float(box[0, 0]) * scale, 1.0 + height + (floor - below) * scale])
        items += _scaled(canvas, scale, corner)
        middle = x + float(box[1, 0] - box[0, 0]) * scale / 2
        items.append(Label(capitalised(word), middle, height + 7.5, _LABEL, "middle"))
        x += float(box[1, 0] - box[0, 0]) * scale + _GAP
    title = wording.titled(garment)
    return Drawing(title, x - _GAP + 1.0, height + 9.0, (Layer("flat", tuple(items)),))


def _scaled(canvas: Canvas, scale: float, corner: Floats) -> list[Item]:
    flip = np.array([scale, -scale])
    return [
        Path(tuple(run * flip + corner for run in runs), stroke, fill, closed=bool(fill))
        for fill, runs, stroke in canvas.items
    ]
