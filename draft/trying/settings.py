"""The settings that are tried: each style at each of its ends, alone and by two.

Nine faults of ten that a style brings show where it is alone at an end, or together with one other. Where there are too
many pairs to try one by one, fewer settings hold them all, each with every style at an end.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations

from draft.base.record import dataclass

MOST_PAIRS = 1_500
"""Pairs that are tried one by one: those of some twenty-five styles."""

Setting = tuple[tuple[str, str], ...]
"""What is chosen other than usual, as names and texts; nothing of it is the pattern as it stands."""


@dataclass(frozen=True)
class Offer:
    """A style that can be tried: its name, its ends, and the choices under which it is there at all."""

    name: str
    ends: tuple[str, ...]
    """The ends other than what it is usually set to."""
    is_choice: bool
    under: Setting = ()

    def at(self, end: str) -> Setting:
        """The setting with this style at an end, and what it is there under."""
        return tuple(sorted((*self.under, (self.name, end))))


@dataclass(frozen=True)
class Settings:
    """What is tried: the pattern as it stands, each end alone, and pairs of ends."""

    alone: tuple[Setting, ...]
    pairs: tuple[Setting, ...]
    covering: bool
    """Whether the pairs are tried together, many at a time, because there are too many."""


def settings_of(offers: Sequence[Offer], most: int = MOST_PAIRS) -> Settings:
    """The settings of these styles; more pairs than `most` are tried many at a time."""
    alone = [offer.at(end) for offer in offers for end in offer.ends]
    pairs = [made for one, other in combinations(offers, 2) for made in _both(one, other)]
    fresh = list(dict.fromkeys(pair for pair in pairs if pair not in alone))
    covering = len(fresh) > most
    return Settings(tuple(dict.fromkeys(alone)), tuple(_covering(offers, fresh) if covering else fresh), covering)


def _both(one: Offer, other: Offer) -> list[Setting]:
    found = []
    for end in one.ends:
        found += [_with(one.at(end), other, far) for far in other.ends]
    return [made for made in found if made is not None]


def _with(setting: Setting, offer: Offer, end: str) -> Setting | None:
    """A setting with one style more at an end, and what that is there under; None where the two contradict."""
    made: dict[str, str] = {}
    for name, text in (*setting, *offer.under, (offer.name, end)):
        if made.setdefault(name, text) != text:
            return None
    return tuple(sorted(made.items()))


def _covering(offers: Sequence[Offer], pairs: Sequence[Setting]) -> list[Setting]:
    """Fewer settings that hold all pairs between them: each takes in as many that are left as it can, in turn."""
    left = {frozenset(pair): pair for pair in pairs}
    found = []
    while left:
        made = next(iter(left.values()))
        for offer in offers:
            made = _widest(made, offer, left)
        found.append(made)
        held = set(made)
        left = {key: pair for key, pair in left.items() if not key <= held}
    return found


def _widest(made: Setting, offer: Offer, left: Mapping[frozenset[tuple[str, str]], Setting]) -> Setting:
    """A setting with a style at that end which takes in most of the pairs that are left."""
    if offer.name in dict(made):
        return made
    more = [wider for end in offer.ends if (wider := _with(made, offer, end)) is not None]
    taken = [sum(key <= set(wider) for key in left) for wider in more]
    return more[taken.index(max(taken))] if more else made
