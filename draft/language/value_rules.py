"""What every rule of the grammar is built with, and the rules of values and settings."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from lark import Token, v_args
from lark.tree import Meta

from draft.base.notes import Span
from draft.base.units import Kind, read_quantity
from draft.garment.garment import FINISHES
from draft.language import tree
from draft.language.branch_rules import BranchRules

_SETTINGS = {"title", "maker", "varying", "version", "edition", "wearer", "allowance"}
_SETTINGS |= {"cut", "grain", "stretch"}  # of a piece too
_SETTINGS |= {"text", "picture", "licence", "link"}  # of the booklet
_BLOCKS = {
    "body",
    "fabric",
    "style",
    "let",
    "inputs",
    "moves",
    "points",
    "lines",
    "outline",
    "darts",
    "pleats",
    "notches",
    "marks",
    "corners",
    "joins",
    "measurements",
    "check",
    "notions",
    "booklet",
}


def only(kind: type | tuple[type, ...], children: list[Any]) -> tuple[Any, ...]:
    return tuple(child for child in children if isinstance(child, kind))


def unquoted(token: Token | None) -> str:
    return str(token)[1:-1] if token is not None else ""


def lines_of(label: str, kind: type | tuple[type, ...], children: list[Any]) -> tuple[Any, ...]:
    """The lines of every block of one label, in the order written."""
    blocks = [child[1] for child in children if isinstance(child, tuple) and child[0] == label]
    return tuple(line for block in blocks for line in block if isinstance(line, kind))


def withouts(children: list[Any]) -> tuple[tree.Without, ...]:
    """What is taken out, each with the section that says so."""
    found = list(only(tree.Without, children))
    for label, block in [child for child in children if isinstance(child, tuple) and isinstance(child[1], list)]:
        found += [
            replace(line, section=label.removesuffix("s") if label == "inputs" else label)
            for line in only(tree.Without, block)
        ]
    return tuple(found)


def last(kind: type, children: list[Any]) -> Any:
    """The last child of a kind, or None."""
    found = only(kind, children)
    return found[-1] if found else None


def round_it(only: tree.Branch | None) -> tuple[tree.Branch, ...]:
    """The branches of a line that says `only for`, or of one that does not."""
    return (only,) if only else ()


@v_args(meta=True)
class ValueRules(BranchRules):
    """Builds values and settings; a rule without a method is a setting, a block, an option or a word."""

    def _named(self, meta: Meta, token: Token) -> tuple[Span, str, Span]:
        return self._span(meta), str(token), self._of(token)

    def __default__(self, data: Token, children: list[Any], meta: Meta) -> Any:
        """A setting, a block of lines, an option of an edge, or (any other rule) a word of the language."""
        rule = str(data)
        if rule in _SETTINGS:
            return self._setting(meta, rule, children[0])
        if rule in _BLOCKS:
            return rule, children
        if rule in FINISHES:
            return rule, children[0] if children else True
        return tree.Call(self._span(meta), rule, tuple(children))

    def literal(self, meta: Meta, children: list[Any]) -> tree.Literal:
        found = read_quantity(str(children[0]))
        return tree.Literal(self._span(meta), found.value, found.kind)

    count = literal

    def negative_literal(self, meta: Meta, children: list[Any]) -> tree.Literal:
        return tree.Literal(self._span(meta), -children[0].value, children[0].kind)

    def ref(self, meta: Meta, children: list[Any]) -> tree.Ref:
        return tree.Ref(self._span(meta), tuple(str(token) for token in children))

    style_name = ref

    def by(self, meta: Meta, children: list[Any]) -> tree.By:
        return tree.By(self._span(meta), children[0], tuple(children[1:]))

    def by_choice(self, meta: Meta, children: list[Any]) -> tree.Row:
        *names, value = children
        return tree.Row(self._span(meta), self._options(names), value)

    def _options(self, names: list[Token]) -> tree.Options:
        spans = tuple(self._of(name) for name in names)
        whole = Span(self._source, spans[0].start, spans[-1].end)
        return tree.Options(whole, tuple(str(name) for name in names), spans)

    def by_level(self, meta: Meta, children: list[Any]) -> tree.Row:
        return tree.Row(self._span(meta), children[0], children[1])

    def by_size(self, meta: Meta, children: list[Any]) -> tree.Row:
        return tree.Row(self._span(meta), tree.SizeName(self._of(children[0]), unquoted(children[0])), children[1])

    def by_rest(self, meta: Meta, children: list[Any]) -> tree.Row:
        return tree.Row(self._span(meta), tree.SizeName(self._span(meta), None), children[0])

    def sewn_length_of(self, meta: Meta, children: list[Any]) -> tree.SewnLength:
        return tree.SewnLength(self._span(meta), children[0])

    def bias(self, meta: Meta, children: list[Any]) -> tree.Call:
        span = self._span(meta)
        half_square = tree.Literal(span, math.radians(45.0), Kind.ANGLE)
        return tree.Call(span, "above", (half_square, tree.Call(span, "across", ())))

    def square_to(self, meta: Meta, children: list[Any]) -> tree.SquareTo:
        return tree.SquareTo(self._span(meta), children[0])

    def _setting(self, meta: Meta, word: str, value: Any) -> tree.Setting:
        if isinstance(value, Token):
            said = unquoted(value) if value.type == "STRING" else str(value)
            return tree.Setting(self._span(meta), word, said, self._of(value))
        return tree.Setting(self._span(meta), word, value, value.span)
