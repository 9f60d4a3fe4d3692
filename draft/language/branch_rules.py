"""The rules of `when`: every line under one knows the conditions round it, and stands in the tree beside the others.

So the tree is flat: whoever looks at all lines finds those of all branches, and need not descend.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from lark import Token, Transformer, Tree, v_args
from lark.tree import Meta

from draft.base.notes import Source, Span
from draft.base.record import dataclass
from draft.language import tree


@dataclass(frozen=True)
class _Branched:
    """The lines of all branches, each with the conditions round it."""

    lines: list[Any]


@dataclass(frozen=True)
class _Otherwise:
    """Lines that are there where no condition before them holds, and their own does, if they have one."""

    span: Span
    condition: tree.Condition | None
    lines: list[Any]


@v_args(meta=True)
class BranchRules(Transformer[Token, Any]):
    """Builds conditions, and puts them on the lines that stand under them."""

    def __init__(self, source: Source) -> None:
        super().__init__()
        self._source = source
        self._begins = 0
        self.conditions: list[tree.Condition] = []
        """Every condition of the text."""

    def _span(self, meta: Meta) -> Span:
        if meta.empty:
            return Span(self._source, 0, 0)
        start, end = self._begins + meta.start_pos, self._begins + meta.end_pos
        return Span(self._source, start, min(end, len(self._source.text)))

    def _of(self, token: Token) -> Span:
        return Span(self._source, self._begins + (token.start_pos or 0), self._begins + (token.end_pos or 0))

    def built(self, parsed: Tree[Any], begins: int) -> list[Any]:
        """What the rules build of a part of the text that begins there; its places are counted from its own start."""
        self._begins = begins
        try:
            return list(self._transform_children(parsed.children))
        finally:
            self._begins = 0

    def _transform_children(self, children: list[Any]) -> Iterator[Any]:
        """Lark's children of a rule, with the lines of a `when` in its place."""
        for child in super()._transform_children(children):  # type: ignore[no-untyped-call]
            if isinstance(child, _Branched):
                yield from child.lines
            else:
                yield child

    def condition(self, meta: Meta, children: list[Any]) -> tree.Condition:
        first, *more = children
        parts = [first]
        for _, joined in more:
            if isinstance(joined, tree.ChoiceIs):
                parts.append(joined)
            else:
                parts[-1] = _one_more(parts[-1], joined, self._of(joined))
        every = any(word == "and" for word, _ in more)
        made = tree.Condition(self._span(meta), tuple(parts), every)
        self.conditions.append(made)
        return made

    def choice_is(self, meta: Meta, children: list[Any]) -> tree.ChoiceIs:
        style, negated, option = children
        span = self._span(meta)
        return tree.ChoiceIs(span, style, negated is not None, (str(option),), (self._of(option),))

    def and_is(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "and", children[0]

    def or_is(self, meta: Meta, children: list[Any]) -> tuple[str, Any]:
        return "or", children[0]

    or_choice = or_is

    def only_for(self, meta: Meta, children: list[Any]) -> tree.Branch:
        style, *options = children
        spans = tuple(self._of(option) for option in options)
        span = self._span(meta)
        part = tree.ChoiceIs(span, style, False, tuple(str(option) for option in options), spans)
        condition = tree.Condition(span, (part,), False)
        self.conditions.append(condition)
        return tree.Branch(span, condition, True)

    def without(self, meta: Meta, children: list[Any]) -> tree.Without:
        names = children[0]
        spans = tuple(self._of(name) for name in names)
        return tree.Without(self._span(meta), tuple(str(name) for name in names), spans)

    def otherwise_when(self, meta: Meta, children: list[Any]) -> _Otherwise:
        condition, *lines = children
        return _Otherwise(_head(self._span(meta)), condition, lines)

    def otherwise_lines(self, meta: Meta, children: list[Any]) -> _Otherwise:
        return _Otherwise(_head(self._span(meta)), None, children)

    def when(self, meta: Meta, children: list[Any]) -> _Branched:
        condition, *rest = children
        others = [part for part in rest if isinstance(part, _Otherwise)]
        lines = [line for line in rest if line is not None and not isinstance(line, _Otherwise)]
        head = _head(self._span(meta))
        found = under((tree.Branch(head, condition, True),), lines)
        before: tuple[tree.Branch, ...] = (tree.Branch(head, condition, False),)
        for other in others:
            before = tuple(replace(branch, span=other.span) for branch in before)
            own = (tree.Branch(other.span, other.condition, True),) if other.condition else ()
            found += under(before + own, other.lines)
            before += tuple(replace(branch, holds=False) for branch in own)
        return _Branched(found)


def _one_more(part: tree.ChoiceIs, option: Token, span: Span) -> tree.ChoiceIs:
    spans = (*part.option_spans, span)
    whole = replace(part.span, end=span.end)
    return replace(part, span=whole, options=(*part.options, str(option)), option_spans=spans)


def _head(span: Span) -> Span:
    """The first row of what was written."""
    return replace(span, end=span.start + len(span.text.split("\n", 1)[0].split("#")[0].rstrip()))


def under(branches: tuple[tree.Branch, ...], lines: Iterable[Any]) -> list[Any]:
    """What the rules built of lines, with branches round them."""
    return [_under(branches, line) for line in lines]


def _under(branches: tuple[tree.Branch, ...], line: Any) -> Any:
    if isinstance(line, tree.Line):
        return replace(line, branches=branches + line.branches)
    if isinstance(line, list):  # the legs of a curve through several points
        return under(branches, line)
    if not isinstance(line, tuple):
        return line
    word, value = line
    if isinstance(value, list):  # a section
        return word, under(branches, value)
    return tree.EdgeOption(branches[0].span, word, value, branches=branches)
