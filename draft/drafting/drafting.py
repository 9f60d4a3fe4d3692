"""A plan drafted for bodies: the garment, and what there is to say about it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from draft.base.arrays import Floats
from draft.base.notes import Note, Span, stop_if_errors
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies, body_notes
from draft.bodies.estimates import Estimate
from draft.drafting.assembling import assemble
from draft.drafting.planned import Planned
from draft.drafting.telling import allowance_notes, describe
from draft.drafting.two_halves import Apart
from draft.garment.as_before import as_before
from draft.garment.garment import Garment
from draft.plan.plan import Plan
from draft.seams.replay import as_drawn, moved_corners, replayed, untouched
from draft.solve import Outcome, evaluate


@dataclass(frozen=True)
class Drafted:
    """A garment for a list of bodies, with what there is to say about it."""

    plan: Plan
    bodies: Bodies
    outcome: Outcome
    garment: Garment
    notes: tuple[Note, ...]
    estimates: tuple[Estimate, ...] = ()
    """What was not measured of the person and is estimated."""
    unwashed: Garment | None = None
    """The pieces for cloth that is cut before it is washed, where that was asked for."""
    apart: Apart | None = None
    """Both sides of a body that differ, and what is cut for them."""
    planned: Planned | None = None
    """The request and what was read for it; None where a plan was drafted as it is."""

    @property
    def told_estimates(self) -> tuple[Estimate, ...]:
        """The estimates that a reader is told of."""
        return tuple(one for one in self.estimates if one.told)

    @property
    def to_cut(self) -> Garment:
        """What is drawn on paper: the garment as it is to become, or larger by what washing takes."""
        return self.apart.cut if self.apart else self.unwashed or self.garment

    @property
    def seamed(self) -> Garment:
        """What is walked and checked: of a body whose sides differ both halves, with the bodies `left` and `right`."""
        return self.apart.halves if self.apart else self.garment


def draft_plan(
    plan: Plan,
    bodies: Bodies,
    instead: Mapping[Span, float] | None = None,
    kept: Mapping[str, Floats] | None = None,
) -> Drafted:
    """Draft a plan for the bodies. Raises `Problems` for measures that are missing or cannot be true.

    `instead` are other values for numbers of the text, which are moved while somebody looks, and `kept` are values
    `(bodies, ...)` of steps that lean on none of them.
    A body that cannot be drafted is an error among the notes of the result; its lines must not be cut.
    """
    stop_if_errors(body_notes(bodies, plan.measures, plan.known))
    outcome, garment = drawn(plan, bodies, instead, kept)
    notes = (*bodies.notes, *plan.notes, *describe(plan, outcome), *allowance_notes(plan, outcome))
    return Drafted(plan, bodies, outcome, garment, notes)


def drawn(
    plan: Plan,
    bodies: Bodies,
    instead: Mapping[Span, float] | None = None,
    kept: Mapping[str, Floats] | None = None,
) -> tuple[Outcome, Garment]:
    """Evaluate a plan and assemble the garment; where joins are trued, once more with their edges as trued.

    `instead` and `kept`, values `(bodies, ...)`, are those of `draft_plan`.
    """
    outcome = evaluate(plan, bodies, instead=instead, kept=kept)
    garment, turns = assemble(plan, outcome)
    if turns:
        with_turns, given = replayed(plan, turns)
        outcome = evaluate(with_turns, bodies, given, instead, _as_they_are(plan, with_turns, outcome))
        before = replace(outcome, trace=replace(outcome.trace, values=as_drawn(turns, outcome.trace.values)))
        outcome.trace.values.update(moved_corners(plan, turns, outcome.trace.values))
        garment, _ = assemble(plan, outcome, before)
    return outcome, as_before(garment)


def _as_they_are(plan: Plan, replay: Plan, outcome: Outcome) -> dict[str, Floats]:
    """Values `(bodies, ...)` that no trueing moves; none where anything failed or is remarked on, to be told again."""
    if outcome.trace.failures or outcome.remarks:
        return {}
    return {name: outcome.trace.values[name] for name in untouched(plan, replay)}
