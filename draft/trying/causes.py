"""Faults of many settings told as few causes: the same note of the same line is one, however many settings it is in."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import field, replace

import numpy as np

from draft.base.notes import Note, Severity
from draft.base.record import dataclass
from draft.base.worst import worst_of
from draft.garment.garment import Garment
from draft.garment.some_bodies import of_bodies
from draft.trying.faults import Fault
from draft.trying.settings import Setting
from draft.trying.stacked import Stack, Unplanned

_FIGURE = re.compile(r"\d[\d.,]*")


@dataclass(frozen=True)
class Case:
    """One body in one setting, and by how much the fault is so of it; no body where nothing could be planned."""

    setting: Setting
    body: str
    off: float


@dataclass
class Cause:
    """A fault, all cases of it, and the worst of them: its note, and its garment where one was drawn."""

    found_by: str
    fact: str
    note: Note
    cases: list[Case] = field(default_factory=list)
    worst: Case | None = None
    drawn: Garment | None = None

    @property
    def is_error(self) -> bool:
        """Whether the pattern cannot be cut so; else it is to be weighed."""
        return self.note.severity is Severity.ERROR

    @property
    def settings(self) -> tuple[Setting, ...]:
        """The settings that it is in, each once."""
        return tuple(dict.fromkeys(case.setting for case in self.cases))

    @property
    def bodies(self) -> tuple[str, ...]:
        """The bodies that it is so of in any setting, each once."""
        return tuple(dict.fromkeys(case.body for case in self.cases if case.body))

    @property
    def least(self) -> tuple[Setting, ...]:
        """The settings that bring it about with the fewest styles: no other of them is a part of one."""
        held = [(setting, set(setting)) for setting in self.settings]
        return tuple(setting for setting, mine in held if not any(other < mine for _, other in held))


@dataclass
class Causes:
    """The causes found so far, by what tells them apart."""

    found: dict[tuple[object, ...], Cause] = field(default_factory=dict)

    def add(self, stack: Stack | Unplanned, faults: Iterable[Fault]) -> None:
        """Takes in what was found of a stack, or why a setting could not be planned."""
        if isinstance(stack, Unplanned):
            for note in stack.notes:
                case = Case(stack.setting, "", 0.0)
                self._add("text", note, [case], case, None)
            return
        for fault in faults:
            row = worst_of(fault.off)
            note = _without_whom(fault.note, stack.garment.sizes[row])
            drawn = of_bodies(stack.garment, np.array([row]))
            self._add(fault.found_by, note, list(_cases(stack, fault)), _case(stack, fault, row), drawn)

    def _add(self, found_by: str, note: Note, cases: list[Case], worst: Case, garment: Garment | None) -> None:
        fact = _fact(note)
        key = (note.severity, found_by, note.span, _FIGURE.sub("0", fact))
        cause = self.found.setdefault(key, Cause(found_by, fact, note))
        cause.cases += cases
        if cause.worst is None or worst.off > cause.worst.off * (1 + 1e-9):
            cause.fact, cause.note, cause.worst, cause.drawn = fact, note, worst, garment

    def ordered(self) -> list[Cause]:
        """The errors before what is to be weighed, those of most settings first."""
        return sorted(self.found.values(), key=lambda cause: (not cause.is_error, -len(cause.settings)))


def _cases(stack: Stack, fault: Fault) -> Iterator[Case]:
    yield from (_case(stack, fault, row) for row in np.flatnonzero(fault.off > 0).tolist())


def _case(stack: Stack, fault: Fault, row: int) -> Case:
    return Case(stack.setting(row), stack.bodies.names[row % len(stack.bodies)], float(fault.off[row]))


def _without_whom(note: Note, size: str) -> Note:
    """A note whose figures do not name the body that they are of: a case does, with its setting."""
    return replace(note, hints=tuple(hint.replace(f" ({size})", "") for hint in note.hints))


def _fact(note: Note) -> str:
    """What a note says, without the bodies that it says it of."""
    return note.message.rpartition(", for ")[0] or note.message
