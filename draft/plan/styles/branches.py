"""The lines that are there for what the reader chose among the styles; no others are planned.

This comes before all other planning, which then sees a text without a `when`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import fields, replace
from typing import Any, TypeVar

from draft.base.notes import Note, Span, error, nearest
from draft.bodies.measures import MEASURES
from draft.language import tree
from draft.language.walking import nodes
from draft.plan.scopes import Scopes
from draft.plan.styles.style_settings import settle_choice

Settings = dict[str, tuple[str, tuple[str, ...]]]
"""For each choice of the styles: what it is set to, and its options."""
Node = TypeVar("Node", bound=tree.Node)

_HOLDING = (tree.File, tree.Piece, tree.Contents, tree.Edge, tree.Solve, tree.Cloth)
"""What holds lines; a template is looked into where a piece is made from it, for it may ask for an input."""


class Branches:
    """Decides which lines are there; `gone` tells of each name that is not what it would be there for."""

    def __init__(
        self, file: tree.File, given: Mapping[str, str], notes: list[Note], scopes: Scopes | None = None
    ) -> None:
        self.notes = notes
        self.scopes = scopes or Scopes()
        self.gone: dict[str, tree.Branch] = {}
        self.settings: Settings = {}
        self._plain: dict[int, tuple[tree.Node, bool]] = {}
        self.declared = _other_names(file)
        self.choices = {style.name for style in file.styles if isinstance(style, tree.StyleChoice)}
        self._settle_styles(file.styles, given)

    def _settle_styles(self, styles: Iterable[tree.StyleRange | tree.StyleChoice], given: Mapping[str, str]) -> None:
        """What each choice is set to: a choice may itself be there for some options of another."""
        waiting = [style for style in styles if isinstance(style, tree.StyleChoice)]
        while waiting:
            ready = [style for style in waiting if _asks_for(style) <= self.settings.keys()] or waiting
            for style in ready:
                if style.name not in self.settings and all(map(self._holds, style.branches)):
                    self.settings[style.name] = (settle_choice(style, given, self.notes), style.options)
            waiting = [style for style in waiting if style not in ready]

    def settled(self, node: Node, owner: str = "", inputs: Settings | None = None) -> Node:
        """What holds lines, with those that are there; `inputs` are choices that a template is given."""
        if self._is_plain(node):
            return node
        before = self.settings
        self.settings = before | (inputs or {})
        try:
            return self._settled(node, owner)
        finally:
            self.settings = before

    def _is_plain(self, node: Node) -> bool:
        """Whether everything in a node is there for every option; a template is asked for by each of its pieces."""
        if id(node) not in self._plain:
            told = any(getattr(inner, "branches", ()) or getattr(inner, "sometimes", ()) for inner in nodes(node))
            self._plain[id(node)] = (node, not told)
        return self._plain[id(node)][1]

    def _settled(self, node: Node, owner: str) -> Node:
        changed: dict[str, Any] = {}
        for field in fields(node):
            value = getattr(node, field.name)
            if isinstance(value, tree.Contents) and isinstance(node, tree.Piece):
                changed[field.name] = self._settled(value, node.name)
            elif isinstance(value, tuple) and field.name not in ("branches", "conditions"):
                changed[field.name] = tuple(self._taken(value, owner))
        if isinstance(node, tree.Edge):
            changed |= self._options(node, changed["sometimes"])
        return replace(node, **changed)

    def _taken(self, lines: tuple[Any, ...], owner: str) -> Iterable[Any]:
        for line in lines:
            if isinstance(line, tree.Line) and not self.there(line, owner):
                continue
            yield self._settled(line, owner) if isinstance(line, _HOLDING) else line

    def there(self, line: tree.Line, owner: str = "") -> bool:
        """Whether a line of a piece, or of none, is there."""
        failing = [branch for branch in line.branches if not self._holds(branch)]
        if failing and isinstance(line, tree.Named):
            self.gone[f"{owner}.{line.name}" if owner else line.name] = failing[0]
        return not failing

    def _options(self, edge: tree.Edge, options: Iterable[tree.EdgeOption]) -> dict[str, Any]:
        """What the options that are there make of an edge."""
        said: dict[str, Any] = {}
        for option in options:
            before = edge.measuring if option.word == "measuring" else getattr(edge.finish, option.word)
            if option.word in said or before:
                fact = f"`{edge.name}` is given `{option.word.replace('_', ' ')}` twice"
                self._note(fact, option.span, "take one of the two out")
            said[option.word] = option.value
        measuring = said.pop("measuring", edge.measuring)
        return {"finish": replace(edge.finish, **said), "measuring": measuring, "sometimes": ()}

    # ---- conditions

    def _holds(self, branch: tree.Branch) -> bool:
        found = [self._is(part) for part in branch.condition.parts]
        return (all(found) if branch.condition.every else any(found)) == branch.holds

    def _is(self, part: tree.ChoiceIs) -> bool:
        style = part.style.text
        if style not in self.settings:
            if style not in self.choices:
                self._note_no_choice(part)
            return part.negated
        chosen, options = self.settings[style]
        for option, span in zip(part.options, part.option_spans, strict=True):
            if option not in options and not self.scopes.had(style, option, span):
                hint = nearest(option, options) or (f"choose from {', '.join(options)}",)
                self._note(f"`{style}` has no option `{option}`", span, *hint)
        return (chosen in part.options) != part.negated

    def _note_no_choice(self, part: tree.ChoiceIs) -> None:
        style = part.style.text
        if what := "a body measure" if style in MEASURES else self.declared.get(style):
            fact = f"`{style}` is {what}, and lines are there for choices only"
            self._note(fact, part.style.span, f"what leans on it is a value, as in `by {style}: at 0 ..., at ...`")
            return
        fix = f"choices are declared under `style`, as in `{style} {part.options[0]} of {', '.join(part.options)}`"
        hints = nearest(style, self.choices) or (fix,)
        self._note(f"`{style}` is not a choice of the styles", part.style.span, *hints)

    def _note(self, fact: str, span: Span, *hints: str) -> None:
        note = error(fact, span, *hints)
        if note not in self.notes:
            self.notes.append(note)


def _asks_for(line: tree.Line) -> set[str]:
    """The styles that a line is there for some options of."""
    return {part.style.text for branch in line.branches for part in branch.condition.parts}


def _other_names(file: tree.File) -> dict[str, str]:
    """The names that a condition may be taken to ask for, and what they are of."""
    unknowns = [unknown for solve in file.solves for unknown in solve.unknowns]
    amounts = [style for style in file.styles if isinstance(style, tree.StyleRange)]
    values = {line.name: "a value" for line in (*file.values, *unknowns)}
    properties = {line.name: "a property of the cloth" for line in file.properties}
    return values | properties | {line.name: "an amount" for line in amounts}


def as_written(branch: tree.Branch) -> str:
    """What a branch is there for, as a condition that can be written behind `when`."""
    condition = branch.condition
    parts = []
    for part in condition.parts:
        negated = part.negated == branch.holds
        parts.append(f"{part.style.text} is {'not ' if negated else ''}{' or '.join(part.options)}")
    return (" and " if condition.every == branch.holds else " or ").join(parts)
