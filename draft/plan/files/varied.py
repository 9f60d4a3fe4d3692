"""A pattern that varies another: that one's lines, and its own, which take the place of those of their names.

Both are settled for what the reader chose before they come here, so that a line takes the place of another only where
it is there itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import Any

from draft.base.notes import Note, error, nearest
from draft.language import tree
from draft.language.walking import nodes
from draft.plan.files.replacing import in_place, varied_body

Key = Callable[[Any], str]


def _by_name(line: Any) -> str:
    return str(line.name)


_Told = tree.Setting | tree.Topic | tree.Advice


def booklet_key(line: _Told) -> str:
    """What tells lines of a booklet apart: a setting's word, a topic, or the step that one is about."""
    if isinstance(line, tree.Topic):
        return f"about {line.about}"
    return line.word if isinstance(line, tree.Setting) else line.to.text


_NAMED = ("measures", "properties", "cloths", "styles", "values", "templates", "finished", "notions")
_SECTIONS: dict[str, tuple[str, ...]] = {
    "": ("pieces", "templates", "styles", "values", "measures", "properties", "cloths"),
    "body": ("measures",),
    "fabric": ("properties",),
    "style": ("styles",),
    "let": ("values",),
    "joins": ("joins", "patches"),
    "measurements": ("finished",),
    "notions": ("notions",),
    "booklet": ("booklet",),
}
"""The fields of a file that a `without` takes lines from, by the section that it stands in."""


def withouts_of(file: tree.File) -> Iterator[tree.Without]:
    """All that a file takes out outside of its pieces."""
    yield from file.without
    for solve in file.solves:
        yield from solve.without


class Varied:
    """Lays files over one another; `known` is what the lower one has for any choice of the styles."""

    def __init__(self, notes: list[Note]) -> None:
        self.notes = notes

    def over(self, base: tree.File, own: tree.File, known: tree.File) -> tree.File:
        """The lines of `base` with those of `own` in their places."""
        gone: set[str] = set()
        for taken in withouts_of(own):
            base = self._taken_out(base, taken, known, gone)
        base = _without_leaning(base, gone)
        changed: dict[str, Any] = {name: in_place(getattr(base, name), getattr(own, name), _by_name) for name in _NAMED}
        for name, other in (("joins", own.patches), ("patches", own.joins)):
            others = {line.name for line in other}
            kept = [line for line in getattr(base, name) if line.name not in others]
            changed[name] = in_place(kept, getattr(own, name), _by_name)
        return replace(
            own,
            **changed,
            patterns=_heads(base, own),
            pieces=self._pieces(base.pieces, own.pieces),
            solves=_solves(base.solves, own.solves),
            checks=base.checks + own.checks,
            booklet=in_place(base.booklet, own.booklet, booklet_key),
            without=(),
        )

    # ---- what is taken out

    def _taken_out(self, base: tree.File, taken: tree.Without, known: tree.File, gone: set[str]) -> tree.File:
        if taken.section == "check":
            fact = "a check has no name that it could be taken out by"
            fix = "take this line out: a check goes with the piece that it measures"
            self.notes.append(error(fact, taken.span, fix))
            return base
        if taken.section == "solve":
            return self._unsolved(base, taken, known)
        for name, span in zip(taken.names, taken.name_spans, strict=True):
            names = [_key(line) for field in _SECTIONS[taken.section] for line in getattr(known, field)]
            if name not in names:
                fact = f"there is no `{name}` in `{known.span.source.name}` to take out here"
                self.notes.append(error(fact, span, *(_elsewhere(name, known) or nearest(name, names))))
        fields: dict[str, Any] = {
            field: tuple(line for line in getattr(base, field) if _key(line) not in taken.names)
            for field in _SECTIONS[taken.section]
        }
        gone |= set(taken.names) if not taken.section else set()
        return replace(base, **fields)

    def _unsolved(self, base: tree.File, taken: tree.Without, known: tree.File) -> tree.File:
        names = [unknown.name for solve in known.solves for unknown in solve.unknowns]
        for name, span in zip(taken.names, taken.name_spans, strict=True):
            if name not in names:
                fact = f"`{known.span.source.name}` looks for no `{name}`"
                self.notes.append(error(fact, span, *nearest(name, names)))
        return replace(base, solves=tuple(s for s in base.solves if not _unknowns(s) & set(taken.names)))

    # ---- pieces

    def _pieces(self, base: Iterable[tree.Piece], own: Iterable[tree.Piece]) -> tuple[tree.Piece, ...]:
        mine: dict[str, list[tree.Piece]] = {}
        for piece in own:
            mine.setdefault(piece.name, []).append(piece)
        found: list[tree.Piece] = []
        for piece in base:
            found += [self._piece(piece, again) for again in mine.pop(piece.name, [])[:1]] or [piece]
        return (*found, *(piece for pieces in mine.values() for piece in pieces))

    def _piece(self, base: tree.Piece, own: tree.Piece) -> tree.Piece:
        body = varied_body(base.body, own.body)
        named = own.template or own.body.after
        template = own.template if named else base.template
        body = replace(body, after=own.body.after if named else base.body.after)
        origin, words = own.origin or base.origin, own.words or base.words
        made = replace(own, template=template, origin=origin, words=words, body=body)
        self._note_not_there(made)
        return made

    def _note_not_there(self, piece: tree.Piece) -> None:
        """What is drawn here alone can have no more taken out than there is."""
        if piece.template or piece.body.after or piece.origin:
            return
        for taken in piece.body.without:
            for name, span in zip(taken.names, taken.name_spans, strict=True):
                self.notes.append(error(f"there is no `{name}` in `{piece.name}` to take out here", span))


def _key(line: Any) -> str:
    return booklet_key(line) if isinstance(line, _Told) else str(line.name)


def _unknowns(solve: tree.Solve) -> set[str]:
    return {unknown.name for unknown in solve.unknowns}


def _solves(base: tuple[tree.Solve, ...], own: tuple[tree.Solve, ...]) -> tuple[tree.Solve, ...]:
    """One that looks for something again takes the place of the whole block that looked for it."""
    names = {name for solve in own for name in _unknowns(solve)}
    said = tuple(solve for solve in own if solve.unknowns or solve.relations or not solve.without)
    return (*(solve for solve in base if not _unknowns(solve) & names), *said)


def _without_leaning(base: tree.File, gone: set[str]) -> tree.File:
    """A file less the checks that measure what was taken out."""
    kept = [check for check in base.checks if not gone & _named_in(check)]
    return replace(base, checks=tuple(kept))


def _named_in(line: tree.Node) -> set[str]:
    return {node.parts[0] for node in nodes(line) if isinstance(node, tree.Ref)}


def _heads(base: tree.File, own: tree.File) -> tuple[tree.Pattern, ...]:
    if not own.patterns or not base.patterns:
        return own.patterns or base.patterns
    head = own.patterns[0]
    shared = [setting for setting in base.patterns[0].settings if setting.word not in ("uses", "changed")]
    mine = [setting for setting in head.settings if setting.word != "uses"]
    settings = in_place(shared, mine, lambda setting: setting.word)
    return (replace(head, settings=settings), *own.patterns[1:])


def _elsewhere(name: str, file: tree.File) -> tuple[str, ...]:
    """Where a line of this name stands, if in another section."""
    called = {"joins": "join", "measurements": "finished"}
    for section, fields in _SECTIONS.items():
        if any(_key(line) == name for field in fields for line in getattr(file, field)):
            return (f"put it under `{called.get(section, section)}`",) if section else ("put it at the margin",)
    return ()
