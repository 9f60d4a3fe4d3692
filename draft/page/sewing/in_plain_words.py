"""What the engine says of her garment and her measures, in the words, units and language of who fills in a form.

The engine tells names, options and files' columns; a form has titles and fields. A note carries what to say to her
(`draft/base/plainly.py`); what carries nothing of that is about a text that she wrote herself, and stays as it is.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from contextlib import suppress

from draft.base.naming import SIZE_CODE, plain
from draft.base.notes import Note, Problems, Severity
from draft.base.plainly import Figure, Measures, OfCloth, Part, Sentence, Typed
from draft.base.units import Kind
from draft.bodies.measures import MEASURES
from draft.drafting.request import Request
from draft.page.bench import Asked, Bench, Gave, Verb
from draft.page.notes_told import PlainNote
from draft.page.request_asked import garment_asked
from draft.page.sewing.garment_at_hand import planned, words_asked
from draft.paper.drawing.wording import Wording, capitalised

MISSING = "measures_missing"
_FINEST = {"cm": 1.0, "in": 25.4 / 8}
"""The least that is told of an amount, mm: less would read as nothing."""


def plainly(verb: Verb) -> Verb:
    """A verb whose problems are told in plain words."""

    def told(asked: Asked, bench: Bench) -> Gave:
        try:
            return verb(asked, bench)
        except Problems as problems:
            raise Problems(in_her_language(problems.notes, asked, bench)) from None

    return told


def in_her_language(notes: Iterable[Note], asked: Asked, bench: Bench) -> list[Note]:
    """Each note as a form says it, with the words of the garment that it asks about."""
    with suppress(Problems):  # a language that is not known is a problem itself, and told as it is
        return in_plain_words(notes, _wording(asked, bench))
    return list(notes)


def _wording(asked: Asked, bench: Bench) -> Wording:
    """With the designer's own words, where the garment can be planned."""
    with suppress(Problems):
        return words_asked(asked, planned(Request(garment_asked(asked, bench)), bench), bench)
    return words_asked(asked, None, bench)


def in_plain_words(notes: Iterable[Note], wording: Wording) -> list[Note]:
    """Each note as a form says it; all measures that are missing are one note."""
    kept: list[Note] = []
    lacking: list[str] = []
    for note in notes:
        if note.plainly and note.plainly.key == MISSING:
            measures = note.plainly.parts["measures"]
            lacking += measures.names if isinstance(measures, Measures) else ()
        else:
            kept.append(_plain(note, note.plainly, wording) if note.plainly else note)
    return [*_missing(lacking, wording), *kept]


def _plain(note: Note, said: Sentence, wording: Wording) -> Note:
    fields = {name: _filled(name, part, wording) for name, part in said.parts.items()}
    fields["sizes"] = _sizes(said.sizes, wording)
    if isinstance(measure := said.parts.get("measure"), Measures):
        fields["how"] = measure_taken(measure.names[0], wording)
    text = capitalised(wording.say(f"notes.{said.key}", **fields))
    hints = tuple(capitalised(wording.say(f"notes.{key}", **fields)) for key in said.what_to_do)
    return PlainNote(note.severity, text, note.span, hints, about=said.key)


def _filled(name: str, part: Part, wording: Wording) -> str:
    if isinstance(part, Figure):
        return _figure(part, wording)
    if isinstance(part, Measures):
        return wording.listed([measure_called(one, wording) for one in part.names])
    if isinstance(part, OfCloth):
        return wording.say(f"notes.of_cloth_{part.name}")
    if isinstance(part, Typed):
        return part.text
    return wording.edge(plain(part)) if name == "edge" else wording.named(part)


def _figure(figure: Figure, wording: Wording) -> str:
    if figure.kind is Kind.LENGTH:
        least = _FINEST.get(wording.units, 1.0)
        return wording.length(least if 0 < figure.value < least else figure.value)
    if figure.kind is Kind.ANGLE:
        return measure_said(figure.value, figure.kind, wording)
    return wording.say("units.percent", number=wording.number(figure.value * 100))


def _sizes(sizes: tuple[str, ...], wording: Wording) -> str:
    """` (sizes S, M)`; nothing of a person, of whom there is one."""
    if not sizes or not all(SIZE_CODE.fullmatch(size) for size in sizes):
        return ""
    return wording.say("notes.of_sizes" if len(sizes) > 1 else "notes.of_size", sizes=", ".join(sizes))


def _missing(names: list[str], wording: Wording) -> Iterator[Note]:
    if names:
        listed = wording.listed([measure_called(name, wording) for name in dict.fromkeys(names)])
        yield PlainNote(Severity.ERROR, wording.say(f"notes.{MISSING}", measures=listed), about=MISSING)


def measure_called(name: str, wording: Wording) -> str:
    """What a field for a measure is called: `Height` of `stature`."""
    key = name.replace(" ", "_")
    for section in ("screen.measure_", "measures."):
        if wording.has(section + key):
            return wording.say(section + key)
    return wording.named(plain(name))


def measure_taken(name: str, wording: Wording) -> str:
    """How a measure is taken; nothing of one that a pattern has of its own."""
    if wording.has(f"how.{name}"):
        return wording.say(f"how.{name}")
    return MEASURES[name].how if name in MEASURES else ""


def measure_said(value: float, kind: Kind, wording: Wording) -> str:
    """A measure in mm or rad, as it is said."""
    if kind is Kind.ANGLE:
        return wording.say("units.degree", number=wording.number(math.degrees(value)))
    return wording.length(value)
