"""Size tags: the size's name beside its own cutting line, where no other line or word is in the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Label
from draft.paper.drawing.room import Spot, words_at
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.surface import Surface
from draft.paper.piece.tag_places import (
    NAME_SIZE,
    STEPS,
    Beside,
    Tagged,
    TagPlaces,
    Wish,
    fitting,
    name_wide,
    points_beside,
    tag_corners,
)
from draft.paper.piece.taken_in_turn import Offer, taken_in_turn

_APART = 170.0
"""One tag for about so much of a cutting line, in mm: at least one shows on most printed pages."""
_LOOKED_AT = (4, 16, 2 * STEPS)
"""Most tags find room in one of so many places; where it is crowded, more are looked at."""
_NEAREST = 4
"""And so many steps from where it is wanted are enough for the first of these."""
_STEPS_TO = (12, STEPS)
"""So many mostly for the rest."""
_KEPT = 1.0
"""What is placed later keeps so many mm off a tag."""


def without_each(lines: Sequence[Sequence[Floats]]) -> tuple[Any, ...]:
    """For each size the polylines of points `(n, 2)` of all others as one shapely line: how far away do they run?"""
    import shapely

    every = [line for some in lines for line in some]
    of = np.repeat(np.arange(len(every)), [len(line) for line in every])
    parts = shapely.linestrings(np.concatenate(every), indices=of)
    size = np.repeat(np.arange(len(lines)), [len(some) for some in lines])
    found = tuple(shapely.multilinestrings(parts[size != number]) for number in range(len(lines)))
    for one in found:
        shapely.prepare(one)
    return found


@dataclass(frozen=True)
class Missed:
    """A tag of a size that found no room: which of its lines, and which of so many tags along that."""

    size: int
    line: int
    tag: int
    tags: int


def tags_of(sizes: Sequence[Tagged], clutter: Clutter, surface: Surface) -> tuple[list[list[Label]], list[Missed]]:
    """The tags of each size, and those without room. The nearest places of each are looked at for all at once."""
    wishes = [wish for number, size in enumerate(sizes) for wish in _wishes(number, size, len(sizes), surface)]
    found: list[list[Label]] = [[] for _ in sizes]
    missed = list[Missed]()
    looked = _looked_at(wishes, sizes, clutter, surface)
    taken = taken_in_turn(_offers(wishes, looked, sizes, surface), clutter)
    for wish, one, number in zip(wishes, looked, taken, strict=True):
        size = sizes[wish.size]
        spot = None if number is None else one.spot(int(one.chosen[number]), name_wide(size.name, surface), surface)
        if number is None:
            one, spot = _elsewhere(wish, one, sizes, clutter, surface)
        if spot is not None:
            found[wish.size].append(name_of_size(size.name, size.index, spot, surface))
        elif len(one.shapes):
            missed.append(Missed(wish.size, *wish.which))
    return found, missed


def _offers(
    wishes: Sequence[Wish], looked: Sequence[TagPlaces], sizes: Sequence[Tagged], surface: Surface
) -> list[Offer]:
    """For each wish a few of its good places, and what a tag there keeps clear."""
    import shapely

    counts = np.array([len(one.chosen) for one in looked], dtype=np.intp)
    if not counts.sum():
        return [Offer(one.shapes[:0], one.shapes[:0], not one.whole) for one in looked]
    middles = np.concatenate([one.middles[one.chosen] for one in looked])
    directions = np.concatenate([one.directions[one.chosen // 2] for one in looked])
    widths = np.array([name_wide(size.name, surface) for size in sizes])[[wish.size for wish in wishes]]
    takes = shapely.polygons(tag_corners(middles, directions, np.repeat(widths, counts), surface, _KEPT))
    return [
        Offer(one.shapes[one.chosen], part, not one.whole or len(one.chosen) < int(one.good.sum()))
        for one, part in zip(looked, np.split(takes, np.cumsum(counts)[:-1]), strict=True)
    ]


def _elsewhere(
    wish: Wish, one: TagPlaces, sizes: Sequence[Tagged], clutter: Clutter, surface: Surface
) -> tuple[TagPlaces, Spot | None]:
    """Any other place for a tag that finds none among the few: it is taken."""
    number = clutter.first_apart(one.shapes, one.good)
    if number is None and not one.whole:
        (one,) = fitting(points_beside([wish], sizes, STEPS), 2 * STEPS, sizes, clutter, surface)
        number = clutter.first_apart(one.shapes, one.good)
    if number is None:
        return one, None
    spot = one.spot(number, name_wide(sizes[wish.size].name, surface), surface)
    clutter.take(spot.shape(_KEPT))
    return one, spot


def _looked_at(wishes: Sequence[Wish], sizes: Sequence[Tagged], clutter: Clutter, surface: Surface) -> list[TagPlaces]:
    """For each wish its nearest places, and whether each is clear of all lines: more where none is."""
    found = fitting(points_beside(wishes, sizes, _NEAREST), _LOOKED_AT[0], sizes, clutter, surface)
    points: dict[int, Beside] = {}
    for steps, most in zip(_STEPS_TO, _LOOKED_AT[1:], strict=True):
        still = [k for k, one in enumerate(found) if not one.good.any() and not one.whole]
        few = [k for k in still if k not in points or not points[k].enough(most)]
        points |= dict(zip(few, points_beside([wishes[k] for k in few], sizes, steps), strict=True))
        few = [k for k in few if not points[k].enough(most)]
        points |= dict(zip(few, points_beside([wishes[k] for k in few], sizes, STEPS), strict=True))
        looked = fitting([points[k] for k in still], most, sizes, clutter, surface)
        for k, one in zip(still, looked, strict=True):
            found[k] = one
    return found


def name_of_size(name: str, index: int, spot: Spot, surface: Surface, bold: bool = True) -> Label:
    """The name of a size in its place, in the ink of its cutting line; `index` is which of those drawn it is."""
    ink = line_styles.cutting_stroke(index).colour
    return words_at(spot, name, NAME_SIZE * surface.enlarged, bold=bold, colour=ink)


def _wishes(number: int, size: Tagged, count: int, surface: Surface) -> Iterator[Wish]:
    """The tags of one size: one for so much of each of its lines, in the size's turn in the row of tags."""
    turn = (size.index - (count - 1) / 2) * (name_wide(size.name, surface) + 3.0) * 0.8
    for line, ruler in enumerate(size.rulers):
        tags = max(1, round(ruler.length / (_APART * surface.enlarged)))
        span = ruler.length / tags
        for tag, middle in enumerate((ruler.length * (np.arange(tags) + 0.5) / tags).tolist()):
            yield Wish(number, ruler, middle, span, middle + turn, (line, tag, tags))
