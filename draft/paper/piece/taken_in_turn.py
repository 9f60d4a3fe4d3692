"""Places that are taken one after the other, of all wishes looked at together: which of them touch is asked once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Bools
from draft.base.record import dataclass
from draft.paper.piece.clutter import Clutter, boxes_meet


@dataclass(frozen=True)
class Offer:
    """What is offered to one wish: shapes `(n,)`, the one most wanted first, and whether there are `more` of them.

    Once one is taken, what is placed later keeps off that of `takes` `(n,)` in its place.
    """

    shapes: Any
    takes: Any
    more: bool


def taken_in_turn(offers: Sequence[Offer], clutter: Clutter) -> Iterator[int | None]:
    """For each wish in turn the number of its first shape that touches nothing placed, which is then placed too.

    Whoever is given None, and knows of more, places another before asking for the next.
    """
    begin = 0
    while begin < len(offers):
        found = _until_more(offers[begin:], clutter)
        chosen = zip(offers[begin:], found, strict=False)
        clutter.take(*(offer.takes[number] for offer, number in chosen if number is not None))
        yield from found
        begin += len(found)


def _until_more(offers: Sequence[Offer], clutter: Clutter) -> list[int | None]:
    """What each wish takes, up to the first that finds nothing and has more."""
    counts = [len(offer.shapes) for offer in offers]
    shapes = np.concatenate([offer.shapes for offer in offers])
    left = np.flatnonzero(clutter.apart(shapes))
    wish = np.repeat(np.arange(len(offers)), counts)[left]
    met = _met(shapes[left], np.concatenate([offer.takes for offer in offers])[left], wish[None] < wish[:, None])
    begins, numbers, wishes = np.cumsum(counts) - counts, left.tolist(), wish.tolist()
    found, taken, at = list[int | None](), set[int](), 0
    for number, offer in enumerate(offers):
        chosen = None
        while at < len(wishes) and wishes[at] == number:
            if chosen is None and taken.isdisjoint(met.get(at, ())):
                chosen = at
            at += 1
        if chosen is not None:
            taken.add(chosen)
        found.append(None if chosen is None else int(numbers[chosen] - begins[number]))
        if chosen is None and offer.more:
            break
    return found


def _met(shapes: Any, takes: Any, before: Bools) -> dict[int, list[int]]:
    """For each of the shapes `(n,)` which of what would be taken `(n,)` `before` it `(n, n)` it touches."""
    import shapely

    found = dict[int, list[int]]()
    one, other = np.nonzero(before & boxes_meet(shapes, takes))
    hit = shapely.intersects(shapes[one], takes[other])
    for a, b in zip(one[hit].tolist(), other[hit].tolist(), strict=True):
        found.setdefault(a, []).append(b)
    return found
