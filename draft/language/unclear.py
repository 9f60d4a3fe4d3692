"""Conditions that a reader could take in two ways: `and` mixed with `or`, and `only for` under a `when`."""

from __future__ import annotations

from collections.abc import Iterator

from lark import ParseTree, Tree

from draft.base.notes import Note, Source, Span, error

_BRANCHES = ("when", "otherwise_when", "otherwise_lines")


def unclear(parsed: ParseTree, source: Source) -> Iterator[Note]:
    """A note on every such condition."""
    for node in parsed.iter_subtrees_topdown():  # type: ignore[no-untyped-call]
        if node.data == "condition":
            yield from _mixed(node, source)
        elif node.data in _BRANCHES:
            for child in node.children:
                if isinstance(child, Tree) and child.data == "only_for":
                    fix = "put its style into the `when`"
                    yield error("`only for` stands under `when`, which says the same", _of(child, source), fix)


def _mixed(condition: ParseTree, source: Source) -> Iterator[Note]:
    joined = {str(child.data) for child in condition.children if isinstance(child, Tree)}
    if "and_is" in joined and joined & {"or_is", "or_choice"}:
        fix = "write one `when` inside the other"
        yield error("`and` and `or` stand in one condition, which reads in two ways", _of(condition, source), fix)


def _of(node: ParseTree, source: Source) -> Span:
    return Span(source, node.meta.start_pos, node.meta.end_pos)
