"""Going over a tree: every node below another, and the words of the language in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from draft.garment.garment import Finish
from draft.language.tree import Node


def nodes(top: Node) -> Iterator[Node]:
    """The node itself and all nodes below it, in the order in which their fields are written down.

    A line's branches are left aside, which it shares with its neighbours: a file has each condition once.
    """
    yield top
    for field in fields(top):
        if field.name != "branches":
            yield from _within(getattr(top, field.name))


def _within(value: object) -> Iterator[Node]:
    if isinstance(value, Node):
        yield from nodes(value)
    elif isinstance(value, Finish):
        for field in fields(value):
            yield from _within(getattr(value, field.name))
    elif isinstance(value, tuple):
        for part in value:
            yield from _within(part)
