"""What the engine says of her measures, in the words and the language of who fills in a form.

The engine tells names, options and files' columns; a form has titles and fields. What is not known here stays as it is.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress

from draft.base.naming import plain
from draft.base.notes import Note, Problems, Severity
from draft.base.units import Kind
from draft.bodies.measures import MEASURES
from draft.page.bench import Asked, Bench, Gave, Verb
from draft.page.notes_told import PlainNote
from draft.page.sewing.garment_at_hand import words_asked
from draft.paper.drawing.wording import Wording, capitalised


def plainly(verb: Verb) -> Verb:
    """A verb whose problems are told in plain words."""

    def told(asked: Asked, bench: Bench) -> Gave:
        try:
            return verb(asked, bench)
        except Problems as problems:
            with suppress(Problems):  # a language that is not known is a problem itself, and told as it is
                problems = Problems(in_plain_words(problems.notes, words_asked(asked, None, bench)))
            raise problems from None

    return told


def in_plain_words(notes: Iterable[Note], wording: Wording) -> list[Note]:
    """Each note as a form says it; all measures that are missing are one note."""
    kept: list[Note] = []
    lacking: list[str] = []
    for note in notes:
        about, found = _known(note)
        if about == "missing":
            lacking += _MEASURE.findall(found[0])
        else:
            kept.append(PlainNote(note.severity, _SAYS[about](found, wording), about=about) if about else note)
    return [*_missing(lacking, wording), *kept]


def measure_called(name: str, wording: Wording) -> str:
    """What a field for a measure is called: `Height` of `stature`."""
    for section in ("screen.measure_", "measures."):
        if wording.has(section + name):
            return wording.say(section + name)
    return wording.named(plain(name))


def measure_taken(name: str, wording: Wording) -> str:
    """How a measure is taken."""
    return wording.say(f"how.{name}") if wording.has(f"how.{name}") else MEASURES[name].how


def measure_said(value: float, kind: Kind, wording: Wording) -> str:
    """A measure in mm or rad, as it is said."""
    if kind is Kind.ANGLE:
        return wording.say("units.degree", number=wording.number(math.degrees(value)))
    return wording.length(value)


_MEASURE = re.compile(r"`(\w+)`")
_SORTS = (
    ("missing", re.compile(r"^(`.+`) (?:is|are) missing; .+ could be estimated$")),
    ("missing", re.compile(r"^(`\w+`) is missing for ")),
    ("outside", re.compile(r"^`(\w+)` is .+, outside .+ to .+$")),
    ("unread", re.compile(r"^`(\w+)` is not an? ")),
    ("waist", re.compile(r"^`(waist_girth)` is .+, whose bust or hip is ")),
)


def _known(note: Note) -> tuple[str, tuple[str, ...]]:
    """The sort of a note and what it names; nothing where a form has no other words for it."""
    for about, pattern in _SORTS:
        found = pattern.match(note.message)
        if found and set(_MEASURE.findall(found[1]) or [found[1]]) <= set(MEASURES):
            return about, found.groups()
    return "", ()


def _missing(names: list[str], wording: Wording) -> Iterator[Note]:
    if names:
        listed = wording.listed([measure_called(name, wording) for name in dict.fromkeys(names)])
        yield PlainNote(Severity.ERROR, wording.say("screen.still_needed", measures=listed), about="missing")


def _outside(found: tuple[str, ...], wording: Wording) -> str:
    measure = MEASURES[found[0]]
    low, high = (measure_said(end, measure.kind, wording) for end in (measure.low, measure.high))
    return wording.say("screen.not_drafted", measure=_title(found[0], wording), low=low, high=high)


def _unread(found: tuple[str, ...], wording: Wording) -> str:
    return f"{_title(found[0], wording)}: {wording.say('screen.no_number')}"


def _waist(found: tuple[str, ...], wording: Wording) -> str:
    return wording.say("screen.waist_too_large", how=measure_taken(found[0], wording))


_SAYS: dict[str, Callable[[tuple[str, ...], Wording], str]] = {
    "outside": _outside,
    "unread": _unread,
    "waist": _waist,
}


def _title(name: str, wording: Wording) -> str:
    return capitalised(measure_called(name, wording))
