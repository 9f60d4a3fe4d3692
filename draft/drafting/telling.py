"""What there is to say about an outcome: steps that failed, relations not met, promises not kept, unfit allowances."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.naming import listed
from draft.base.notes import Note, Span, caution, error, remark
from draft.base.plainly import AGAIN, Figure, Parts, Sentence, of_sizes, sentence
from draft.base.units import Kind, in_words
from draft.base.worst import worst_of
from draft.plan.plan import Plan, Unknown, all_behind
from draft.solve import MET, Outcome, Standing, find_value

WIDEST = 150.0  # mm: a deep hem; more is a slip of the pen


WIDEN = "widen it"
"""What a designer can do about an unknown at its end, and nobody else."""


def describe(plan: Plan, outcome: Outcome) -> Iterable[Note]:
    """Notes on steps that failed, relations not met and promises not kept, each with the bodies concerned."""
    names = outcome.bodies.names
    failures: dict[tuple[Span, str], Bools] = {}
    for span, fact, mask in outcome.trace.failures:
        failures[span, fact] = failures.get((span, fact), np.zeros(len(names), dtype=bool)) | mask
    for (span, fact), mask in failures.items():
        off_by = list(filter(None, [outcome.trace.figures.get((span, fact))]))
        plainly = of_sizes("line_not_drawn", names, mask, AGAIN)
        yield error(f"{fact}, for {listed(names, mask)}", span, *off_by, off=mask.astype(float), plainly=plainly)
    for span, words in outcome.remarks:
        yield remark(words, span)
    unknowns = [unknown for block in plan.solves for unknown in block.unknowns]
    for standing in outcome.standings:
        unmet = ~standing.met
        if unmet.any():
            fact, figures, worst = _unmet(standing, outcome, unmet)
            needed = _needed(plan, standing.relation.left.needs | standing.relation.right.needs)
            hints = _ended([unknown for unknown in unknowns if unknown.name in needed], outcome, worst)
            plainly = _plainly(standing, outcome, unmet, worst)
            yield error(fact, standing.relation.span, *figures, *hints, off=_short(standing, unmet), plainly=plainly)
    for standing in outcome.promises:
        unmet = ~standing.met & outcome.drafted
        if unmet.any():
            fact, figures, worst = _unmet(standing, outcome, unmet)
            plainly = _plainly(standing, outcome, unmet, worst)
            yield caution(fact, standing.relation.span, *figures, off=_short(standing, unmet), plainly=plainly)


def _plainly(standing: Standing, outcome: Outcome, unmet: Bools, worst: int) -> Sentence:
    """The same for who chose a style and gave measures: in the designer's words, or that something was asked for."""
    relation = standing.relation
    kind = relation.left.kind
    said: Parts = {
        "left": Figure(float(standing.left[worst]), kind),
        "right": Figure(float(standing.right[worst]), kind),
    }
    if relation.words:
        said["words"] = relation.words
    if relation.fix:
        said["fix"] = relation.fix
    key = f"{'words_do' if relation.words else 'asked_does'}_not_hold_{relation.sort.replace(' ', '_')}"
    return of_sizes(key, outcome.bodies.names, unmet, "fix" if relation.fix else AGAIN, **said)


def _short(standing: Standing, unmet: Bools) -> Floats:
    return np.where(unmet, -standing.margin, 0.0)


def _unmet(standing: Standing, outcome: Outcome, unmet: Bools) -> tuple[str, tuple[str, ...], int]:
    """The fact that a relation does not hold, the figures of the body for which it holds least, and that body."""
    relation = standing.relation
    worst = worst_of(np.where(unmet, -standing.margin, -np.inf))
    kind = relation.left.kind
    short = in_words(float(-standing.margin[worst]), kind)
    where = listed(outcome.bodies.names, unmet)
    left = in_words(float(standing.left[worst]), kind)
    right = in_words(float(standing.right[worst]), kind)
    said = f'"{relation.words}"' if relation.words else f"`{relation.span.text}`"
    wanted = right if relation.sort == "equals" else f"{relation.sort} {right}"
    figures = f"at worst it is {left} where {wanted} is wanted, {short} off ({outcome.bodies.names[worst]})"
    hints = (figures, relation.fix) if relation.fix else (figures,)
    return f"{said} does not hold, for {where}", hints, worst


def _needed(plan: Plan, names: Iterable[str]) -> set[str]:
    """The names and everything that they lean on, however far away."""
    return all_behind(names, {step.name: step.needs for step in plan.steps})


def _ended(unknowns: Iterable[Unknown], outcome: Outcome, body: int) -> Iterable[str]:
    """Hints on unknowns that stand at an end of their ranges."""
    for unknown in unknowns:
        chosen = outcome.chosen[unknown.name][body]
        for end in (unknown.low, unknown.high):
            limit = find_value(end, outcome.trace)[body]
            if abs(chosen - limit) < MET[end.kind]:
                yield f"`{unknown.name}` stands at the end of its range, {in_words(float(limit), end.kind)}: {WIDEN}"


def allowance_notes(plan: Plan, outcome: Outcome) -> Iterable[Note]:
    """Notes on allowances that cannot be cut: less than nothing, wider than a hand, or unlike from size to size."""
    if not outcome.drafted.any():
        return
    for edge in [edge for piece in plan.pieces for edge in piece.edges if not edge.on_fold]:
        widths = find_value(edge.allowance, outcome.trace)[outcome.drafted]
        if np.ptp(widths) > 1e-6:
            plainly = sentence("allowance_not_cut", edge=edge.name)
            yield error(
                f"the allowance of `{edge.name}` differs from size to size", edge.allowance.span, plainly=plainly
            )
        elif not 0 <= widths[0] <= WIDEST:
            fact = f"an allowance of {in_words(float(widths[0]), Kind.LENGTH)} cannot be cut"
            plainly = sentence("allowance_not_cut", edge=edge.name)
            yield error(fact, edge.allowance.span, f"choose from 0 to {in_words(WIDEST, Kind.LENGTH)}", plainly=plainly)
