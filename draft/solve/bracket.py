"""Unknowns that give way one after another, each bracketed and closed in upon.

This is slower than methods that follow a slope, and it never leaves the range that the designer gave, needs no slope,
and fails for one body without disturbing the others. Bodies for which everything already holds are left alone.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.plan.plan import Solve, Trace, Unknown
from draft.solve.closing import Ends, close_in
from draft.solve.margins import Ranges, some, try_values

CANDIDATES = 33  # a bracket is looked for at this many places across an unknown's range
HELD = 1e-9  # mm, rad or plain: two sides that differ by less are equal


def solve_in_turn(block: Solve, trace: Trace, ranges: dict[str, Ranges]) -> dict[str, Floats]:
    """The unknowns' values `(B,)`: inequalities for any number of them, or one `equals` for one unknown.

    Each starts where it is wanted. The first gives way as little as it must for the relations to hold; where its whole
    range does not suffice it stays where it helps most, and the next gives way.
    """
    wanted = {name: nearest for name, (_, _, nearest) in ranges.items()}
    rows = np.flatnonzero(~_Margins(block, trace).held(wanted))
    if not rows.size:
        return wanted
    margins = _Margins(block, some(trace, rows))
    at = {name: value[rows] for name, value in wanted.items()}
    for unknown in block.unknowns:
        limits = tuple(value[rows] for value in ranges[unknown.name])
        at[unknown.name] = _give_way(margins, unknown, at, (limits[0], limits[1], limits[2]))
    found = {name: value.copy() for name, value in wanted.items()}
    for name, value in at.items():
        found[name][rows] = value
    return found


class _Margins:
    """The least margin of the relations; for a relation `equals`, left less right with its sign."""

    def __init__(self, block: Solve, trace: Trace) -> None:
        self.block = block
        self.trace = trace
        self.equal = block.relations[0].sort == "equals"

    def __call__(self, at: dict[str, Floats], copies: int = 1) -> Floats:
        """The margins `(copies * B,)`; bodies for which a step failed have one of -inf."""
        standings, failed = try_values(self.block, self.trace, at, copies)
        margin = standings[0].left - standings[0].right if self.equal else np.min([s.margin for s in standings], axis=0)
        return np.where(failed, -np.inf, margin)

    def held(self, at: dict[str, Floats]) -> Bools:
        """The bodies for which everything holds."""
        margin = self(at)
        return np.asarray(np.abs(margin) <= HELD if self.equal else margin >= 0)


def _give_way(margins: _Margins, unknown: Unknown, at: dict[str, Floats], limits: Ranges) -> Floats:
    """The value of one unknown nearest to where it is wanted, the others being as in `at`."""
    places = _places(*limits)
    count, bodies = places.shape
    tried = {name: np.tile(value, count) for name, value in at.items()} | {unknown.name: places.ravel()}
    found = margins(tried, count).reshape(count, bodies)
    body = np.arange(bodies)
    if margins.equal:
        which, bracketed = _sign_change(places, found, limits[2])
        least = places[np.argmin(np.where(np.isfinite(found), np.abs(found), np.inf), axis=0), body]
        ends = [(places[k, body], found[k, body]) for k in (which, which + 1)]
        return np.where(bracketed, _close_in(margins, unknown, at, ends, limits), least)
    met = found >= 0
    order = np.argsort(np.abs(places - limits[2]), axis=0, kind="stable")
    nearest = order[np.argmax(np.take_along_axis(met, order, axis=0), axis=0), body]
    best = np.where(met.any(axis=0), nearest, np.argmax(found, axis=0))
    back = _towards(places, best, limits[2])
    ends = [(places[k, body], found[k, body]) for k in (back, best)]
    inside = _close_in(margins, unknown, at, ends, limits)
    return np.where(met.any(axis=0) & ~met[order[0], body], inside, places[best, body])


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


def _sign_change(places: Floats, found: Floats, nearest: Floats) -> tuple[Ints, Bools]:
    """The place before which, and not behind which, the margin has one sign, as near to the wanted value as can be."""
    sign = np.where(np.isfinite(found), np.where(found >= 0, 1, -1), 0)
    changes = sign[:-1] * sign[1:] < 0
    middle = (places[:-1] + places[1:]) / 2
    distance = np.where(changes, np.abs(middle - nearest), np.inf)
    return np.argmin(distance, axis=0), np.asarray(changes.any(axis=0))


def _close_in(margins: _Margins, unknown: Unknown, at: dict[str, Floats], ends: Ends, limits: Ranges) -> Floats:
    """The end of the met side, the two ends of a bracket having been closed in upon one another."""

    def margin(value: Floats) -> Floats:
        return margins({**at, unknown.name: value})

    return close_in(margin, ends[0], ends[1], limits[1] - limits[0])
