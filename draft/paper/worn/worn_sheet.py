"""One sheet: a garment on a form from front, back and side, what the colours mean, and what there is to say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Drawing, Item, Label, Layer, Path
from draft.paper.drawing.font import fitted_text, text_width, wrapped
from draft.paper.drawing.passage import Passage, said_as
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.worn.nearest_seen import SIDES, Frame, Side, across
from draft.paper.worn.worn_colours import LEVEL
from draft.paper.worn.worn_key import key_items
from draft.paper.worn.worn_view import Place, view_items
from draft.paper.worn.worn_words import sentences
from draft.sitting.sit_said import Said
from draft.sitting.worn import Worn

WIDE = 190.0
LEFT = 4.0
TOP = 23.0
SMALL, TEXT, HEAD = 2.9, 3.5, 4.6
_LINE, _APART = 4.5, 1.6
_GAP = 5.0
_TALLEST = 112.0  # mm of paper that a view takes
_SCALES = (0.125, 0.1, 0.08, 0.0625, 0.05)
_BELOW, _ABOVE, _BESIDE = 70.0, 105.0, 45.0
"""mm of the body that are shown below the hem, above the nape, and beside what is widest."""
MARKED = ("bust", "chest", "waist", "hip")
"""The levels that are named beside a view, where its form has them."""


@dataclass(frozen=True, eq=False)
class WornSheet:
    """What one sheet is drawn of: the garment worn, its title and the line under it, and what there is to say."""

    title: str
    subtitle: str
    worn: Worn
    told: tuple[Said, ...]
    whose: str = "not_you"
    """The key of what is said of the form: of somebody's measures, of a chart's, or of some near those."""


def frame_of(worn: Worn, side: Side, floor: float | None = None) -> Frame:
    """What of a view is shown: the garment, and a little of the form round it."""
    shown = worn.points if len(worn.points) else worn.skin[np.abs(worn.skin[:, 0]) < 330.0]
    seen = across(shown, side)
    skin = across(worn.bare if side == "side" else worn.skin, side)
    low = float(seen[:, 2].min()) - (_BELOW if len(worn.points) else 0.0)
    low = low if floor is None else min(low, floor)
    high = min(float(skin[:, 2].max()) + 6.0, _ABOVE)
    wide = float(np.abs(seen[:, 0]).max()) + _BESIDE if side != "side" else 0.0
    if side != "side":
        return Frame(-wide, wide, low, high)
    body = skin[skin[:, 2] > low]
    ends = (min(seen[:, 0].min(), body[:, 0].min()), max(seen[:, 0].max(), body[:, 0].max()))
    return Frame(float(ends[0]) - 14.0, float(ends[1]) + 14.0, low, high)


def worn_sheet(sheet: WornSheet, wording: Wording) -> Drawing:
    """The sheet, 190 mm wide: front and back over the side, the key and the words."""
    worn = sheet.worn
    frames: dict[Side, Frame] = {side: frame_of(worn, side) for side in SIDES}
    scale = scale_of(frames["front"])
    items = titled(sheet.title)
    under = wrapped(sheet.subtitle, TEXT, WIDE - 2 * LEFT)
    items += said_as([Label(line, LEFT, 15 + _LINE * k, TEXT) for k, line in enumerate(under)], Passage("P"))
    top = TOP + _LINE * (len(under) - 1)
    front = frames["front"]
    wide = (front.right - front.left) * scale
    middle = WIDE / 2
    views = placed_view(worn, "front", front, Place(middle - wide - 2, top, scale), wording)
    views += placed_view(worn, "back", frames["back"], Place(middle + 2, top, scale), wording)
    foot = top + (front.high - front.low) * scale + 9
    beside = frames["side"]
    place = Place(LEFT + 4, foot, scale)
    views += placed_view(worn, "side", beside, place, wording)
    items += said_as(views, Passage("Figure", wording.say("sit.drawn")))
    right = place.x + (beside.right - beside.left) * scale + 10
    side_foot = foot + (beside.high - beside.low) * scale + 9
    said, words_foot = _words(right, foot, sheet.told, wording)
    items += said
    low = max(side_foot, words_foot)
    key, low = key_items(LEFT, low, WIDE - 2 * LEFT, wording)
    items += key
    last, low = foot_items(low + 2, scale, wording, [sheet.whose])
    return Drawing(sheet.title, WIDE, low, (Layer("sit", (*items, *last)),), subtitle=sheet.subtitle)


def titled(title: str) -> list[Item]:
    """The heading of a sheet."""
    label = Label(fitted_text(title, HEAD, WIDE - 2 * LEFT, bold=True), LEFT, 9, HEAD, bold=True)
    return list(said_as([label], Passage("H1")))


def scale_of(front: Frame) -> float:
    """Mm of paper to mm of the body: as large as there is room for two beside one another."""
    wide, tall = front.right - front.left, front.high - front.low
    most = min((WIDE - 2 * LEFT - _GAP) / 2 / wide, _TALLEST / tall)
    return next((scale for scale in _SCALES if scale <= most), _SCALES[-1])


def placed_view(
    worn: Worn, side: Side, frame: Frame, place: Place, wording: Wording, marked: Sequence[str] = MARKED
) -> list[Item]:
    """A view with its name below it, its levels beside it, and the line that is level with the hem."""
    items = view_items(worn, side, frame, place)
    middle = place.x + (frame.right - frame.left) / 2 * place.scale
    bottom = float(place.down(np.array([frame.low]), frame)[0])
    items.append(Label(capitalised(wording.say(f"sit.{side}")), middle, bottom + 4.5, SMALL, "middle"))
    if worn.hem:
        items += _line_across(place, frame, worn.hem["back"])
    if side != "back":
        words = {name: capitalised(wording.say(f"sit.level_{name}")) for name in marked}
        items += levels_beside(worn, frame, place, words)
    return items


def _line_across(place: Place, frame: Frame, height: float) -> list[Item]:
    y = float(place.down(np.array([height]), frame)[0])
    ends: Floats = np.array([(place.x, y), (place.x + (frame.right - frame.left) * place.scale, y)])
    return [Path((lines_through(ends),), LEVEL)]


def levels_beside(worn: Worn, frame: Frame, place: Place, words: Mapping[str, str]) -> list[Item]:
    """A tick and words at each level that they are given for, to the left of the view."""
    items: list[Item] = []
    for name, word in words.items():
        height = worn.levels.get(name)
        if height is None or not frame.low < height < frame.high:
            continue
        y = float(place.down(np.array([height]), frame)[0])
        items.append(Path((lines_through([(place.x - 1.5, y), (place.x + 1.5, y)]),), LEVEL))
        items.append(Label(word, max(place.x - 2, 1 + text_width(word, SMALL)), y - 1.0, SMALL, "end"))
    return items


def _words(x: float, y: float, told: Sequence[Said], wording: Wording) -> tuple[list[Item], float]:
    """What is seen and what to change, each with its heading, between `x` and the right margin."""
    items: list[Item] = []
    seen = [one for one in told if not one.advice]
    advice = [one for one in told if one.advice]
    for heading, some in (("words", seen), ("change", advice)):
        if not some:
            continue
        items += said_as([Label(wording.say(f"sit.{heading}"), x, y + TEXT, TEXT, bold=True)], Passage("H2"))
        y += _LINE + 1.2
        for text in sentences(some, wording):
            lines = wrapped(text, TEXT, WIDE - LEFT - x)
            items += said_as([Label(line, x, y + TEXT + _LINE * k, TEXT) for k, line in enumerate(lines)], Passage("P"))
            y += _LINE * len(lines) + _APART
        y += 2.2
    return items, y


def foot_items(y: float, scale: float, wording: Wording, whose: Sequence[str]) -> tuple[list[Item], float]:
    """What it is and what it is not."""
    whose_forms = " ".join(wording.say(f"sit.{key}") for key in dict.fromkeys(whose))
    items: list[Item] = list(said_as([Label(whose_forms, LEFT, y + TEXT, TEXT, bold=True)], Passage("P")))
    number = wording.say("sit.scale", number=wording.number(1 / scale, 0))
    items += said_as([Label(number, WIDE - LEFT, y + TEXT, SMALL, "end")], Passage("P"))
    lines = wrapped(wording.say("sit.not_said"), SMALL, WIDE - 2 * LEFT)
    items += said_as([Label(line, LEFT, y + TEXT + 5 + 3.8 * k, SMALL) for k, line in enumerate(lines)], Passage("P"))
    return items, y + TEXT + 5 + 3.8 * len(lines) + 2
