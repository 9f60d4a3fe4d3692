"""What the garment looks like after a step, small beside the step's drawing, where the step changes that."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.paper.booklet.folded_drawing import GROUND, WRONG
from draft.paper.booklet.set_blocks import NOTHING, SIDE, Block
from draft.paper.drawing.drawing import Item, Path, Stroke
from draft.paper.flat.canvas import Canvas

SMALL, SMALL_TALL = 20.0, 22.0
"""Width and height of a small view at most, mm."""
_GAP = 3.0


def changed_view(before: Mapping[str, Canvas], after: Mapping[str, Canvas]) -> Canvas | None:
    """The first view that is not as it was; None where all are."""
    found = [view for key, view in after.items() if view.items and not _alike(before.get(key), view)]
    return found[0] if found else None


def view_drawn(
    view: Canvas, wide: float, tall: float, thick: Sequence[Floats] = (), seam: Stroke | None = None
) -> Block:
    """A view no wider and taller than this, mm, with lines of it `(n, 4, 2)`, mm of the cloth, thick."""
    box = view.box()
    scale = min(wide / float(box[1, 0] - box[0, 0]), tall / float(box[1, 1] - box[0, 1]))
    flip, corner = np.array([scale, -scale]), np.array([-box[0, 0], box[1, 1]]) * scale
    items: list[Item] = [
        Path(tuple(run * flip + corner for run in runs), _thin(stroke), _filled(fill), closed=bool(fill))
        for fill, runs, stroke in view.items
    ]
    if thick:
        items.append(Path(tuple(run * flip + corner for run in thick), seam))
    return Block(tuple(items), float(box[1, 1] - box[0, 1]) * scale)


def beside(main: Block, small: Block) -> Block:
    """A small drawing at the right of another where there is room for it, their feet level, else below it."""
    if not (main.items and small.items):
        return main if main.items else small
    wide, narrow = _width(main), _width(small)
    if wide + _GAP + narrow <= SIDE:
        height = max(main.height, small.height)
        placed = small.moved(wide + _GAP, height - small.height)
        return Block((*main.moved(0.0, height - main.height).items, *placed.items), height)
    placed = small.moved(0.0, main.height + _GAP)
    return Block((*main.items, *placed.items), main.height + _GAP + small.height)


def small_view(view: Canvas | None) -> Block:
    """A view small enough to stand beside a step's drawing."""
    return view_drawn(view, SMALL, SMALL_TALL) if view else NOTHING


def _width(block: Block) -> float:
    return max(float(run[..., 0].max()) for item in block.items if isinstance(item, Path) for run in item.runs)


def _alike(one: Canvas | None, other: Canvas) -> bool:
    """Whether two views show the same lines."""
    if one is None or len(one.items) != len(other.items):
        return False
    return all(
        fill == fill_too
        and stroke == stroke_too
        and len(runs) == len(runs_too)
        and all(a.shape == b.shape and np.allclose(a, b) for a, b in zip(runs, runs_too, strict=True))
        for (fill, runs, stroke), (fill_too, runs_too, stroke_too) in zip(one.items, other.items, strict=True)
    )


def _thin(stroke: Stroke | None) -> Stroke | None:
    return None if stroke is None else Stroke(0.22, tuple(part * 0.6 for part in stroke.dash), "#555555")


def _filled(fill: str) -> str:
    """In the views the right side is seen, and the wrong one through openings; here the right side is grey."""
    return {"#ffffff": GROUND, GROUND: WRONG}.get(fill, fill)
