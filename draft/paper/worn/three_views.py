"""A garment on a form from three sides in one row, with the key to its colours and no words: for a page of words."""

from __future__ import annotations

from draft.paper.drawing.drawing import Drawing, Item, Layer
from draft.paper.drawing.wording import Wording
from draft.paper.worn.nearest_seen import SIDES, Frame, Side
from draft.paper.worn.worn_key import key_items
from draft.paper.worn.worn_sheet import MARKED, frame_of, placed_view
from draft.paper.worn.worn_view import Place
from draft.sitting.worn import Worn

_LEFT = 16.0
"""mm for the levels' names."""
_GAP = 4.0


def three_views(worn: Worn, wide: float, wording: Wording, key: bool = True) -> Drawing:
    """The drawing, so many mm wide."""
    frames: dict[Side, Frame] = {side: frame_of(worn, side) for side in SIDES}
    body = sum(frame.right - frame.left for frame in frames.values())
    scale = min((wide - _LEFT - 2 * _GAP) / body, 0.1)
    x, items = _LEFT, list[Item]()
    for side in SIDES:
        marked = MARKED if side == "front" else ()
        items += placed_view(worn, side, frames[side], Place(x, 2.0, scale), wording, marked)
        x += (frames[side].right - frames[side].left) * scale + _GAP
    foot = 2.0 + max((frame.high - frame.low) * scale for frame in frames.values()) + 8.0
    if key:
        found, foot = key_items(0.0, foot, wide, wording)
        items += found
    return Drawing("sit", wide, foot, (Layer("sit", tuple(items)),))
