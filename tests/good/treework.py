"""The same pattern written otherwise: its lines in another order, or every length in it longer."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from draft.base.units import Kind
from draft.garment.garment import Finish
from draft.language import tree
from draft.plan.library import Texts

Node = TypeVar("Node")

FILE = ("measures", "styles", "values", "solves", "templates", "pieces", "joins", "finished", "checks", "properties")
BODY = ("inputs", "given", "values", "points", "edges", "settings", "takeups", "notches", "marks", "corners")
"""What stands in any order. Unknowns do not: they give way in the order in which they are written."""


def mapped(node: Node, change: Callable[[Any], Any]) -> Node:
    """The tree with `change` made at every node, from the leaves up."""
    if isinstance(node, tuple):
        return tuple(mapped(child, change) for child in node)  # type: ignore[return-value]
    if isinstance(node, Finish):
        return replace(node, **{f.name: mapped(getattr(node, f.name), change) for f in fields(node)})
    if is_dataclass(node) and isinstance(node, tree.Node):
        inner = {f.name: mapped(getattr(node, f.name), change) for f in fields(node) if "span" not in f.name}
        return change(replace(node, **inner))  # type: ignore[no-any-return]
    return node


def _in_all(texts: Texts, change: Callable[[Any], Any]) -> Texts:
    return replace(
        texts,
        main=mapped(texts.main, change),
        used=tuple(mapped(file, change) for file in texts.used),
        base=_in_all(texts.base, change) if texts.base else None,
        taken=tuple(replace(taken, texts=_in_all(taken.texts, change)) for taken in texts.taken),
    )


def shuffled(texts: Texts, seed: int) -> Texts:
    """The pattern with its blocks and lines in another order."""
    order = random.Random(seed)

    def change(node: Any) -> Any:
        names = FILE if isinstance(node, tree.File) else BODY if isinstance(node, tree.Contents) else ()
        lines = {name: list(getattr(node, name)) for name in names if hasattr(node, name)}
        for mixed in lines.values():
            order.shuffle(mixed)
        if isinstance(node, tree.Solve):
            lines = {"relations": order.sample(node.relations, len(node.relations))}
        return replace(node, **{name: tuple(mixed) for name, mixed in lines.items()}) if lines else node

    return _in_all(texts, change)


def lengthened(texts: Texts, factor: float) -> Texts:
    """The pattern with every length that is written in it so many times as long."""

    def change(node: Any) -> Any:
        fixed = isinstance(node, tree.Literal) and node.kind is Kind.LENGTH
        return replace(node, value=node.value * factor) if fixed else node

    return _in_all(texts, change)
