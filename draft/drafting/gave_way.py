"""What came out otherwise than was chosen: an unknown that gave way for a relation, and room that a level has not.

A reader chose a style and never saw the file: she is told in the designer's own words what became of it, and why.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.naming import plain
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.drafting.drafting import Drafted
from draft.fit.levels import levels, over
from draft.garment.garment import Finished
from draft.plan.plan import Solve, Unknown
from draft.solve import find_value

SEEN: dict[Kind, float] = {Kind.LENGTH: 2.0, Kind.ANGLE: np.radians(0.5)}
"""What is worth a word: mm, rad. Of other kinds, such as shares, no reader has an idea."""

TIGHT: dict[Kind, float] = {Kind.LENGTH: 0.1, Kind.ANGLE: 1e-3, Kind.NUMBER: 1e-3}
"""How near to its limit a relation is that asks for anything; mm, rad."""

LESS, MORE = 10.0, 30.0
"""mm of room that is missing, or too much, before it is told."""


@dataclass(frozen=True)
class GaveWay:
    """Something in the designer's words: what it is and what it was to be `(bodies,)`, for which, and so that what."""

    words: str
    values: Floats
    wanted: Floats
    kind: Kind
    where: Bools
    reasons: tuple[str, ...] = ()
    is_room: bool = False
    """Whether it is the room at a level, of which `words` is the name."""
    chosen_as: str = ""
    """The words of the style that it was chosen by; empty where that is none, or several."""


def gave_way(drafted: Drafted) -> tuple[GaveWay, ...]:
    """All that came out otherwise than was chosen, for the bodies that were drafted."""
    return (*_unknowns(drafted), *_rooms(drafted))


def _unknowns(drafted: Drafted) -> Iterator[GaveWay]:
    styles = {style.name for style in drafted.plan.styles}
    for solve in drafted.plan.solves:
        if all(relation.sort != "equals" for relation in solve.relations):  # else no wish is told from a first guess
            yield from (found for one in solve.unknowns if (found := _unknown(drafted, solve, one, styles)))


def _unknown(drafted: Drafted, solve: Solve, unknown: Unknown, styles: set[str]) -> GaveWay | None:
    outcome, kind = drafted.outcome, unknown.nearest.kind
    wanted, values = find_value(unknown.nearest, outcome.trace), outcome.chosen[unknown.name]
    wished = bool(styles.intersection(unknown.nearest.needs)) or not np.any(wanted)
    where = outcome.drafted & (np.abs(values - wanted) > SEEN.get(kind, np.inf))
    if not unknown.words or not wished or not where.any():
        return None
    own = [s for s in outcome.standings if s.relation in solve.relations and s.relation.words]
    tight = [s for s in own if np.any(where & (np.abs(s.margin) < TIGHT.get(s.relation.left.kind, 0.0)))]
    named = [style.words for style in drafted.plan.styles if style.name in unknown.nearest.needs and style.words]
    reasons = tuple(s.relation.words for s in tight)
    return GaveWay(unknown.words, values, wanted, kind, where, reasons, chosen_as=named[0] if len(named) == 1 else "")


def _rooms(drafted: Drafted) -> Iterator[GaveWay]:
    for level in levels(drafted.garment):
        wanted = drafted.outcome.trace.values.get(f"{level.name}_ease")
        named = [style.words for style in drafted.plan.styles if style.name == f"{level.name}_ease"]
        if (
            _is_at_its_girth(drafted, level)
            and level.flat is None  # what elastic draws in has no room of its own
            and wanted is not None
            and named
        ):
            room = level.values - over(level)
            where = drafted.outcome.drafted & ((room < wanted - LESS) | (room > wanted + MORE))
            if where.any():
                yield GaveWay(level.name, room, wanted, Kind.LENGTH, where, is_room=True, chosen_as=named[0])


def measured_elsewhere(drafted: Drafted) -> Iterator[tuple[str, Floats, Floats, Bools]]:
    """Levels called as a girth of the body that are not at it, as the garment ends before.

    Of each its name, how the body is round there and at its own place, mm `(bodies,)`, and of which bodies it is so.
    """
    for level in levels(drafted.garment):
        if not _is_at_its_girth(drafted, level):
            girth = drafted.bodies.values[f"{level.name}_girth"]
            where = drafted.outcome.drafted & (np.abs(over(level) - girth) > LESS)
            yield level.name, over(level), girth, where


def _is_at_its_girth(drafted: Drafted, level: Finished) -> bool:
    """Whether it is worn over a measure of the body, or over as much as the body is round at its own place."""
    girth = drafted.bodies.values.get(f"{level.name}_girth")
    measured = {plain(name) for name in drafted.plan.measures}
    if girth is None or (level.over and level.over[0] in measured):
        return True
    return not np.any(drafted.outcome.drafted & (np.abs(over(level) - girth) > LESS))
