"""The files that a pattern is put together from, the lowest first: each lies over those before it.

They are those of the pattern that it varies, what is taken of other files by its names, and its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from draft.base.notes import Note, Source, error
from draft.base.record import dataclass
from draft.language import tree
from draft.plan.files.replacing import in_place
from draft.plan.files.taking import Taking
from draft.plan.files.varied import Varied, withouts_of
from draft.plan.library import Texts
from draft.plan.scopes import Scopes, is_hidden
from draft.plan.styles.branches import Branches


def layers(texts: Texts, scopes: Scopes, notes: list[Note]) -> list[tree.File]:
    """The files of a pattern, the lowest first, and what is seen in them."""
    found = layers(texts.base, scopes, notes) if texts.base else []
    first: dict[str, str] = {}
    for taken in texts.taken:
        inner = Scopes()
        files = [*layers(taken.texts, inner, notes), *_templates_of(taken.texts)]
        selected = Taking(files, taken.asked, notes).selected()
        sees = {file.span.source: {name: name for name in selected.called} for file in files} | inner.closed
        for source, seen in sees.items():
            called = {name: selected.called.get(full, full) for name, full in seen.items()}
            before = scopes.closed.get(source, {})  # taken for the pattern that is varied too
            scopes.closed[source] = called | {name: full for name, full in before.items() if not is_hidden(full)}
        found += selected.files
        _note_from_two(taken.asked, first, notes)
    if texts.taken or texts.base is None:
        notes += _nothing_to_take_from(texts)
    return [*found, texts.main]


def _templates_of(texts: Texts) -> list[tree.File]:
    """The templates of the files that one uses as a whole, and nothing else of them."""
    return [
        replace(tree.File(file.span, *((),) * 11), templates=file.templates, conditions=file.conditions)
        for file in texts.templates
    ]


def _note_from_two(asked: tree.Uses, first: dict[str, str], notes: list[Note]) -> None:
    for name, span in zip(asked.names, asked.name_spans, strict=True):
        if first.setdefault(name, str(asked.value)) != asked.value:
            fact = f"`{name}` is taken from `{first[name]}` already"
            notes.append(error(fact, span, "name it for one of the two files"))


def _nothing_to_take_from(texts: Texts) -> list[Note]:
    """Notes on what a pattern takes out that is made from no other."""
    if texts.base or texts.taken:
        return []
    fix = 'take this line out, or vary a pattern: `pattern NAME from "FILE"`'
    fact = "this pattern is from no other that lines could be taken out of"
    return [error(fact, taken.span, fix) for taken in withouts_of(texts.main)]


@dataclass(frozen=True)
class Whole:
    """A pattern put together: as it is for what the reader chose, and all that it has for any choice."""

    settled: tree.File
    written: tree.File
    branches: Branches


def put_together(files: list[tree.File], given: Mapping[str, str], scopes: Scopes, notes: list[Note]) -> Whole:
    """The files of a pattern as one."""
    scopes.former |= _former(files)
    written = files[0]
    for file in files[1:]:
        written = _beside(written, file)
    branches = Branches(written, given, notes, scopes)
    laid = Varied(notes)
    settled, known = branches.settled(files[0]), files[0]
    for file in files[1:]:
        settled = laid.over(settled, branches.settled(file), known)
        known = _beside(known, file)
    return Whole(settled, written, branches)


def _former(files: list[tree.File]) -> dict[str, tuple[frozenset[str], Source]]:
    """The options of choices that are declared by several files, with the last of them."""
    found: dict[str, tuple[frozenset[str], Source]] = {}
    for file in files:
        for style in file.styles:
            if isinstance(style, tree.StyleChoice):
                before = found.get(style.name, (frozenset(), None))[0]
                found[style.name] = (before | set(style.options), file.span.source)
    return found


def _beside(base: tree.File, own: tree.File) -> tree.File:
    """All lines of two files; of a style that both declare the second's."""
    every: dict[str, Any] = {
        field.name: getattr(base, field.name) + getattr(own, field.name)
        for field in fields(tree.File)
        if isinstance(getattr(own, field.name), tuple)
    }
    every["styles"] = in_place(base.styles, own.styles, lambda style: str(style.name))
    return replace(own, **every)
