"""A notch of a join that is said to be at a point or a line, where it is set so far along the first side."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.notes import Note, error
from draft.base.units import Kind
from draft.language import tree
from draft.plan.plan import is_broken
from draft.plan.values import Values


def no_distance(values: Values, side: Sequence[tree.SidePart], at: tree.Ref) -> Note | None:
    """A note on a name that is a point, an edge or a line; its fix says how far along that lies."""
    place = _own(values, side, at)
    full = values.names.meant(place, None)
    if full is None or _is_amount(values, place, full):
        return None
    is_line = full in values.edges
    fact = f"`{at.text}` is a {'line' if is_line else 'point'}, but a notch is set so far along the first side"
    return error(fact, at.span, *_fixes(values, side, full, is_line))


def _own(values: Values, side: Sequence[tree.SidePart], at: tree.Ref) -> tree.Ref:
    """A name that stands alone as that of the piece of the first side, where it has no other meaning."""
    if len(at.parts) > 1 or values.names.meant(at, None) or not side:
        return at
    return tree.Ref(at.span, (side[0].edge.parts[0], at.text))


def _is_amount(values: Values, at: tree.Ref, full: str) -> bool:
    """Whether a name is no place; of another kind, or broken, it is told of as any value is."""
    if full in values.edges:
        return False
    before = len(values.notes)
    value = values.compile(at, None)
    del values.notes[before:]
    return is_broken(value) or value.kind is not Kind.POINT


def _fixes(values: Values, side: Sequence[tree.SidePart], full: str, is_line: bool) -> list[str]:
    first, (piece, name) = side[0], full.split(".")
    edge = values.edges.get(first.edge.text)
    if edge is None or len(side) > 1 or first.ends or piece != first.edge.parts[0]:
        return ["say how far along that is, as in `notch at 40 %` or `notch at 12 cm`"]
    passed = {leg.to.text for leg in edge.legs if leg.to}
    line = values.edges.get(full) if is_line else None
    ends = [line.start.text, line.end.text] if line else [name]
    start = f"{piece}.{(edge.end if first.reverse else edge.start).text}"
    found = [f"length of part of {first.edge.text} from {start} to {piece}.{end}" for end in ends if end in passed]
    if found:
        return [f"try `{found[0]}`"]
    instead = f"`notch at length of part of {first.edge.text} from {start} to"
    return [
        f"if it lies on that edge, write {instead} {piece}.{name}`"
        if not line
        else f"name a point on both: {instead} POINT`"
    ]
