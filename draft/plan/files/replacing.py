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
Settings = dict[str, tuple[str, tuple[str, ...]]]
"""For each choice: what it is set to, and its options."""


def _by_name(line: Any) -> str:
    return str(line.name)


_KEYS: dict[str, Key] = {
    **dict.fromkeys(("inputs", "values", "points", "edges", "lines", "takeups", "marks"), _by_name),
    "settings": lambda line: str(line.word),
    "corners": lambda line: str(line.at.text),
}
"""The fields of contents whose lines have names, and what tells them apart; notches have none, and are added."""
_FIELDS = {"let": "values", "outline": "edges", "darts": "takeups", "pleats": "takeups", "input": "inputs"}
"""The field of a section that is called otherwise."""


def replaced(shared: tree.Contents, own: tree.Contents, notes: list[Note]) -> tree.Contents:
    """The lines of `shared` with one's own in their places, behind them those that are new."""
    changed: dict[str, Any] = {
        name: in_place(getattr(shared, name), getattr(own, name), key) for name, key in _KEYS.items()
    }
    again = {line.name: line for line in own.again}
    changed["edges"] = tuple(said_again(edge, again.get(edge.name)) for edge in changed["edges"])
    made = replace(own, **changed, notches=shared.notches + own.notches, without=())
    for line in own.without:
        made = _taken_out(made, line, notes)
    return made


def said_again(edge: tree.Edge, again: tree.EdgeAgain | None) -> tree.Edge:
    """An edge with what a line of its name says of it besides."""
    if again is None:
        return edge
    said = {name: getattr(again.finish, name) for name in again.said}
    return replace(edge, finish=replace(edge.finish, **said), measuring=again.measuring or edge.measuring)


def unknown_again(own: tree.Contents, edges: Iterable[str], notes: list[Note]) -> None:
    """Notes on lines that say more of an edge that is not there."""
    known = {*edges, *(edge.name for edge in own.edges)}
    for line in own.again:
        if line.name not in known:
            fact = f"there is no edge called `{line.name}` yet, and this line does not say how it runs"
            notes.append(error(fact, line.name_span, *nearest(line.name, known)))


def in_place(shared: Iterable[Any], own: Iterable[Any], key: Key) -> tuple[Any, ...]:
    """The shared lines, each of those that one has oneself replaced, and behind them what is new."""
    mine: dict[str, list[Any]] = {}
    for line in own:
        mine.setdefault(key(line), []).append(line)
    replaced, found = set(mine), []
    for line in shared:
        found += mine.pop(key(line), [] if key(line) in replaced else [line])
    rest = [line for lines in mine.values() for line in lines]
    return (*found, *rest)


def varied_body(shared: tree.Contents, own: tree.Contents) -> tree.Contents:
    """What a piece holds in a pattern that varies another: its lines there, and those here in their places.

    What is said of lines that are not among them is kept for the template or the draft that the piece is made from.
    """
    keys = {**_KEYS, "given": _by_name}
    kept = [_left_over(shared, line) for line in own.without]
    for line in own.without:
        shared = _less(shared, line)
    changed: dict[str, Any] = {n: in_place(getattr(shared, n), getattr(own, n), key) for n, key in keys.items()}
    again = in_place(shared.again, own.again, _by_name)
    said = {line.name: line for line in again}
    changed["edges"] = tuple(said_again(edge, said.get(edge.name)) for edge in changed["edges"])
    there = {edge.name for edge in changed["edges"]}
    return replace(
        own,
        **changed,
        again=tuple(line for line in again if line.name not in there),
        notches=shared.notches + own.notches,
        moves=shared.moves + own.moves,
        without=(*shared.without, *(line for line in kept if line.names)),
    )


def _fields_of(line: tree.Without) -> dict[str, Key]:
    section = _FIELDS.get(line.section, line.section)
    return {name: key for name, key in {**_KEYS, "given": _by_name}.items() if section in ("", name)}


def _less(made: tree.Contents, line: tree.Without) -> tree.Contents:
    kept: dict[str, Any] = {
        field: tuple(x for x in getattr(made, field) if key(x) not in line.names)
        for field, key in _fields_of(line).items()
    }
    return replace(made, **kept)


def _left_over(shared: tree.Contents, line: tree.Without) -> tree.Without:
    """What a `without` names that does not stand in the piece itself."""
    known = {key(there) for field, key in _fields_of(line).items() for there in getattr(shared, field)}
    left = [(n, s) for n, s in zip(line.names, line.name_spans, strict=True) if n not in known]
    return replace(line, names=tuple(n for n, _ in left), name_spans=tuple(s for _, s in left))


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
        settled: Callable[[tree.Contents, str, Settings], tree.Contents],
        notes: list[Note],
    ) -> None:
        self.templates = templates
        self.settled = settled
        self.notes = notes

    def inputs(self, used: tree.Ref) -> tuple[tree.Input, ...]:
        """The inputs of a template and of those that it is made from, for any choice."""
        found: tuple[tree.Input, ...] = ()
        seen: list[str] = []
        while used and used.text not in seen and used.text in self.templates:
            seen.append(used.text)
            template = self.templates[used.text]
            found = in_place(template.body.inputs, found, _by_name)
            used = template.base or used
        return found

    def of(
        self, used: tree.Ref, piece: str, within: tuple[str, ...] = (), choices: Settings | None = None
    ) -> tree.Template | None:
        """The template that is meant, or a note and None; `choices` are those that it is given."""
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
        body = self.settled(template.body, piece, choices or {})
        if template.base:
            base = self.of(template.base, piece, (*within, used.text), choices)
            body = replaced(base.body, body, self.notes) if base else body
        return replace(template, body=body)
