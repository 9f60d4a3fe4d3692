"""What fails in a stack of settings: every note of a draft and of its checks, with the rows that it is so of."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

import numpy as np

from draft import checks
from draft.base.arrays import Bools, Floats, Ints
from draft.base.notes import Note, Severity
from draft.base.record import dataclass
from draft.drafting.telling import allowance_notes, describe
from draft.garment.garment import Garment, Piece
from draft.garment.some_bodies import of_bodies
from draft.trying.stacked import Stack

Check = Callable[[Garment], list[Note]]


@dataclass(frozen=True)
class Fault:
    """One note on a stack, the name of what has found it, and by how much it is so of each row `(rows,)`, 0 if not."""

    found_by: str
    note: Note
    off: Floats


def faults(stack: Stack) -> list[Fault]:
    """The faults of a stack. Where a body has an error, what is only to be weighed about it is left out."""
    found = [Fault("draft", note, _everywhere(note, stack)) for note in _of_drafting(stack)]
    found += _checked(stack, checks.FIRST_CHECKS, np.flatnonzero(stack.outcome.drafted))
    sound = _sound(stack, found)
    found += _checked(stack, (checks.outlines.check,), sound)
    sound = _sound(stack, found)
    rest = tuple(check for check in checks.CHECKS if check is not checks.outlines.check)
    found += _checked(stack, (*rest, *checks.WHOLE_CHECKS), sound)
    return list(_only_sound(stack, found))


def _of_drafting(stack: Stack) -> Iterator[Note]:
    yield from (note for note in describe(stack.plan, stack.outcome) if note.severity is not Severity.REMARK)
    yield from allowance_notes(stack.plan, stack.outcome)


def _everywhere(note: Note, stack: Stack) -> Floats:
    return note.off if note.off is not None else np.ones(len(stack.garment.sizes))


def _sound(stack: Stack, found: Iterable[Fault]) -> Ints:
    """The rows that were drafted, and of which no error is known."""
    sound = stack.outcome.drafted.copy()
    for fault in found:
        sound &= (fault.off == 0) | (fault.note.severity is not Severity.ERROR)
    return np.flatnonzero(sound)


def _only_sound(stack: Stack, found: list[Fault]) -> Iterator[Fault]:
    sound = np.zeros(len(stack.garment.sizes), dtype=bool)
    sound[_sound(stack, found)] = True
    for fault in found:
        off = fault.off if fault.note.severity is Severity.ERROR else np.where(sound, fault.off, 0.0)
        if np.any(off > 0):
            yield Fault(fault.found_by, fault.note, off)


def _checked(stack: Stack, used: Iterable[Check], rows: Ints) -> list[Fault]:
    """What checks find of these rows. A check that does not say of whom a note is so looks at each setting alone."""
    found = []
    for alike in _of_one_make(stack.garment, rows):
        some = of_bodies(stack.garment, alike)
        for check in used:
            name = check.__module__.rpartition(".")[2]
            notes = check(some)
            found += [_placed(stack, name, note, alike) for note in notes if note.off is not None]
            if any(note.off is None for note in notes):
                found += _by_setting(stack, check, name, alike)
    return found


def _by_setting(stack: Stack, check: Check, name: str, rows: Ints) -> Iterator[Fault]:
    number = rows // len(stack.bodies)
    for setting in np.unique(number):
        its = rows[number == setting]
        for note in check(of_bodies(stack.garment, its)):
            if note.off is None:
                yield _placed(stack, name, note, its)


def _placed(stack: Stack, name: str, note: Note, rows: Ints) -> Fault:
    off = np.zeros(len(stack.garment.sizes))
    off[rows] = 1.0 if note.off is None else note.off
    return Fault(name, note, off)


def _of_one_make(garment: Garment, rows: Ints) -> list[Ints]:
    """The rows parted by which darts, notches and marks are there: a check looks at those of one make together."""
    if not len(rows):
        return []
    told = [there[rows] for piece in garment.pieces for there in _makes(piece)]
    if not told or all(there.all() for there in told):
        return [rows]
    makes = np.stack(told, axis=-1)
    _, number = np.unique(makes, axis=0, return_inverse=True)
    return [rows[number.ravel() == k] for k in range(int(number.max()) + 1)]


def _makes(piece: Piece) -> Iterator[Bools]:
    yield from (np.asarray(takeup.width > 0) for takeup in piece.takeups)
    found = [line.there for lines in (piece.takeups, piece.notches, piece.marks) for line in lines]
    yield from (np.asarray(there > 0) for there in found if there is not None)
