"""Words that measure from an end: the point named must be one, or the distance would be taken from the wrong place."""

from __future__ import annotations

from collections.abc import Mapping

from draft.base.notes import Note, error
from draft.language import tree
from draft.plan.names import Names


def check(names: Names, edges: Mapping[str, tree.Edge], call: tree.Call, piece: str | None) -> Note | None:
    """A note where a place on a line or an edge is measured from a point that is no end of it."""
    along, _, near = call.args
    if not isinstance(near, tree.Ref):
        return None
    if isinstance(along, tree.Call):
        ends = [(ref, names.meant(ref, piece)) for ref in along.args if isinstance(ref, tree.Ref)]
        what = "line"
    else:
        ends, what = _ends_of(names, edges, along, piece), "edge"
    here = names.meant(near, piece)
    if not ends or here is None or here in [full for _, full in ends]:
        return None
    own = f"{piece}."
    choice = " or ".join(f"`{(full or ref.text).removeprefix(own)}`" for ref, full in ends)
    return error(f"`{near.text}` is not an end of this {what}", near.span, f"measure from {choice}")


def _ends_of(
    names: Names, edges: Mapping[str, tree.Edge], along: tree.Expr, piece: str | None
) -> list[tuple[tree.Ref, str | None]]:
    full = names.meant(along, piece) if isinstance(along, tree.Ref) else None
    edge = edges.get(full or "")
    if not full or not edge:
        return []
    return [(ref, names.meant(ref, full.split(".")[0])) for ref in (edge.start, edge.end)]
