"""A figure as it is described in words, `sloping shoulders, bust D, very sway back`, and what that does to estimates.

A tape wins over words: they move only what was not measured. What a size of a chart stands in for is moved as well.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from draft.base.notes import Note, Span, error, nearest, remark, stop_if_errors
from draft.base.plainly import Measures, Typed, sentence
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import SPREADS, Estimate
from draft.bodies.measures import MEASURES
from draft.bodies.sayings import CUP, CUPS, SAYINGS, TENTH, THIRD, Move, Saying, cup_saying

_CUP_WORDS = re.compile(r"(?:full |small )?bust ([a-z]{1,2})$")
LIST = "`plainseam figures` lists what can be said"


@dataclass(frozen=True)
class Said:
    """A saying, and the share of its `sd` that it moves an estimate by and leaves in doubt."""

    saying: Saying
    shares: tuple[float, float]

    def by(self, move: Move) -> float:
        """By how much it moves a measure, mm or rad."""
        return self.shares[0] * move.sd * MEASURES[move.measure].unit

    def variance(self, move: Move, before: float) -> float:
        """What is left of the variance of an estimate; a cup is read to within one, whatever was known."""
        if self.saying.group == "cup":
            return (CUP * MEASURES[move.measure].unit / SPREADS) ** 2
        part = abs(move.sd) * MEASURES[move.measure].unit
        return max(before - part**2, 0.0) + (self.shares[1] * part) ** 2


def read_figure(text: str, span: Span | None = None) -> tuple[Said, ...]:
    """What is said of a figure, in its order. Raises `Problems` for what is not known and what cannot be so at once."""
    found: list[Said] = []
    notes: list[Note] = []
    for part in filter(None, (" ".join(p.split()).lower() for p in text.split(","))):
        said = _read(part)
        if said is None:
            plainly = sentence("figure_unknown", words=Typed(part[:40]))
            fact = f"`{part[:40]}` is not said of a figure here"
            notes.append(error(fact, span, *_meant(part), LIST, plainly=plainly))
        elif other := next((one for one in found if one.saying.group == said.saying.group), None):
            two = (other.saying.words, said.saying.words)
            plainly = sentence("figure_is_two", words=two[0], other=two[1])
            notes.append(error(f"`{two[0]}` and `{two[1]}` are not one figure's", span, plainly=plainly))
        else:
            found.append(said)
    if not found and not notes:
        notes.append(error("nothing is said of the figure", span, LIST, plainly=sentence("figure_unknown", words="")))
    stop_if_errors(notes)
    return tuple(found)


def _read(part: str) -> Said | None:
    cup = _CUP_WORDS.match(part)
    if cup and cup[1] in CUPS:
        return Said(cup_saying(cup[1]), (1.0, 1.0))
    if part in ("full bust", "small bust"):
        return Said(cup_saying("d" if part == "full bust" else "a"), (1.0, 1.0))
    saying = SAYINGS.get(part.removeprefix("very "))
    return Said(saying, TENTH if part.startswith("very ") else THIRD) if saying else None


def _meant(part: str) -> tuple[str, ...]:
    return nearest(part, (*SAYINGS, "full bust", "small bust", *(f"bust {cup.upper()}" for cup in CUPS)))


def with_figure(
    body: Bodies, said: Iterable[Said], estimates: tuple[Estimate, ...]
) -> tuple[Bodies, tuple[Estimate, ...]]:
    """One body whose estimates are moved by what is said of it, and the estimates with what moved them."""
    found = {one.name: one for one in estimates}
    values = dict(body.values)
    notes: list[Note] = []
    for one in said:
        moved = [move for move in one.saying.moves if _is_open(body, move, found)]
        if not moved:
            notes.append(_idle(body, one))
        for move in moved:
            found[move.measure] = _moved(body, one, move, found.get(move.measure))
            values[move.measure] = found[move.measure].values
    return replace(body, values=values, notes=(*body.notes, *notes)), tuple(found.values())


def _is_open(body: Bodies, move: Move, found: dict[str, Estimate]) -> bool:
    """Whether a measure is needed and was not taken."""
    return move.measure in found or (move.measure in body.standing_in and move.measure in body.values)


def _idle(body: Bodies, said: Said) -> Note:
    measured = [move.measure for move in said.saying.moves if move.measure in body.values]
    if measured:
        plainly = sentence("figure_was_measured", words=said.saying.words, measure=Measures((measured[0],)))
        return remark(f"`{said.saying.words}` changes nothing: `{measured[0]}` was measured", plainly=plainly)
    plainly = sentence("figure_changes_nothing", words=said.saying.words)
    return remark(f"`{said.saying.words}` changes nothing: this pattern leans on no such measure", plainly=plainly)


def _moved(body: Bodies, said: Said, move: Move, before: Estimate | None) -> Estimate:
    measure = MEASURES[move.measure]
    old = before.values if before else body.values[move.measure]
    spread = before.spread if before and before.spread is not None else np.zeros(len(body))
    left = np.array([SPREADS * said.variance(move, float(one / SPREADS) ** 2) ** 0.5 for one in spread])
    values = np.clip(old + said.by(move), measure.low, measure.high)
    first = before.source if before else "the size's"
    source = f"{first}; moved for `{said.saying.words}`: {said.saying.source}"
    where = before.where if before else np.ones(len(body), dtype=bool)
    return Estimate(
        move.measure, values, left, source, where, measure.kind, before.beyond if before else (), said.saying.words
    )


def known_sayings() -> tuple[Saying, ...]:
    """All sayings, those of cups with them."""
    return (*SAYINGS.values(), *(cup_saying(cup) for cup in CUPS if cup != "e" and cup != "b"))
