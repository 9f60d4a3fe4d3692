"""Measures given on the command line: `bust_girth=98cm`, read and refused like the lines of a person's file."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.base.notes import Note, Source, error, stop_if_errors
from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES
from draft.bodies.own_measure import Known
from draft.bodies.person_measure import read_measure

NAME = "made to measure"


def read_given(given: Sequence[str], name: str = NAME, known: Known = MEASURES) -> Bodies:
    """One body from texts such as `bust_girth=98cm`. Raises `Problems` with every mistake."""
    source = Source("command line", "\n".join(given))
    values: dict[str, float] = {}
    notes: list[Note] = []
    for answer in given:
        key, equals, text = (part.strip() for part in answer.partition("="))
        key = _SHORT.get(key.lower(), key)
        read = read_measure(source, key, text, None, name, known) if equals else _unread(answer)
        if isinstance(read, Note):
            notes.append(_as_typed(read))
        else:
            values[key] = read
    stop_if_errors(notes)
    return Bodies((name,), {key: np.array([value]) for key, value in values.items()})


_SHORT = {
    "bust": "bust_girth",
    "chest": "bust_girth",
    "waist": "waist_girth",
    "hip": "hip_girth",
    "hips": "hip_girth",
    "height": "stature",
}
"""What people call the measures that they know."""

_LINE = re.compile(r'`(\w+) = "([^"]*)"`')


def _as_typed(note: Note) -> Note:
    """A note on what was typed: it has no place in a file, and its fix is an option."""
    fixes = tuple(
        _LINE.sub(lambda line: f"`--measure {line[1]}={line[2].replace(' ', '')}`", fix) for fix in note.hints
    )
    return replace(note, span=None, hints=fixes)


def with_given(body: Bodies, given: Bodies) -> Bodies:
    """A body in which what was given takes the place of what was known."""
    sides = {side: {k: v for k, v in of.items() if k not in given.values} for side, of in body.sides.items()}
    return replace(body, values=dict(body.values) | dict(given.values), sides=sides)


def _unread(answer: str) -> Note:
    return error(f"`{answer[:40]}` is not NAME=VALUE", None, "try `--measure bust_girth=98cm`")
