"""What is made from a template: its lines, and one's own, which take the place of those of their names.

A template may be made from another in the same way, and `without` takes lines out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import Any

from draft.base.notes import Note, error, nearest
from draft.language import tree

Key = Callable[[Any], str]


def _by_name(line: Any) -> str:
    return str(line.name)


_KEYS: dict[str, Key] = {
    **dict.fromkeys(("inputs", "values", "points", "edges", "takeups", "marks"), _by_name),
    "settings": lambda line: str(line.word),
    "corners": lambda line: str(line.at.text),
}
"""The fields of contents whose lines have names, and what tells them apart; notches have none, and are added."""
_FIELDS = {"let": "values", "outline": "edges", "darts": "takeups", "pleats": "takeups", "input": "inputs"}
"""The field of a section that is called otherwise."""


def replaced(shared: tree.Contents, own: tree.Contents, notes: list[Note]) -> tree.Contents:
    """The lines of `shared` with one's own in their places, behind them those that are new."""
    changed: dict[str, Any] = {
        name: _in_place(getattr(shared, name), getattr(own, name), key) for name, key in _KEYS.items()
    }
    made = replace(own, **changed, notches=shared.notches + own.notches, without=())
    for line in own.without:
        made = _taken_out(made, line, notes)
    return made


def _in_place(shared: Iterable[Any], own: tuple[Any, ...], key: Key) -> tuple[Any, ...]:
    mine: dict[str, list[Any]] = {}
    for line in own:
        mine.setdefault(key(line), []).append(line)
    found = []
    for line in shared:
        found += mine.pop(key(line), [line])
    rest = [line for lines in mine.values() for line in lines]
    return (*found, *rest)


def _taken_out(made: tree.Contents, line: tree.Without, notes: list[Note]) -> tree.Contents:
    """Contents less what a `without` names in its section, or anywhere where it stands in none."""
    section = _FIELDS.get(line.section, line.section)
    keys = {name: key for name, key in _KEYS.items() if section in ("", name)}
    for name, span in zip(line.names, line.name_spans, strict=True):
        known = {key(there) for field, key in keys.items() for there in getattr(made, field)}
        if name not in known:
            notes.append(error(f"there is no `{name}` here to take out", span, *nearest(name, known)))
        kept: dict[str, Any] = {f: tuple(x for x in getattr(made, f) if key(x) != name) for f, key in keys.items()}
        made = replace(made, **kept)
    return made


class Whole:
    """Templates with the lines of those that they are made from, as they are for one piece."""

    def __init__(
        self,
        templates: Mapping[str, tree.Template],
        settled: Callable[[tree.Contents, str], tree.Contents],
        notes: list[Note],
    ) -> None:
        self.templates = templates
        self.settled = settled
        self.notes = notes

    def of(self, used: tree.Ref, piece: str, within: tuple[str, ...] = ()) -> tree.Template | None:
        """The template that is meant, or a note and None."""
        template = self.templates.get(used.text)
        if not template:
            known = (f"choose from {', '.join(self.templates)}",) if self.templates else ()
            hint = nearest(used.text, self.templates) or known
            self.notes.append(error(f"there is no template called `{used.text}`", used.span, *hint))
            return None
        if used.text in within:
            ring = " from ".join(f"`{name}`" for name in (*within[within.index(used.text) :], used.text))
            self.notes.append(error(f"these templates are made from one another: {ring}", used.span))
            return None
        body = self.settled(template.body, piece)
        if template.base:
            base = self.of(template.base, piece, (*within, used.text))
            body = replaced(base.body, body, self.notes) if base else body
        return replace(template, body=body)
