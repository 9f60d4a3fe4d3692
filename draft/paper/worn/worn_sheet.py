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
from draft.paper.worn.nearest_seen import BESIDE, Frame, Side, across
from draft.paper.worn.worn_colours import LEVEL
from draft.paper.worn.worn_key import key_items
from draft.paper.worn.worn_view import Place, view_items
from draft.paper.worn.worn_words import sentences
from draft.sitting.sit_said import Said
from draft.sitting.worn import Worn

WIDE, HIGH = 190.0, 259.0
"""mm: what A4 and Letter have within margins of a centimetre, but for what is longer."""
LEFT = 4.0
TOP = 23.0
SMALL, TEXT, HEAD = 2.9, 3.5, 4.6
_LINE, _APART = 4.5, 1.6
_GAP = 5.0
_TALLEST = 112.0  # mm of paper that a view takes
_SCALES = tuple(1 / part for part in (8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20))
_BELOW, _ABOVE, _OVER, _BESIDE = 70.0, 105.0, 45.0, 45.0
"""mm of the body that are shown below the hem, above the nape and what is highest, and beside what is widest."""
_LEVELS = 14.0
"""mm to the left of the front for its levels' names, where there is room."""
_OVER_SKIRTS = 130.0  # mm of the trunk above what hangs from the waist
_PAST = 10.0  # mm beside hands
_TRUNK, _HANGS = 330.0, 150.0
"""mm beside the middle in which a trunk is shown, and by which hands that hang are lower than the shoulder."""
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
    differs: tuple[Said, ...] = ()
    """Beside others on the same form: how it sits otherwise than the first of them."""


def sides_of(worn: Worn) -> tuple[Side, ...]:
    """From which sides it is looked at: from the right as well where that differs from the left."""
    return ("front", "side", "right", "back") if worn.apart else ("front", "side", "back")


def frame_of(worn: Worn, side: Side, floor: float | None = None) -> Frame:
    """What of a view is shown: the garment, and a little of the form round it."""
    seen = across(worn.points if len(worn.points) else _of_form(worn), side)
    skin = across(worn.bare if side in BESIDE or worn.from_waist else worn.skin, side)
    low = float(seen[:, 2].min()) - (_BELOW if len(worn.points) else 0.0)
    low = low if floor is None else min(low, floor)
    top = float(skin[:, 2].max()) + 6.0
    highest = float(seen[:, 2].max())
    high = max(min(top, max(_ABOVE, highest + _OVER)), highest + 6.0)
    if worn.from_waist:
        high = highest + _OVER_SKIRTS
    wide = float(np.abs(seen[:, 0]).max()) + _BESIDE if side not in BESIDE else 0.0
    wide = min(wide, float(np.abs(skin[:, 0]).max()) + _PAST) if len(worn.points) else wide
    if side not in BESIDE:
        return Frame(-wide, wide, low, high)
    body = skin[skin[:, 2] > low]
    ends = (min(seen[:, 0].min(), body[:, 0].min()), max(seen[:, 0].max(), body[:, 0].max()))
    return Frame(float(ends[0]) - 14.0, float(ends[1]) + 14.0, low, high)


def _of_form(worn: Worn) -> Floats:
    """What is shown of a form by itself: all of arms that are raised, and of those that hang what lies beside it."""
    arm = worn.trunk.arm.middles
    raised = arm[-1, 2] > arm[0, 2] - _HANGS
    return worn.skin if raised else worn.skin[np.abs(worn.skin[:, 0]) < _TRUNK]


def worn_sheet(sheet: WornSheet, wording: Wording) -> Drawing:
    """The sheet, 190 mm wide: front and back over the side, the key and the words, as large as fits on a page."""
    frames: dict[Side, Frame] = {side: frame_of(sheet.worn, side) for side in sides_of(sheet.worn)}
    most = scale_of(frames["front"])
    tried = (_Layout(sheet, frames, scale, wording) for scale in _SCALES if scale <= most)
    laid = next((one for one in tried if one.height <= HIGH), None) or _Layout(sheet, frames, _SCALES[-1], wording)
    views = list[Item]()
    for side, place in laid.places.items():
        marked = () if side == "right" else MARKED
        views += placed_view(sheet.worn, side, frames[side], place, wording, marked)
    figure = said_as(views, Passage("Figure", wording.say("sit.drawn")))
    items = (*laid.head, *figure, *laid.rest)
    return Drawing(sheet.title, WIDE, laid.height, (Layer("sit", items),), subtitle=sheet.subtitle)


class _Layout:
    """Where views stand on a sheet at one scale, and all that stands around them."""

    def __init__(self, sheet: WornSheet, frames: Mapping[Side, Frame], scale: float, wording: Wording) -> None:
        self.head = titled(sheet.title)
        under = wrapped(sheet.subtitle, TEXT, WIDE - 2 * LEFT)
        self.head += said_as([Label(line, LEFT, 15 + _LINE * k, TEXT) for k, line in enumerate(under)], Passage("P"))
        top = TOP + _LINE * (len(under) - 1)
        front = frames["front"]
        wide = (front.right - front.left) * scale
        middle = WIDE / 2 + max(min(WIDE / 2 - LEFT - wide - 2, _LEVELS - LEFT), 0.0)  # their levels stand to the left
        foot = top + (front.high - front.low) * scale + 9
        self.places: dict[Side, Place] = {
            "front": Place(middle - wide - 2, top, scale),
            "back": Place(middle + 2, top, scale),
        }
        right, side_foot = _LEVELS, foot
        for side in (one for one in frames if one in BESIDE):
            self.places[side] = Place(right, foot, scale)
            right += (frames[side].right - frames[side].left) * scale + _GAP
            side_foot = max(side_foot, foot + (frames[side].high - frames[side].low) * scale + 9)
        self.rest, words_foot = _words(right + 10 - _GAP, foot, sheet.told, wording)
        key, low = key_items(LEFT, max(side_foot, words_foot), WIDE - 2 * LEFT, wording)
        last, self.height = foot_items(low + 2, scale, wording, [sheet.whose])
        self.rest += [*key, *last]


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
    called = caption_of(worn, side)
    middle = place.x + (frame.right - frame.left) / 2 * place.scale
    bottom = float(place.down(np.array([frame.low]), frame)[0])
    items.append(Label(capitalised(wording.say(f"sit.{called}")), middle, bottom + 4.5, SMALL, "middle"))
    if worn.hem:
        items += _line_across(place, frame, worn.hem["back"])
    if side != "back":
        words = {name: capitalised(wording.say(f"sit.level_{name}")) for name in marked}
        items += levels_beside(worn, frame, place, words)
    return items


def caption_of(worn: Worn, side: Side) -> str:
    """The key of what stands under a view."""
    if side not in BESIDE or not len(worn.points) or (worn.from_waist and not worn.apart):
        return side
    return {"side": "left_side", "right": "right_side"}[side] if worn.apart else "without_arm"


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
