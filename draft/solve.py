"""Plan x bodies: every step for all bodies in one evaluation, and an outcome that says what was met and what was not.

The solver brackets and halves. It is slower than methods that follow a slope, and it never leaves the range that the
designer gave, needs no slope, and fails for one body without disturbing the others.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from draft.bodies.bodies import Bodies
from draft.plan.plan import Block, Plan, Relation, Step, Trace, Unknown
from draft.units import Kind
from draft.words.word import Floats, Mask

CANDIDATES = 33  # a bracket is looked for at this many places across an unknown's range
HALVINGS = 40  # 2**-40 of the range: far below a thousandth of a millimetre
MET = {Kind.LENGTH: 1e-3, Kind.ANGLE: 1e-6, Kind.NUMBER: 1e-6}  # a relation is met within 1 micrometre or its like


@dataclass(frozen=True)
class Standing:
    """How a relation stands for each body: its two sides, by how much it is met (less than nothing: unmet)."""

    relation: Relation
    left: Floats
    right: Floats
    margin: Floats

    @property
    def met(self) -> Mask:
        """Where the relation holds."""
        return np.asarray(self.margin >= -MET[self.relation.left.kind])


@dataclass(frozen=True)
class Outcome:
    """Everything found for a list of bodies: values by full name, what the blocks chose, what failed and where."""

    bodies: Bodies
    trace: Trace
    chosen: dict[str, Floats]
    standings: tuple[Standing, ...] = ()
    promises: tuple[Standing, ...] = ()

    @property
    def drawn(self) -> Mask:
        """The bodies for which every step succeeded and every wanted relation is met."""
        good = np.ones(len(self.bodies), dtype=bool)
        for _, _, mask in self.trace.failures:
            good &= ~mask
        for standing in self.standings:
            good &= standing.met
        return good


@dataclass
class _Work:
    plan: Plan
    trace: Trace
    chosen: dict[str, Floats] = field(default_factory=dict)


def evaluate(plan: Plan, bodies: Bodies) -> Outcome:
    """Draft all bodies at once. Bodies that cannot be drafted are masked in the outcome, with finite values."""
    work = _Work(plan, Trace(len(bodies), bodies.names, {name: bodies.values[name] for name in plan.measures}))
    blocks = {unknown.name: block for block in plan.blocks for unknown in block.unknowns}
    with np.errstate(all="ignore"):
        for step in plan.steps:
            if step.run is not None:
                take(step, work.trace)
            elif step.name not in work.trace.values:
                _solve(blocks[step.name], work)
        standings = tuple(stand(r, work.trace) for block in plan.blocks for r in block.relations)
        promises = tuple(stand(r, work.trace) for r in plan.checks)
    return Outcome(bodies, work.trace, work.chosen, standings, promises)


def take(step: Step, trace: Trace) -> None:
    """Take one step; values that are not finite are set to nothing and masked."""
    assert step.run is not None
    found = np.asarray(step.run(trace), dtype=float)
    bad = ~np.isfinite(found)
    if bad.any():
        trace.fail(step.span, "no finite value comes out here", bad.reshape(len(bad), -1).any(axis=1))
        found = np.where(bad, 0.0, found)
    trace.values[step.name] = found


def stand(relation: Relation, trace: Trace) -> Standing:
    """How a relation stands."""
    left, right = relation.left.run(trace), relation.right.run(trace)
    gap = left - right
    margin = {"at least": gap, "at most": -gap, "equals": -np.abs(gap)}[relation.sort]
    return Standing(relation, left, right, margin)


# ---- solving one block ----------------------------------------------------------------------------------------------


def _solve(block: Block, work: _Work) -> None:
    """Settle the unknowns of a block.

    Each starts where it is wanted. The first gives way as little as it must for the relations to hold; where its whole
    range does not suffice it stays where it helps most, and the next gives way.
    """
    trace = work.trace
    ranges = {u.name: _range(u, trace) for u in block.unknowns}
    at = {name: nearest for name, (_, _, nearest) in ranges.items()}
    margins = _Margins(block, trace)
    for unknown in block.unknowns:
        at[unknown.name] = _give_way(margins, unknown, at, ranges[unknown.name])
    for name, value in at.items():
        trace.values[name] = value
        work.chosen[name] = value


def _range(unknown: Unknown, trace: Trace) -> tuple[Floats, Floats, Floats]:
    """Low, high, and where it is wanted, for each body; a range turned about is a failure of that body."""
    low, high = unknown.low.run(trace), unknown.high.run(trace)
    trace.fail(unknown.span, "the range is empty: its low end lies above its high end", low > high)
    high = np.maximum(low, high)
    return low, high, np.clip(unknown.nearest.run(trace), low, high)


class _Margins:
    """By how much the relations of a block are met when its unknowns have given values."""

    def __init__(self, block: Block, trace: Trace) -> None:
        self.block = block
        self.trace = trace
        self.equal = block.relations[0].sort == "equals"

    def __call__(self, at: dict[str, Floats], copies: int = 1) -> Floats:
        """The least margin `(copies * B,)`; for a relation `equals`, left less right with its sign.

        `at` holds values for `copies` runs of the bodies one after another. Failed bodies have a margin of -inf.
        """
        trace = Trace(self.trace.count * copies, self.trace.names * copies, _Repeated(self.trace.values, copies))
        trace.values.update(at)
        for step in self.block.between:
            take(step, trace)
        standings = [stand(relation, trace) for relation in self.block.relations]
        margin = standings[0].left - standings[0].right if self.equal else np.min([s.margin for s in standings], axis=0)
        for _, _, mask in trace.failures:
            margin = np.where(mask, -np.inf, margin)
        return np.asarray(margin)


class _Repeated(dict[str, Floats]):
    """Values of a trace, repeated on demand for several runs of the bodies."""

    def __init__(self, values: dict[str, Floats], copies: int) -> None:
        super().__init__()
        self._values = values
        self._copies = copies

    def __missing__(self, name: str) -> Floats:
        value = self._values[name]
        repeated = value if self._copies == 1 else np.concatenate([value] * self._copies)
        self[name] = repeated
        return repeated


def _give_way(
    margins: _Margins, unknown: Unknown, at: dict[str, Floats], limits: tuple[Floats, Floats, Floats]
) -> Floats:
    """The value of one unknown nearest to where it is wanted, the others being as in `at`."""
    places = _places(*limits)
    bodies = places.shape[1]
    tried = {name: np.tile(value, CANDIDATES) for name, value in at.items()} | {unknown.name: places.ravel()}
    found = margins(tried, CANDIDATES).reshape(CANDIDATES, bodies)
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
    """Values `(CANDIDATES, B)` across the range in rising order, the wanted one among them exactly."""
    share = np.linspace(0.0, 1.0, CANDIDATES)[:, None]
    places = low + share * (high - low)
    closest = np.argmin(np.abs(places - nearest), axis=0)
    places[closest, np.arange(places.shape[1])] = nearest
    return places


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
