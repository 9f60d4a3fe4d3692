"""The head of a pattern: what it says, and what there is to say of that."""

from __future__ import annotations

import re
from datetime import date

from draft.base.notes import Note, error
from draft.bodies.wearers import WEARERS, wearers_called
from draft.language import tree
from draft.language.edition import EDITION, newer
from draft.plan.names import twice
from draft.plan.plan import ChangeNote


def said(head: tree.Pattern, word: str) -> str:
    """What a setting of the head says; nothing where it is not there."""
    return next((str(s.value) for s in head.settings if s.word == word), "")


def of_charts(head: tree.Pattern) -> list[Note]:
    """What there is to say of the names of its charts: all but the first need one, and each another."""
    charts = [setting for setting in head.settings if isinstance(setting, tree.Chart)]
    fix = 'name it, such as `chart petite "petite.csv"`: it is asked for by `--chart petite`'
    notes = [error("only the first chart may be without a name", one.span, fix) for one in charts[1:] if not one.name]
    return notes + twice((one.name, one.name_span) for one in charts if one.name_span)


def of_changes(head: tree.Pattern) -> list[Note]:
    """What there is to say of its notes on versions: each is of another version, and has a day of the calendar."""
    changes = _changes(head)
    fix = 'write year, month and day, such as `on "2026-05-04"`'
    return [
        *(error(f"`{one.day}` is no day", one.day_span, fix) for one in changes if not _is_day(one.day)),
        *twice((one.version, one.version_span) for one in changes if one.version_span),
    ]


def told_changes(head: tree.Pattern) -> tuple[ChangeNote, ...]:
    """The notes on its versions."""
    return tuple(ChangeNote(one.version, one.day, str(one.value)) for one in _changes(head))


def _changes(head: tree.Pattern) -> list[tree.Changed]:
    return [setting for setting in head.settings if isinstance(setting, tree.Changed)]


def _is_day(text: str) -> bool:
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text, re.ASCII):
        return False
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def of_wearers(head: tree.Pattern) -> list[Note]:
    """What there is to say of whom a pattern is drafted for."""
    unknown = [s for s in head.settings if s.word == "wearer" and not wearers_called(str(s.value))]
    return [
        error(f"`{s.value}` is nobody that a pattern is drafted for", s.value_span, f"choose from {', '.join(WEARERS)}")
        for s in unknown
    ]


def of_edition(head: tree.Pattern) -> list[Note]:
    """What there is to say of the edition of the language that a pattern was written for."""
    notes: list[Note] = []
    for setting in head.settings:
        if setting.word == "edition":
            number = str(setting.value)
            fault = not number.isdigit() or int(number) < 1
            fact = f"`{number}` is no edition of the language"
            fix = f"editions are counted from 1: this is edition {EDITION}"
            notes += [error(fact, setting.value_span, fix)] if fault else newer(head.span.source)
    return notes
