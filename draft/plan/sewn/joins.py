"""Joins: both sides found among the pieces, and the marks asked for along them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from draft.base.notes import Note, error, nearest
from draft.base.units import Kind
from draft.garment.garment import JoinNotchOf, JoinOf, Layer, PieceOf, SidePart
from draft.language import tree
from draft.plan.edges.true_over import trued_over
from draft.plan.plan import Value, broken, constant
from draft.plan.sewn.leaving_open import openings
from draft.plan.sewn.notched_at import no_distance
from draft.plan.values import Values
from draft.words.word import Kinds, one

_ALONG: Kinds = frozenset({Kind.LENGTH, Kind.NUMBER})
_QUARTERS = (0.25, 0.5, 0.75)


def joins(
    values: Values, written: Sequence[tree.Join], pieces: Sequence[PieceOf[Value, Value]]
) -> tuple[JoinOf[Value], ...]:
    """All joins: those that stitch down on a seam with what lies there, and one more for what another catches."""
    layers = {piece.name: piece.layers for piece in pieces}
    seams = {line.name: _join(values, line, layers) for line in written if not line.onto}
    found: list[JoinOf[Value]] = []
    for line in written:
        found.append(_stitched_down(values, line, seams, layers) if line.onto else seams[line.name])
        if line.caught:
            caught = tuple(_part(values, part, layers) for part in line.caught)
            found.append(replace(seams[line.name], second=caught, ratio=None, fit="even", openings=(), caught=True))
    return tuple(found)


_Layers = Mapping[str, Sequence[Layer]]


def _stitched_down(
    values: Values, written: tree.Join, seams: Mapping[str, JoinOf[Value]], layers: _Layers
) -> JoinOf[Value]:
    assert written.onto
    planned = _join(values, written, layers)
    seam = seams.get(written.onto.text)
    if seam is None:
        values.notes.append(_no_seam(written.onto, planned, seams))
        return planned
    return replace(planned, second=_lying_there(planned.first, seam), onto=seam.name)


def _no_seam(onto: tree.Ref, planned: JoinOf[Value], seams: Mapping[str, JoinOf[Value]]) -> Note:
    """A note on what an edge is to be stitched down on that is no join: an edge that one sews, or a line for pieces."""
    fact = f"no seam is called `{onto.text}`, on which an edge could be stitched down"
    there = [
        name
        for name, seam in seams.items()
        for part in (*seam.first, *seam.second)
        if (part.piece, part.edge) == onto.parts
    ]
    hint = nearest(onto.text, seams) or ((f"choose from {', '.join(seams)}",) if seams else ())
    if len(onto.parts) == 2:
        hint = (
            f"an edge is stitched down, and a whole piece stitched on: try `{planned.first[0].piece} onto {onto.text}`",
        )
    return error(fact, onto.span, *((f"try `{there[0]}`",) if there else hint))


def _lying_there(first: tuple[SidePart, ...], seam: JoinOf[Value]) -> tuple[SidePart, ...]:
    """The side of a seam on which edges come to lie: that of the same piece, run the same way, or else the second."""
    edges = {(part.piece, part.edge) for part in first}
    for side in (seam.first, seam.second):
        if {(part.piece, part.edge) for part in side} == edges:
            layer = side[0].layer
            return tuple(replace(part, layer=layer) for part in first)
    return seam.second


def _join(values: Values, written: tree.Join, layers: _Layers) -> JoinOf[Value]:
    """A join with its values planned."""
    first = tuple(_part(values, part, layers) for part in written.first)
    second = tuple(_part(values, part, layers) for part in written.second)
    ratio = values.compile_any(written.ratio, None, one(Kind.NUMBER))
    found = [_notch(values, written, notch) for notch in sorted(written.notches, key=lambda notch: notch.double)]
    quarters = [
        JoinNotchOf(constant(written.span, Kind.NUMBER, share), of_whole=True)
        for share in _QUARTERS
        if written.quarters
    ]
    notches = (*(n for n in found if not n.double), *quarters, *(n for n in found if n.double))
    over = trued_over(values, None, written)
    left_open = openings(values, written, (*first, *second))
    return JoinOf(written.span, written.name, first, second, ratio, notches, written.fit, over, left_open)


def _notch(values: Values, join: tree.Join, written: tree.JoinNotch) -> JoinNotchOf[Value]:
    if isinstance(written.at, tree.Ref) and (note := no_distance(values, join.first, written.at)):
        values.notes.append(note)
        return JoinNotchOf(broken(written.at.span), False, written.double, matched=written.matched, words=written.words)
    at = values.compile(written.at, None, _ALONG)
    return JoinNotchOf(at, at.kind is Kind.LENGTH, written.double, matched=written.matched, words=written.words)


def _part(values: Values, part: tree.SidePart, layers: _Layers) -> SidePart:
    if len(part.edge.parts) != 2:
        owners = values.names.owners(part.edge.text) or ["front"]
        fact = f"`{part.edge.text}` does not say of which piece"
        values.notes.append(error(fact, part.edge.span, f"try `{owners[0]}.{part.edge.text}`"))
        return SidePart("", part.edge.text, part.reverse)
    values.compile(part.edge, None, one(Kind.EDGE))
    piece, edge = part.edge.parts
    if part.layer and piece in layers and part.layer not in layers[piece]:
        of = f" of {cloth}" if (cloth := next(iter(values.cloths.written), "")) else ""
        fact = f"`{piece}` has no {part.layer}: it is not cut as two sides"
        fix = f"cut it so: `cut 1{of} as outside, 1{of} as inside`"
        values.notes.append(error(fact, part.span, fix))
    ends = (part.ends[0].parts[-1], part.ends[1].parts[-1]) if part.ends else None
    return SidePart(piece, edge, part.reverse, part.layer, ends)
