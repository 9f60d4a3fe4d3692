"""Unknowns that give way one after another, each bracketed and closed in upon.

This is slower than methods that follow a slope, and it never leaves the range that the designer gave, needs no slope,
and fails for one body without disturbing the others. Bodies for which everything already holds are left alone.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.plan.plan import Solve, Trace
from draft.solve.closing import close_in
from draft.solve.margins import Ranges, Some, try_values

CANDIDATES = 33  # a bracket is looked for at this many places across an unknown's range
RING = 4  # places are looked at so many at a time, from the wanted value outwards
FEW = 64  # bodies for which all places together take no longer than a ring
HELD = 1e-9  # mm, rad or plain: two sides that differ by less are equal


def solve_in_turn(block: Solve, trace: Trace, ranges: dict[str, Ranges]) -> dict[str, Floats]:
    """The unknowns' values `(B,)`: inequalities for any number of them, or one `equals` for one unknown.

    Each starts where it is wanted. The first gives way as little as it must for the relations to hold; where its whole
    range does not suffice it stays where it helps most, and the next gives way.
    """
    found = {name: nearest.copy() for name, (_, _, nearest) in ranges.items()}
    margins = _Margins(block, trace)
    rows = np.flatnonzero(~margins.held(found))
    for unknown in block.unknowns if rows.size else ():
        low, high, nearest = (value[rows] for value in ranges[unknown.name])
        at = {name: value[rows] for name, value in found.items()}
        found[unknown.name][rows] = _give_way(_Change(margins, unknown.name, at, rows), (low, high, nearest))
    return found


class _Margins:
    """The least margin of the relations; for a relation `equals`, left less right with its sign."""

    def __init__(self, block: Solve, trace: Trace) -> None:
        self.block = block
        self.some = Some(trace)
        self.everyone = np.arange(trace.count)
        self.equal = block.relations[0].sort == "equals"

    def __call__(self, at: dict[str, Floats], rows: Ints, copies: int = 1) -> Floats:
        """The margins `(copies * N,)` of some bodies `(N,)`; of those for which a step failed, -inf."""
        standings, failed = try_values(self.block, self.some.of(rows), at, copies)
        margin = standings[0].left - standings[0].right if self.equal else np.min([s.margin for s in standings], axis=0)
        return np.where(failed, -np.inf, margin)

    def held(self, at: dict[str, Floats]) -> Bools:
        """The bodies for which everything holds."""
        margin = self(at, self.everyone)
        return np.asarray(np.abs(margin) <= HELD if self.equal else margin >= 0)


@dataclass(frozen=True)
class _Change:
    """The margins as one unknown changes, the others being as in `at`, for the bodies `rows`."""

    margins: _Margins
    unknown: str
    at: dict[str, Floats]
    rows: Ints

    def __call__(self, values: Floats, among: Ints) -> Floats:
        """The margins `(N,)` or `(K, N)` for such values of the unknown, for the bodies `(N,)` of its own."""
        copies = 1 if values.ndim == 1 else len(values)
        others = {name: np.tile(value[among], copies) for name, value in self.at.items()}
        found = self.margins(others | {self.unknown: values.ravel()}, self.rows[among], copies)
        return found.reshape(values.shape)


def _give_way(change: _Change, limits: Ranges) -> Floats:
    """The value `(B,)` of one unknown nearest to where it is wanted."""
    places = _places(*limits)
    body = np.arange(places.shape[1])
    if change.margins.equal:
        found = _outwards(change, places, limits[2], _changes)
        which, bracketed = _sign_change(places, found, limits[2])
        least = places[np.argmin(np.where(np.isfinite(found), np.abs(found), np.inf), axis=0), body]
        ends = [(places[k, body], found[k, body]) for k in (which, which + 1)]
        return np.where(bracketed, close_in(change, ends[0], ends[1], limits[1] - limits[0]), least)
    found = _outwards(change, places, limits[2], lambda seen: seen >= 0)
    met = found >= 0
    order = np.argsort(np.abs(places - limits[2]), axis=0, kind="stable")
    nearest = order[np.argmax(np.take_along_axis(met, order, axis=0), axis=0), body]
    best = np.where(met.any(axis=0), nearest, np.argmax(np.where(np.isnan(found), -np.inf, found), axis=0))
    back = _towards(places, best, limits[2])
    ends = [(places[k, body], found[k, body]) for k in (back, best)]
    inside = close_in(change, ends[0], ends[1], limits[1] - limits[0])
    return np.where(met.any(axis=0) & ~met[order[0], body], inside, places[best, body])


def _outwards(change: _Change, places: Floats, nearest: Floats, enough: Callable[[Floats], Bools]) -> Floats:
    """The margins `(K, B)` at places `(K, B)`, looked at from the wanted one outwards until there is enough to go by.

    What was not looked at is not a number.
    """
    found = np.full(places.shape, np.nan)
    order = np.argsort(np.abs(places - nearest), axis=0, kind="stable")
    size = len(places) if places.shape[1] <= FEW else RING
    for begin in range(0, len(places), size):
        open_ = np.flatnonzero(~enough(found).any(axis=0))
        if not open_.size:
            break
        ring = order[begin : begin + size, open_]
        found[ring, open_] = change(places[ring, open_], open_)
    return found


def _places(low: Floats, high: Floats, nearest: Floats) -> Floats:
    """Values `(CANDIDATES + 1, B)` across the range in rising order, its ends and the wanted one among them exactly."""
    share = np.linspace(0.0, 1.0, CANDIDATES)[:, None]
    places = low + share * (high - low)
    places[-1] = high
    return np.sort(np.concatenate([places, nearest[None]]), axis=0)


def _towards(places: Floats, best: Ints, nearest: Floats) -> Ints:
    """The neighbour of the best place on the side of the wanted one."""
    step = np.sign(nearest - places[best, np.arange(places.shape[1])]).astype(int)
    return np.asarray(np.clip(best + step, 0, len(places) - 1))


def _changes(found: Floats) -> Bools:
    """Between which neighbours of margins `(K, B)` the sign changes, `(K - 1, B)`; it has none where a step failed."""
    sign = np.where(np.isfinite(found), np.where(found >= 0, 1, -1), 0)
    return np.asarray(sign[:-1] * sign[1:] < 0)


def _sign_change(places: Floats, found: Floats, nearest: Floats) -> tuple[Ints, Bools]:
    """The place before which, and not behind which, the margin has one sign, as near to the wanted value as can be."""
    changes = _changes(found)
    middle = (places[:-1] + places[1:]) / 2
    distance = np.where(changes, np.abs(middle - nearest), np.inf)
    return np.argmin(distance, axis=0), np.asarray(changes.any(axis=0))
