"""Unknowns that give way one after another, each bracketed and halved.

This is slower than methods that follow a slope, and it never leaves the range that the designer gave, needs no slope,
and fails for one body without disturbing the others.
"""

from __future__ import annotations

import numpy as np

from draft.plan.plan import Block, Trace, Unknown
from draft.solve.margins import Ranges, try_values
from draft.words.word import Floats, Mask

CANDIDATES = 33  # a bracket is looked for at this many places across an unknown's range
HALVINGS = 40  # 2**-40 of the range: far below a thousandth of a millimetre


def settle(block: Block, trace: Trace, ranges: dict[str, Ranges]) -> dict[str, Floats]:
    """The unknowns' values: inequalities for any number of them, or one `equals` for one unknown.

    Each starts where it is wanted. The first gives way as little as it must for the relations to hold; where its whole
    range does not suffice it stays where it helps most, and the next gives way.
    """
    at = {name: nearest for name, (_, _, nearest) in ranges.items()}
    margins = _Margins(block, trace)
    for unknown in block.unknowns:
        at[unknown.name] = _give_way(margins, unknown, at, ranges[unknown.name])
    return at


class _Margins:
    """The least margin of the relations; for a relation `equals`, left less right with its sign."""

    def __init__(self, block: Block, trace: Trace) -> None:
        self.block = block
        self.trace = trace
        self.equal = block.relations[0].sort == "equals"

    def __call__(self, at: dict[str, Floats], copies: int = 1) -> Floats:
        """The margins `(copies * B,)`; bodies for which a step failed have one of -inf."""
        standings, failed = try_values(self.block, self.trace, at, copies)
        margin = standings[0].left - standings[0].right if self.equal else np.min([s.margin for s in standings], axis=0)
        return np.where(failed, -np.inf, margin)


def _give_way(margins: _Margins, unknown: Unknown, at: dict[str, Floats], limits: Ranges) -> Floats:
    """The value of one unknown nearest to where it is wanted, the others being as in `at`."""
    places = _places(*limits)
    count, bodies = places.shape
    tried = {name: np.tile(value, count) for name, value in at.items()} | {unknown.name: places.ravel()}
    found = margins(tried, count).reshape(count, bodies)
    body = np.arange(bodies)
    if margins.equal:
        first, second, bracketed = _sign_change(places, found, limits[2])
        least = places[np.argmin(np.where(np.isfinite(found), np.abs(found), np.inf), axis=0), body]
        return np.where(bracketed, _halve(margins, unknown, at, first, second), least)
    met = found >= 0
    order = np.argsort(np.abs(places - limits[2]), axis=0, kind="stable")
    nearest = order[np.argmax(np.take_along_axis(met, order, axis=0), axis=0), body]
    best = np.where(met.any(axis=0), nearest, np.argmax(found, axis=0))
    short = places[best, body]
    back = _towards(places, best, limits[2])
    inside = _halve(margins, unknown, at, back, short)
    return np.where(met.any(axis=0) & ~met[order[0], body], inside, short)


def _places(low: Floats, high: Floats, nearest: Floats) -> Floats:
    """Values `(CANDIDATES + 1, B)` across the range in rising order, its ends and the wanted one among them exactly."""
    share = np.linspace(0.0, 1.0, CANDIDATES)[:, None]
    places = low + share * (high - low)
    places[-1] = high
    return np.sort(np.concatenate([places, nearest[None]]), axis=0)


def _towards(places: Floats, best: Floats, nearest: Floats) -> Floats:
    """The neighbour of the best place on the side of the wanted one."""
    body = np.arange(places.shape[1])
    here = places[best, body]
    step = np.sign(nearest - here).astype(int)
    return np.asarray(places[np.clip(best + step, 0, len(places) - 1), body])


def _sign_change(places: Floats, found: Floats, nearest: Floats) -> tuple[Floats, Floats, Mask]:
    """Neighbouring places between which the margin changes sign, as near to the wanted value as there are."""
    sign = np.where(np.isfinite(found), np.where(found >= 0, 1, -1), 0)
    changes = sign[:-1] * sign[1:] < 0
    middle = (places[:-1] + places[1:]) / 2
    distance = np.where(changes, np.abs(middle - nearest), np.inf)
    which = np.argmin(distance, axis=0)
    body = np.arange(places.shape[1])
    positive = sign[which + 1, body] > 0
    low, high = places[which, body], places[which + 1, body]
    return np.where(positive, low, high), np.where(positive, high, low), np.asarray(changes.any(axis=0))


def _halve(margins: _Margins, unknown: Unknown, at: dict[str, Floats], unmet: Floats, met: Floats) -> Floats:
    """The end of the met side, after halving between a value where the margin is negative and one where it is not."""
    for _ in range(HALVINGS):
        middle = (unmet + met) / 2
        good = margins({**at, unknown.name: middle}) >= 0
        met, unmet = np.where(good, middle, met), np.where(good, unmet, middle)
    return met
