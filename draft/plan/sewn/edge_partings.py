"""Where seams begin and end within an edge: there it is parted, so that a seam has whole edges and nothing else."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, error, nearest
from draft.base.units import Kind
from draft.garment.garment import PartingOf, PieceOf
from draft.geometry.cubic import norm
from draft.language import tree
from draft.plan.edges.taking_up import along
from draft.plan.plan import Trace, Value, is_broken, needs_of
from draft.plan.values import Values
from draft.words.word import one

APART = 1.0  # mm: nearer to one another, two places have nothing between them that could be sewn

Pieces = list[PieceOf[Value, Value]]


def with_partings(values: Values, joins: Sequence[tree.Join], pieces: Pieces) -> Pieces:
    """The pieces, with the places at which these joins part their edges."""
    found: dict[str, list[PartingOf[Value]]] = {}
    for part in _parts(joins):
        for parting in _partings(values, part):
            found.setdefault(part.edge.parts[0], []).append(parting)
    return [replace(piece, partings=tuple(found[piece.name])) if piece.name in found else piece for piece in pieces]


def _parts(joins: Sequence[tree.Join]) -> Iterator[tree.SidePart]:
    for join in joins:
        yield from (part for part in (*join.first, *join.second, *join.caught) if part.ends)


def _partings(values: Values, part: tree.SidePart) -> list[PartingOf[Value]]:
    """The places of one part of an edge that are no ends of that; none where it has mistakes."""
    edge = values.edges.get(part.edge.text)
    assert part.ends
    if edge is None or len(part.edge.parts) != 2 or not _are_its_own(values, part):
        return []
    whole = edge.start.parts[-1], edge.end.parts[-1]
    names = part.ends[0].parts[-1], part.ends[1].parts[-1]
    if names[0] == names[1] or set(names) == set(whole):
        values.notes.append(_no_part(part, whole))
        return []
    places = tuple(values.compile(end, None, one(Kind.POINT)) for end in part.ends)
    if is_broken(places):
        return []
    name = part.edge.text
    off = [f"`{end.text}` does not lie on `{name}`, of which a part is sewn" for end in part.ends]
    at = [along(name, place, said) for place, said in zip(places, off, strict=True)]
    inner = [number for number in (0, 1) if names[number] not in whole]
    at[inner[0]] = _told(part, places, tuple(at), inner[0])
    return [PartingOf(part.ends[number].span, part.edge.parts[-1], names[number], at[number]) for number in inner]


def _are_its_own(values: Values, part: tree.SidePart) -> bool:
    """Whether both places are points of the edge's own piece; a note on one that is not."""
    assert part.ends
    piece = part.edge.parts[0]
    for end in part.ends:
        if end.parts[:-1] != (piece,):
            other = f"is no place on `{part.edge.text}`: that is of another piece"
            fact = f"`{end.text}` {other if end.parts[1:] else 'does not say of which piece'}"
            values.notes.append(error(fact, end.span, *nearest(f"{piece}.{end.parts[-1]}", _points(values, piece))))
            return False
    return True


def _points(values: Values, piece: str) -> list[str]:
    return [name for name in values.names.entries if name.startswith(f"{piece}.")]


def _no_part(part: tree.SidePart, whole: tuple[str, str]) -> Note:
    """A note on what is nothing of an edge, or all of it."""
    assert part.ends
    first, last = (end.parts[-1] for end in part.ends)
    if first == last:
        return error(f"from `{first}` to itself there is nothing of `{part.edge.text}`", part.ends[1].span)
    fact = f"from `{first}` to `{last}` that is all of `{part.edge.text}`"
    return error(fact, part.span, f"try `{part.edge.text}{'' if (first, last) == whole else ' reversed'}`")


def _told(part: tree.SidePart, places: Sequence[Value], at: Sequence[Value], number: int) -> Value:
    """How far along its edge the first or second place of a part lies.

    It fails for a body that has nothing between the two, or has them the other way round than most.
    """
    assert part.ends
    first, last = (f"`{end.text}`" for end in part.ends)
    empty = f"nothing of `{part.edge.text}` lies between {first} and {last}"
    turned = f"{first} and {last} lie the other way round on `{part.edge.text}` than in most sizes"

    def run(trace: Trace) -> Floats:
        apart = at[1].run(trace) - at[0].run(trace)
        one = norm(places[1].run(trace) - places[0].run(trace)) < APART
        trace.fail(part.span, empty, one)
        trace.fail(part.span, turned, (apart * np.median(apart) < 0) & ~one)
        return at[number].run(trace)

    return replace(at[number], needs=needs_of(*at), run=run)
