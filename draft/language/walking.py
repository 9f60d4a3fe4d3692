"""Going over a tree: every node below another, and the words of the language in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from functools import cache

from draft.garment.garment import Finish
from draft.language.tree import Node


def nodes(top: Node) -> Iterator[Node]:
    """The node itself and all nodes below it, in the order in which their fields are written down.

    A line's branches are left aside, which it shares with its neighbours: a file has each condition once.
    """
    waiting: list[object] = [top]
    while waiting:
        value = waiting.pop()
        if isinstance(value, tuple):
            waiting += reversed(value)
        elif names := _parts(type(value)):  # type: ignore[arg-type]
            if isinstance(value, Node):
                yield value
            waiting += [getattr(value, name) for name in names]


@cache
def _parts(sort: type) -> tuple[str, ...]:
    """The fields of a node or of an edge's options in which nodes may stand, the last first; none of anything else."""
    if not issubclass(sort, Node | Finish):
        return ()
    return tuple(field.name for field in reversed(fields(sort)) if field.name != "branches")
