"""What `uses FILE for NAMES` takes of a file: what is named, and what that leans on, under names that are not seen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

from draft.base.notes import Note, error, nearest
from draft.base.record import dataclass
from draft.garment.garment import Finish
from draft.language import tree
from draft.language.walking import nodes

_FIELDS = ("measures", "properties", "cloths", "styles", "values", "templates", "pieces")
_EVERYWHERE = ("measures", "properties", "cloths")
"""What is the same in all files: the body and its cloths."""


@dataclass(frozen=True)
class Selected:
    """The files of one that was taken, and what its names are called in the pattern."""

    files: tuple[tree.File, ...]
    called: dict[str, str]


class Taking:
    """Takes what is named of a file, which may itself be several laid over one another."""

    def __init__(self, files: Sequence[tree.File], asked: tree.Uses, notes: list[Note]) -> None:
        self.files, self.asked, self.notes = files, asked, notes
        self.declared: dict[str, list[tree.Node]] = {}
        for file in files:
            for name, node in _declared(file):
                self.declared.setdefault(name, []).append(node)
        self.measured = {line.name for file in files for field in _EVERYWHERE for line in getattr(file, field)}

    def selected(self) -> Selected:
        """What is named, with what it leans on."""
        self._note_unknown()
        needed = self._needed()
        place = Path(str(self.asked.value)).stem
        kept = {*self.asked.names, *self.measured}
        called = {name: name if name in kept or " " in name else f"{name} of {place}" for name in self.declared}
        return Selected(tuple(self._part(file, needed, called) for file in self.files), called)

    def _note_unknown(self) -> None:
        for k, (name, span) in enumerate(zip(self.asked.names, self.asked.name_spans, strict=True)):
            if name in self.asked.names[:k]:
                self.notes.append(error(f"`{name}` is named twice", span, "take one of the two out"))
            elif name not in self.declared:
                seen = [known for known in self.declared if " " not in known]
                fact = f"`{self.asked.value}` has nothing called `{name}` that could be taken"
                hint = nearest(name, seen) or ((_some_of(seen),) if seen else ())
                self.notes.append(error(fact, span, *hint))

    def _needed(self) -> set[str]:
        """The names that are asked for and all that they lean on."""
        found: set[str] = set()
        waiting = [name for name in self.asked.names if name in self.declared]
        while waiting:
            name = waiting.pop()
            if name not in found:
                found.add(name)
                waiting += [n for node in self.declared[name] for n in named_in(node) if n in self.declared]
        return found

    def _part(self, file: tree.File, needed: set[str], called: dict[str, str]) -> tree.File:
        kept: dict[str, Any] = {
            field: tuple(_renamed(line, called) for line in getattr(file, field) if line.name in needed)
            for field in _FIELDS
        }
        named = set(self.asked.names)
        kept["pieces"] = tuple(_drawn(piece, named) for piece in kept["pieces"])
        solves = [solve for solve in file.solves if {unknown.name for unknown in solve.unknowns} & needed]
        joins = [join for join in file.joins if self._is_sewn(join)]
        patches = [patch for patch in file.patches if {patch.piece.text, patch.onto.parts[0]} <= named]
        return replace(
            tree.File(file.span, *((),) * 11),
            **kept,
            solves=tuple(_renamed(solve, called) for solve in solves),
            joins=tuple(_renamed(join, called) for join in joins),
            patches=tuple(_renamed(patch, called) for patch in patches),
            without=tuple(_renamed(line, called) for line in file.without),
        )

    def _is_sewn(self, join: tree.Join) -> bool:
        """Whether all that a join sews is taken."""
        if join.along:
            traced = {p.name: p.origin.draft.text for f in self.files for p in f.pieces if p.origin}
            return [traced.get(name) for name in self.asked.names].count(join.along.parts[0]) > 1
        return {part.edge.parts[0] for part in (*join.first, *join.second)} <= set(self.asked.names)


def _declared(file: tree.File) -> Iterator[tuple[str, tree.Node]]:
    for field in _FIELDS:
        for line in getattr(file, field):
            yield line.name, line
    for solve in file.solves:
        for unknown in solve.unknowns:
            yield unknown.name, solve


def named_in(node: tree.Node) -> Iterator[str]:
    """The names that something leans on, each of two parts by its first; also those of its conditions."""
    for inner in nodes(node):
        if isinstance(inner, tree.Ref):
            yield inner.parts[0]
        if isinstance(inner, tree.Line):
            yield from (part.style.text for branch in inner.branches for part in branch.condition.parts)


def _some_of(names: Sequence[str]) -> str:
    shown = ", ".join(names[:8])
    return f"choose from {shown}" + (", ..." if names[8:] else "")


def _drawn(piece: tree.Piece, named: Iterable[str]) -> tree.Piece:
    """A piece that only came along is drawn and not cut."""
    if piece.name in named or piece.is_block:
        return piece
    settings = tuple(setting for setting in piece.body.settings if setting.word != "cut")
    return replace(piece, is_block=True, body=replace(piece.body, settings=settings))


def _renamed(node: Any, called: dict[str, str]) -> Any:
    """A declaration under the name that it has in the pattern, and what it says of pieces, templates and choices.

    What stands there for a value is found when it is looked for, as a piece may have a name of its own for it.
    """
    made = _mapped(node, called)
    if isinstance(made, tree.Solve):
        unknowns = tuple(replace(unknown, name=called[unknown.name]) for unknown in made.unknowns)
        return replace(made, unknowns=unknowns)
    if isinstance(made, tree.Join | tree.Patch | tree.Without) or not isinstance(made, tree.Named):
        return made
    return replace(made, name=called.get(made.name, made.name))


def _mapped(value: Any, called: dict[str, str]) -> Any:
    if isinstance(value, tuple):
        return tuple(_mapped(part, called) for part in value)
    if isinstance(value, tree.Ref):
        return _called(value, called) if value.parts[1:] else value
    if not isinstance(value, Finish | tree.Node):
        return value
    inner = {f.name: _mapped(getattr(value, f.name), called) for f in fields(value) if "span" not in f.name}
    changed: Any = value
    return _led_elsewhere(replace(changed, **inner), called)


def _called(ref: tree.Ref, called: dict[str, str]) -> tree.Ref:
    return replace(ref, parts=(called.get(ref.parts[0], ref.parts[0]), *ref.parts[1:]))


def _led_elsewhere(node: Any, called: dict[str, str]) -> Any:
    """A node whose own references to a template, a draft or a choice are to what that is called in the pattern."""
    changed: Any = node
    for sort, name in _LEADING:
        if isinstance(node, sort) and getattr(node, name) is not None:
            changed = replace(changed, **{name: _called(getattr(node, name), called)})
    return changed


_LEADING: tuple[tuple[type, str], ...] = (
    (tree.Piece, "template"),
    (tree.Template, "base"),
    (tree.MadeAfter, "template"),
    (tree.Origin, "draft"),
    (tree.Lay, "draft"),
    (tree.ChoiceIs, "style"),
    (tree.Patch, "piece"),
)
