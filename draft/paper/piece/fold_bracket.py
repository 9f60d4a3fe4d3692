"""The bracket along the fold of a piece, with the words that it is placed on the fold (common practice)."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.geometry import cubic
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path
from draft.paper.drawing.room import Spot, label_spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece.arrows import ARROW_WORDS, HEAD
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST

FOLD_IN = 11.0
"""How far the fold bracket stands inside the fold, in mm."""
FOLD_LONGEST = 240.0
_SHARE, _MOST = 0.6, 0.96
"""Of the fold: how long its bracket is, and at most where words need that."""
_BESIDE_WORDS = 5.0
"""For both arrows beside the words, mm."""
_DEEPER = (0.0, 6.0, 12.0, 18.0)
"""By so many mm further in where the edge of a page runs along the fold."""
_LARGEST = 2.0  # larger words would stand over the bracket
_OFF_PAGE_EDGE = 3.0
_SLIDE = 6.0
"""Along the fold words are tried so many mm apart, where a line lies across the middle."""
_SHARES = (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.9, 0.1)
"""Of the fold: where words that are never turned are tried."""


def fold_bracket(
    start: Floats, end: Floats, inside: Floats, within: Any, wording: Wording, surface: Surface
) -> tuple[tuple[Item, ...], Any]:
    """The fold bracket and its words between two points of the fold, and the shape it takes up.

    The arrows point at the fold; `inside` is the unit vector `(2,)` from the fold into the piece, and `within` the
    shape that holds the words. They stand on one page if they have room on one.
    """
    for deeper in _DEEPER if surface.edges is not None else ():
        for ends in (*_on_one_page(start, end, inside * (FOLD_IN / 2 + deeper), surface), (start, end)):
            items, taken = _bracket(*ends, inside, deeper, within, wording, surface)
            words = label_spot(items[-1]).shape()
            if not surface.cross(words) and within.contains(words):
                return items, taken
    return _bracket(start, end, inside, 0.0, within, wording, surface)


def _on_one_page(start: Floats, end: Floats, aside: Floats, surface: Surface) -> list[tuple[Floats, Floats]]:
    """The parts of the fold between two points whose words, so far `aside`, lie on one page each, the longest first."""
    import shapely

    left = surface.off(shapely.LineString([start + aside, end + aside]), _OFF_PAGE_EDGE)
    parts = sorted((part for part in shapely.get_parts(left) if part.length > 0), key=lambda part: -round(part.length))
    ends = [(np.array(part.coords[0]) - aside, np.array(part.coords[-1]) - aside) for part in parts]
    return [(a, b) if cubic.dot(b - a, end - start) > 0 else (b, a) for a, b in ends]


def _bracket(
    start: Floats, end: Floats, inside: Floats, deeper: float, within: Any, wording: Wording, surface: Surface
) -> tuple[tuple[Path, Path, Label], Any]:
    import shapely

    along, middle = cubic.unit(end - start), (start + end) / 2
    long, words = float(cubic.norm(end - start)), _words_wide(wording, surface)
    reach = min(FOLD_LONGEST, max(_SHARE * long, min(words, _MOST * long))) / 2
    a, b = middle - along * reach, middle + along * reach
    tips = [p + inside * 1.0 for p in (a, b)]
    corners = [p + inside * (FOLD_IN + deeper) for p in (a, b)]
    bracket = lines_through([tips[0], corners[0], corners[1], tips[1]])
    heads = tuple(
        lines_through([t + inside * HEAD - along * 1.4, t, t + inside * HEAD + along * 1.4], closed=True) for t in tips
    )
    taken = shapely.LineString([a, b]).buffer(FOLD_IN + deeper + 5, cap_style="flat")
    asides = [side * k for k in np.arange(0.0, reach - words / 2, _SLIDE).tolist() for side in (1.0, -1.0)]
    places = (middle + inside * deeper + aside * along for aside in (*asides, 0.0))
    label = _first_in((_fold_words(at, along, inside, wording, surface) for at in places), within, surface)
    if surface.level:
        label = _level_words(start, end, inside, within, wording.say("piece.place_on_fold"), surface)
        taken = taken.union(label_spot(label).shape(_OFF_PAGE_EDGE))
    return (
        Path((bracket,), line_styles.sign_stroke()),
        Path(heads, fill=line_styles.sign_stroke().colour, closed=True),
        label,
    ), taken


def _first_in(labels: Iterable[Label], within: Any, surface: Surface) -> Label:
    """The first of the labels that lies in a shape and on one page, or the last."""
    for label in labels:
        words = label_spot(label).shape()
        if within.contains(words) and not surface.cross(words):
            break
    return label


def _words_wide(wording: Wording, surface: Surface) -> float:
    """How long a bracket is within which its words stand clear of both arrows, mm."""
    if surface.level:
        return 0.0
    return font.text_width(wording.say("piece.place_on_fold"), _words_size(surface)) + _BESIDE_WORDS


def _words_size(surface: Surface) -> float:
    return (ARROW_WORDS + 1) * PT * min(surface.enlarged, _LARGEST)


def _fold_words(middle: Floats, along: Floats, inside: Floats, wording: Wording, surface: Surface) -> Label:
    size = _words_size(surface)
    angle = surface.readable(float(np.degrees(np.arctan2(along[1], along[0]))))
    turn = np.radians(angle)
    down = np.array([-np.sin(turn), np.cos(turn)])
    x, y = middle + inside * (FOLD_IN + 1.0) / 2 + down * size * font.CAP_HEIGHT / 2
    return Label(wording.say("piece.place_on_fold"), float(x), float(y), size, "middle", angle)


def _level_words(start: Floats, end: Floats, inside: Floats, within: Any, text: str, surface: Surface) -> Label:
    """The words upright, further in than the bracket, near its middle and where there is room."""
    size = SMALLEST * PT * surface.enlarged
    wide, high = font.text_width(text, size), size * (font.CAP_HEIGHT + font.DESCENT)
    deep = inside * (FOLD_IN + _OFF_PAGE_EDGE + float(surface.reach(inside, wide, high)))
    middles = [start + (end - start) * share + deep for share in _SHARES]
    spots = [Spot(float(x), float(y), wide, high, surface.upright) for x, y in middles]
    spot = next((spot for spot in spots if within.contains(spot.shape())), spots[0])
    return Label(text, *spot.at(0.0, high / 2 - size * font.DESCENT), size, "middle", surface.upright)
