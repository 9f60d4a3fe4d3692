"""A garment on a form from three sides, with the key to its colours and no words: in a row, or each by itself.

For a page of words in a booklet they stand in a row; on a screen each is a picture of its own, all at one scale.
"""

from __future__ import annotations

from draft.paper.drawing.drawing import Drawing, Item, Layer
from draft.paper.drawing.passage import Passage, said_as
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.worn.nearest_seen import Frame, Side
from draft.paper.worn.worn_key import key_items
from draft.paper.worn.worn_sheet import MARKED, caption_of, frame_of, placed_view, sides_of
from draft.paper.worn.worn_view import Place
from draft.sitting.worn import Worn

_LEFT = 16.0
"""mm for the levels' names."""
_GAP = 4.0
_MOST = 0.1
_KEY = 96.0
"""mm of a key that is read on a phone too."""


def three_views(worn: Worn, wide: float, wording: Wording, key: bool = True) -> Drawing:
    """The drawing, so many mm wide."""
    frames = _frames(worn)
    body = sum(frame.right - frame.left for frame in frames.values())
    scale = min((wide - _LEFT - (len(frames) - 1) * _GAP) / body, _MOST)
    x, items = _LEFT, list[Item]()
    for side in frames:
        marked = MARKED if side == "front" else ()
        view = placed_view(worn, side, frames[side], Place(x, 2.0, scale), wording, marked)
        items += said_as(view, Passage("Figure", told_of(worn, side, wording)))
        x += (frames[side].right - frames[side].left) * scale + _GAP
    foot = 2.0 + max((frame.high - frame.low) * scale for frame in frames.values()) + 8.0
    if key:
        found, foot = key_items(0.0, foot, wide, wording)
        items += found
    return Drawing("sit", wide, foot, (Layer("sit", tuple(items)),))


def views_apart(worn: Worn, wording: Wording) -> dict[Side, Drawing]:
    """Each view by itself, all of one width and height, so that they are shown at one scale."""
    frames = _frames(worn)
    widest = max(frame.right - frame.left for frame in frames.values()) * _MOST
    wide, tall = widest + 2 * _LEFT, max(frame.high - frame.low for frame in frames.values()) * _MOST + 8.0
    found: dict[Side, Drawing] = {}
    for side, frame in frames.items():
        x = (wide - (frame.right - frame.left) * _MOST) / 2
        items = placed_view(worn, side, frame, Place(x, 2.0, _MOST), wording)
        found[side] = Drawing(told_of(worn, side, wording), wide, tall, (Layer(side, tuple(items)),))
    return found


def key_alone(wording: Wording) -> Drawing:
    """The key to the colours by itself."""
    items, foot = key_items(1.0, 1.0, _KEY - 2.0, wording)
    return Drawing("", _KEY, foot, (Layer("key", tuple(items)),))


def told_of(worn: Worn, side: Side, wording: Wording) -> str:
    """What a view shows, to who does not see it."""
    return wording.say("sit.drawn_from", side=capitalised(wording.say(f"sit.{caption_of(worn, side)}")))


def _frames(worn: Worn) -> dict[Side, Frame]:
    return {side: frame_of(worn, side) for side in sides_of(worn)}
