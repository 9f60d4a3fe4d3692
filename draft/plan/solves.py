"""Solve blocks: what lies between the unknowns and the relations that settle them, and what must be known before."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from draft.base.notes import error
from draft.language import tree
from draft.plan.plan import Relation, Solve, Step, Unknown, needs_of
from draft.plan.values import Values
from draft.words.word import QUANTITIES, one


def relation(values: Values, written: tree.Relation) -> Relation:
    """A relation with its two sides compiled."""
    left, right = values.alike([written.left, written.right], None)
    return Relation(written.span, left, written.sort, right, written.words, written.fix)


def unknown_step(values: Values, written: tree.Unknown) -> Step:
    """The step of an unknown: its kind is that of its range, and its value comes from its block."""
    low = values.compile(written.low, None, QUANTITIES)
    return replace(Step.of(written.span, written.name, low, written.words), run=None)


def solve(values: Values, written: tree.Solve) -> Solve:
    """A block with its unknowns and relations. The steps between are added by `close`."""
    if not written.unknowns or not written.relations:
        missing = "no unknown" if not written.unknowns else "no relation"
        fix = "add `NAME from LOW to HIGH`" if not written.unknowns else "add `so that A at least B`"
        values.notes.append(error(f"this block has {missing}", written.span, fix))
        return Solve(written.span, (), (), ())
    unknowns = tuple(_unknown(values, u) for u in written.unknowns)
    relations = tuple(relation(values, r) for r in written.relations)
    return Solve(written.span, unknowns, relations, ())


def _unknown(values: Values, written: tree.Unknown) -> Unknown:
    low = values.compile(written.low, None, QUANTITIES)
    kinds = QUANTITIES if low.broken else one(low.kind)
    high = low if low.broken else values.compile(written.high, None, kinds)
    nearest = values.compile(written.nearest, None, kinds) if written.nearest and not low.broken else low
    return Unknown(written.name_span, written.name, low, high, nearest, written.words)


def close(values: Values, blocks: list[Solve]) -> tuple[tuple[Solve, ...], tuple[Step, ...]]:
    """The blocks with their steps between, and all steps in an order in which each finds what it needs.

    An unknown needs everything that its relations need and that does not itself lean on it.
    """
    reach = _Reach(values.steps)
    closed = []
    for item in blocks:
        names = {unknown.name for unknown in item.unknowns}
        asked = reach.needed(_asked(item))
        leaning = reach.leaning(names)
        steps = [step for step in _sorted(values.steps, {}) if step.name in asked & leaning and step.name not in names]
        _check_used(values, item, asked)
        _check_ranges(values, item, leaning)
        before = frozenset(asked - leaning - names)
        for name in names:
            values.steps[name] = replace(values.steps[name], needs=values.steps[name].needs | before)
        closed.append(replace(item, between=tuple(steps)))
    return tuple(closed), _ordered(values, closed)


def _check_used(values: Values, item: Solve, asked: frozenset[str]) -> None:
    for unknown in item.unknowns:
        if unknown.name not in asked:
            fact = f"no relation of this block leans on `{unknown.name}`, so nothing settles it"
            values.notes.append(error(fact, unknown.span, "give it a value under `let`, or a relation here"))


def _check_ranges(values: Values, item: Solve, leaning: frozenset[str]) -> None:
    for unknown in item.unknowns:
        for end in (unknown.low, unknown.high, unknown.nearest):
            circular = sorted(end.needs & leaning)
            if circular:
                fact = f"the range of `{unknown.name}` leans on `{circular[0]}`, which this block is still to find"
                fix = "give it an end that is known before, and add a relation under `so that`"
                values.notes.append(error(fact, end.span, fix))


def _asked(item: Solve) -> frozenset[str]:
    sides = [side for r in item.relations for side in (r.left, r.right)]
    ranges = [v for u in item.unknowns for v in (u.low, u.high, u.nearest)]
    return needs_of(*sides, *ranges)


class _Reach:
    """What steps need, and what leans on them, however far away."""

    def __init__(self, steps: dict[str, Step]) -> None:
        self.steps = dict(steps)
        self.users: dict[str, set[str]] = {}
        for step in steps.values():
            for need in step.needs:
                self.users.setdefault(need, set()).add(step.name)

    def needed(self, names: frozenset[str]) -> frozenset[str]:
        return _spread(names, lambda name: self.steps[name].needs)

    def leaning(self, names: set[str]) -> frozenset[str]:
        return _spread(frozenset(names), lambda name: self.users.get(name, set()))


def _spread(names: frozenset[str], further: Callable[[str], Iterable[str]]) -> frozenset[str]:
    found = set(names)
    waiting = list(names)
    while waiting:
        for name in further(waiting.pop()):
            if name not in found:
                found.add(name)
                waiting.append(name)
    return frozenset(found)


def _sorted(steps: dict[str, Step], extra: dict[str, frozenset[str]]) -> list[Step]:
    """Steps in an order in which each comes after what it needs; those in a ring are left out."""
    waiting = {name: set(step.needs) | extra.get(name, frozenset()) for name, step in steps.items()}
    users: dict[str, list[str]] = {}
    for name, needs in waiting.items():
        for need in needs:
            users.setdefault(need, []).append(name)
    ready = [name for name, needs in waiting.items() if not needs]
    ordered = []
    for name in ready:
        ordered.append(steps[name])
        for user in users.get(name, []):
            waiting[user].discard(name)
            if not waiting[user]:
                ready.append(user)
    return ordered


def _ordered(values: Values, blocks: list[Solve]) -> tuple[Step, ...]:
    together = {u.name: b for b in blocks for u in b.unknowns}
    extra = {
        name: frozenset[str]().union(*(values.steps[u.name].needs for u in item.unknowns))
        for name, item in together.items()
    }
    ordered = _sorted(values.steps, extra)
    if len(ordered) < len(values.steps):
        done = {step.name for step in ordered}
        stuck = [item for item in blocks if any(u.name not in done for u in item.unknowns)]
        names = ", ".join(f"`{u.name}`" for item in stuck for u in item.unknowns)
        fact = f"these blocks lean on one another, so neither can be solved first: {names}"
        values.notes.append(error(fact, stuck[0].span, "put their unknowns and relations into one block"))
    return tuple(ordered)
