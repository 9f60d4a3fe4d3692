"""Edges parted where seams begin or end within them: from then on every seam has whole edges.

A part is called as it is said, `side from hip to hem`. Darts, notches and openings of the edge go to the part that they
lie on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import CornerKind, Edge, Garment, Join, Notch, Opening, Parting, Piece, SidePart, Takeup
from draft.geometry.length import length
from draft.geometry.part import part_along
from draft.seams.redrawing import Redrawing, Turned

_Names = tuple[str, ...]


@dataclass(frozen=True)
class _Parts:
    """The parts of one edge in their order, with the names of the places at their ends and how far along each is."""

    edges: tuple[Edge, ...]
    names: _Names
    at: tuple[Floats, ...]

    def at_place(self, place: Floats) -> int:
        """The number of the part on which a place lies for most bodies, mm along the whole edge `(B,)`."""
        return int(np.sum([np.nanmean(place) >= np.mean(at) for at in self.at[1:-1]]))

    def between(self, part: SidePart) -> tuple[SidePart, ...]:
        """The parts that a side has of the edge, in the order that it runs along them."""
        first, last = (self.names.index(end) for end in part.ends or (self.names[0], self.names[-1]))
        turned = part.reverse or first > last
        found = self.edges[min(first, last) : max(first, last)]
        parts = [replace(part, edge=edge.name, reverse=turned, ends=None) for edge in found]
        return tuple(reversed(parts) if turned else parts)


_Parted = dict[tuple[str, str], _Parts]


def with_edges_parted(garment: Garment) -> Garment:
    """The garment with these edges parted."""
    parted = {
        (piece.name, edge.name): _parts(edge, [one for one in piece.partings if one.edge == edge.name])
        for piece in garment.pieces
        for edge in piece.edges
        if any(one.edge == edge.name for one in piece.partings)
    }
    if not parted:
        return garment
    pieces = tuple(_piece(piece, parted) if piece.partings else piece for piece in garment.pieces)
    return replace(garment, pieces=pieces, joins=tuple(_join(join, parted) for join in garment.joins))


def of_whole(garment: Garment, change: Redrawing) -> Redrawing:
    """What is redrawn of a part of an edge, as it is done to the whole one: their ends are the same there."""
    piece, name = change.edge.split(".")
    edge = garment.piece(piece).edge(name)
    if not edge.whole:
        return change
    whole = f"{piece}.{edge.whole}"
    if not isinstance(change, Turned):
        return replace(change, edge=whole)
    return replace(change, edge=whole, over=np.minimum(change.over, length(edge.segments) / 2))


def _parts(edge: Edge, partings: Sequence[Parting]) -> _Parts:
    places = {one.name: one.at for one in sorted(partings, key=lambda one: float(np.mean(one.at)))}
    whole = length(edge.segments)
    names = (edge.ends[0], *places, edge.ends[1])
    at = tuple(np.maximum.accumulate([0.0 * whole, *places.values(), whole], axis=0))
    edges = tuple(_part(edge, names[k : k + 2], at[k], at[k + 1]) for k in range(len(names) - 1))
    corners: list[CornerKind] = ["carried" for _ in edges]
    corners[-1] = edge.end_corner
    cornered = tuple(replace(one, end_corner=corner) for one, corner in zip(edges, corners, strict=True))
    return _Parts(cornered, names, at)


def _part(edge: Edge, names: _Names, start: Floats, end: Floats) -> Edge:
    drawn = part_along(edge.segments, start, end)
    there = np.ptp(drawn, axis=2).max(axis=(0, 2)) > 0  # segments beside the part have no length
    share = (end - start) / np.maximum(length(edge.segments), 1e-9)
    return replace(
        edge,
        name=f"{edge.name} from {names[0]} to {names[1]}",
        segments=drawn[:, there] if there.any() else drawn[:, :1],
        ends=(names[0], names[1]),
        elastic=None if edge.elastic is None else edge.elastic * share,
        whole=edge.name,
    )


def _piece(piece: Piece, parted: _Parted) -> Piece:
    own = {edge: parts for (name, edge), parts in parted.items() if name == piece.name}
    edges = tuple(one for edge in piece.edges for one in (own[edge.name].edges if edge.name in own else (edge,)))
    takeups = tuple(_on_part(one, own[one.edge]) if one.edge in own else one for one in piece.takeups)
    notches = [_on_parts(one, own[one.edge]) if one.edge in own else [one] for one in piece.notches]
    found = [
        *(one for some in notches for one in some),
        *(one for parts in own.values() for one in _at_places(piece, parts)),
    ]
    return replace(piece, edges=edges, takeups=takeups, notches=tuple(found), partings=())


def _at_places(piece: Piece, parts: _Parts) -> list[Notch]:
    """Notches where a seam begins or ends within an edge, so that it is found there."""
    spans = {one.name: one.span for one in piece.partings}
    inner = zip(parts.edges[1:], parts.names[1:-1], strict=True)
    return [Notch(spans[name], edge.name, np.zeros(len(edge.segments))) for edge, name in inner]


def _on_part(takeup: Takeup, parts: _Parts) -> Takeup:
    number = parts.at_place(takeup.at)
    return replace(takeup, edge=parts.edges[number].name, at=takeup.at - parts.at[number])


def _on_parts(notch: Notch, parts: _Parts) -> list[Notch]:
    """A notch on each part on which it lies for any body."""
    found = []
    for edge, start, end in zip(parts.edges, parts.at[:-1], parts.at[1:], strict=True):
        here = (notch.at >= start) & (notch.at < end)
        if here.any():
            found.append(replace(notch, edge=edge.name, at=np.where(here, notch.at - start, np.nan)))
    return found


def _join(join: Join, parted: _Parted) -> Join:
    first, second = _side(join.first, parted), _side(join.second, parted)
    return replace(
        join,
        first=first,
        second=second,
        openings=tuple(_opening(one, parted, (*first, *second)) for one in join.openings),
    )


def _side(parts: Sequence[SidePart], parted: _Parted) -> tuple[SidePart, ...]:
    found = [parted[key].between(part) if (key := (part.piece, part.edge)) in parted else (part,) for part in parts]
    return tuple(one for some in found for one in some)


def _opening(opening: Opening, parted: _Parted, sewn: Sequence[SidePart]) -> Opening:
    """An opening on the part of an edge on which it begins: of two that meet there, the one that is sewn."""
    parts = parted.get((opening.part.piece, opening.part.edge))
    if parts is None:
        return opening
    names = {part.edge: part for part in sewn if part.piece == opening.part.piece}
    number = parts.at_place(opening.at)
    number -= number > 0 and parts.edges[number].name not in names
    part = names.get(parts.edges[number].name, opening.part)
    return replace(opening, part=part, at=opening.at - parts.at[number])
