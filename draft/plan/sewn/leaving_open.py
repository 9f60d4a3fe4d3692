"""Where a join is left open: how long, from which place of one of its sides, and on which side of the body."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.notes import error, nearest
from draft.base.units import Kind
from draft.garment.garment import OpeningOf, SidePart
from draft.language import tree
from draft.plan.edges.taking_up import along
from draft.plan.plan import Value, broken
from draft.plan.values import Values
from draft.words.word import one


def openings(values: Values, written: tree.Join, parts: Sequence[SidePart]) -> tuple[OpeningOf[Value], ...]:
    """The openings of a join that sews these parts, with their values planned."""
    return tuple(_opening(values, line, parts) for line in written.openings)


def _opening(values: Values, line: tree.LeftOpen, parts: Sequence[SidePart]) -> OpeningOf[Value]:
    length = values.compile(line.length, None, one(Kind.LENGTH))
    near = values.compile(line.near, None, one(Kind.POINT))
    place = line.near.text
    part = None if near.broken else _part(values, line.near, parts)
    if part is None:
        return OpeningOf(line.span, length, broken(line.near.span), SidePart("", ""), place, line.on_side, line.use)
    off = f"`{place}` does not lie on `{part.piece}.{part.edge}`, which this join sews"
    at = along(f"{part.piece}.{part.edge}", near, off)
    return OpeningOf(line.span, length, at, part, line.near.parts[-1], line.on_side, line.use)


def _part(values: Values, near: tree.Ref, parts: Sequence[SidePart]) -> SidePart | None:
    """The edge that a place lies on: the one that it is an end of, or else the only one of its piece."""
    own = [part for part in parts if part.piece == near.parts[0]]
    ending = [part for part in own if near.parts[-1] in _ends(values, part)]
    if ending or len({part.edge for part in own}) == 1:
        return (ending or own)[0]
    known = [f"{part.piece}.{end}" for part in parts for end in _ends(values, part)]
    fact = f"`{near.text}` is no place on an edge that this join sews"
    hint = nearest(near.text, known) or (f"choose from {', '.join(dict.fromkeys(known))}",)
    values.notes.append(error(fact, near.span, *hint))
    return None


def _ends(values: Values, part: SidePart) -> tuple[str, ...]:
    edge = values.edges.get(f"{part.piece}.{part.edge}")
    return (edge.start.parts[-1], edge.end.parts[-1]) if edge else ()
