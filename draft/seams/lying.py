"""How the two sides of a join lie along one another, opened out and as often as they are cut.

A seam may have one side more often than the other: a band cut once goes round a front and a back on the fold, or round
a panel that is cut twice on the fold, four times half of it. Copies lie one behind the other, each second one turned
about, as the two halves on a fold are; copies that are sewn to one another end to start all lie the same way.
"""

from __future__ import annotations

from math import gcd

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Join
from draft.seams.following import SewnCorners
from draft.seams.middles import SideParts, on_fold, side_ends
from draft.seams.sharing import both_sides

SAME = 1e-6  # of a seam: places nearer to one another are one


@dataclass(frozen=True)
class Copies:
    """One side of a whole seam: so many copies of it one behind the other."""

    count: int
    one_way: bool = False
    """Whether they all lie the same way; else each second one is turned about."""

    def on_copy(self, place: Floats) -> Floats:
        """The share of a copy at which a place of the whole seam lies, a share of it: both `(B,)`."""
        number = np.clip(np.floor(place * self.count), 0, self.count - 1)
        share = place * self.count - number
        return np.asarray(np.where(number % 2 == self._turned, 1.0 - share, share))

    def on_seam(self, share: Floats) -> list[Floats]:
        """The places of the whole seam `(B,)` that have a share of a copy `(B,)`."""
        return [
            np.asarray((number + (1.0 - share if number % 2 == self._turned else share)) / self.count)
            for number in range(self.count)
        ]

    @property
    def _turned(self) -> int:
        """What the number of a copy that is turned about leaves when it is halved."""
        return -1 if self.one_way else 1


@dataclass(frozen=True)
class Lying:
    """Both sides of one whole seam."""

    first: Copies
    second: Copies

    def meeting(self, share: Floats) -> tuple[list[Floats], list[Floats]]:
        """The shares of both sides at which they are marked, where the first is marked at a share `(B,)`.

        A mark is there on every copy; so what lies on each of them is marked too, on all of its copies.
        """
        places = self.first.on_seam(share)
        known = 0
        while known < len(places):
            place = places[known]
            known += 1
            for copies in (self.first, self.second):
                places += _new(places, copies.on_seam(copies.on_copy(place)))
        first, second = (_once([each.on_copy(place) for place in places]) for each in (self.first, self.second))
        return first, second


def lying(garment: Garment, join: Join) -> Lying:
    """How the sides of a join lie along one whole seam: two halves on the fold are one whole, opened out."""
    first, second = (each.copies for each in both_sides(garment, join))
    seams = gcd(first, second) or 1
    counts = first // seams or 1, second // seams or 1
    if counts == (1, 1) and seams % 2 == 0 and _reaches_fold(garment, join):
        counts = 2, 2
    return Lying(*(_copies(garment, join, *each) for each in zip(counts, (join.first, join.second), strict=True)))


def _copies(garment: Garment, join: Join, count: int, parts: SideParts) -> Copies:
    return Copies(count, count > 1 and not join.is_lying and _sewn_in_a_row(garment, join, parts))


def _sewn_in_a_row(garment: Garment, join: Join, parts: SideParts) -> bool:
    """Whether a side ends where it begins, on another copy, as gores do that are cut alike."""
    start, end = side_ends(garment, parts)
    mirrored = any(garment.piece(part.piece).cut_as == "as a pair" for part in parts)
    if mirrored or on_fold(garment, start) or on_fold(garment, end):
        return False
    return SewnCorners(garment, without=join).together(start, end)


def _reaches_fold(garment: Garment, join: Join) -> bool:
    return any(on_fold(garment, corner) for parts in (join.first, join.second) for corner in side_ends(garment, parts))


def _new(places: list[Floats], found: list[Floats]) -> list[Floats]:
    return [place for place in _once(found) if not _is_among(place, places)]


def _once(places: list[Floats]) -> list[Floats]:
    kept: list[Floats] = []
    for place in places:
        if not _is_among(place, kept):
            kept.append(place)
    return kept


def _is_among(place: Floats, places: list[Floats]) -> bool:
    if not places:
        return False
    every = np.array(places)
    same = (np.abs(every - place) <= SAME) | (np.isnan(every) & np.isnan(place))
    return bool(same.all(axis=1).any())
