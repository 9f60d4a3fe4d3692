"""What a finished measurement comes to once its elastic is stretched until the cloth lies flat."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

from draft.language import tree
from draft.language.walking import nodes
from draft.plan.values import Values


def laid_flat(measured: tree.Expr, values: Values) -> tree.Expr | None:
    """The measurement with every elastic in it stretched; None where there is none in it."""
    sewn = [node for node in nodes(measured) if isinstance(node, tree.SewnLength)]
    if not any(_is_elastic(node, values) for node in sewn):
        return None
    return _flat(measured)  # type: ignore[no-any-return]


def _is_elastic(sewn: tree.SewnLength, values: Values) -> bool:
    edge = values.edges.get(values.names.find(sewn.edge, None) or "")
    return edge is not None and edge.finish.elastic is not None


def _flat(part: Any) -> Any:
    """A part of a value with each sewn length as it is while the cloth lies flat."""
    if isinstance(part, tuple):
        return tuple(_flat(one) for one in part)
    if not isinstance(part, tree.Node):
        return part
    changed = {field.name: _flat(getattr(part, field.name)) for field in fields(part) if field.name != "span"}
    return replace(part, **changed | ({"flat": True} if isinstance(part, tree.SewnLength) else {}))
