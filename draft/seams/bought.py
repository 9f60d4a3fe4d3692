"""How much of each notion a garment takes: read off the seams, edges and marks that it is for, for every size."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Notion, Opening, Piece
from draft.garment.marks import places
from draft.seams.joins_in_order import ZIPS
from draft.seams.sides import sewn_length, side

ZIP_LENGTHS = (100, 120, 150, 180, 200, 220, 250, 300, 350, 400, 450, 500, 550, 600, 650, 700, 750, 800)
"""Lengths in mm that zips are sold in (common practice, from memory); a longer one is cut to its opening."""
_BELOW = 20.0  # mm: an invisible zip reaches so far below its opening, or its foot does not come to the opening's end
_TURN_IN = 20.0  # mm at both ends of each length of tape, elastic or the like, to lap or turn in
_SOLD_BY = 100.0  # mm: what is sold by length is cut by the tenth of a metre


@dataclass(frozen=True)
class Bought:
    """What is bought under one name: how many of it, how long each is, mm `(bodies,)`; None where that says nothing.

    `sort` is the sort of a zip, and empty for all else.
    """

    name: str
    words: str = ""
    count: Floats | None = None
    length: Floats | None = None
    sort: str = ""


def bought(garment: Garment) -> list[Bought]:
    """The notions in the order written, behind them zips, elastic and fastenings that none of them is for."""
    named = {use for notion in garment.notions for use in notion.uses}
    found = [line for notion in garment.notions for line in _lines(garment, notion)]
    for join in [join for join in garment.joins if join.name not in named]:
        found += [_zip(garment, join, opening) for opening in join.openings if opening.use in ZIPS]
    return [*found, *_unnamed(garment, named)]


def _lines(garment: Garment, notion: Notion) -> list[Bought]:
    """One line, or one for each zip of a notion that is for seams with openings."""
    joins = [join for join in garment.joins if join.name in notion.uses and not join.caught]
    zips = [(join, opening) for join in joins for opening in join.openings if opening.use in ZIPS]
    if zips:
        return [_zip(garment, join, opening, notion) for join, opening in zips]
    if notion.uses:
        return [_used(garment, notion, joins)]
    if notion.amount is None:
        return [Bought(notion.name, notion.words)]
    if notion.in_mm:
        return [Bought(notion.name, notion.words, length=notion.amount)]
    return [Bought(notion.name, notion.words, count=notion.amount)]


def _zip(garment: Garment, join: Join, opening: Opening, notion: Notion | None = None) -> Bought:
    """A zip as long as its opening at least, of a length that is sold; one for each copy of the seam."""
    needed = opening.length + (_BELOW if opening.use == "invisible zip" else 0.0)
    at = np.searchsorted(ZIP_LENGTHS, needed - 0.5)
    longest = np.ceil(needed / 50.0 - 1e-6) * 50.0
    length = np.where(at < len(ZIP_LENGTHS), np.array(ZIP_LENGTHS)[np.minimum(at, len(ZIP_LENGTHS) - 1)], longest)
    halves = side(garment, join.first).copies // (2 if _meets_itself(join) else 1)
    copies = 1 if opening.on_side else max(1, halves)
    count = np.full(len(length), float(copies))
    return Bought(notion.name if notion else "zip", notion.words if notion else "", count, length, opening.use)


def _used(garment: Garment, notion: Notion, joins: list[Join]) -> Bought:
    """As many as there are marks, or as long as the seams and edges."""
    marked = [mark for p in garment.pieces for mark in p.marks if f"{p.name}.{mark.name}" in notion.uses]
    edges = [(p, edge) for p in garment.pieces for edge in p.edges if _called(p, edge) in notion.uses]
    if marked and not edges and not joins:
        counts = [[len(places(mark, body)) for body in range(len(garment.sizes))] for mark in marked]
        return Bought(notion.name, notion.words, count=np.sum(counts, axis=0).astype(float))
    length = np.zeros(len(garment.sizes))
    for join in joins:
        one, other = side(garment, join.first), side(garment, join.second)
        whole = np.maximum(one.whole, other.whole) / (2 if _meets_itself(join) else 1)
        length = length + whole + _TURN_IN * min(one.copies, other.copies)
    for piece, edge in edges:
        length = length + _along(piece, edge)
    return Bought(notion.name, notion.words, length=_sold(length))


def _meets_itself(join: Join) -> bool:
    """Whether an edge is sewn to that of the other copy of its piece: both copies make one seam, as along a hood."""
    return {(part.piece, part.edge) for part in join.first} == {(part.piece, part.edge) for part in join.second}


def _called(piece: Piece, edge: Edge) -> str:
    return f"{piece.name}.{edge.whole or edge.name}"


def _along(piece: Piece, edge: Edge) -> Floats:
    """An edge on the whole garment, drawn up as it is worn; or its elastic, while nothing stretches that."""
    drawn = sewn_length(piece, edge) if edge.elastic is None else edge.elastic
    return np.asarray(drawn * piece.copies() + _TURN_IN * (piece.copies() // (2 if piece.on_fold else 1)))


def _sold(length: Floats) -> Floats:
    return np.asarray(np.ceil(length / _SOLD_BY - 1e-6) * _SOLD_BY)


def _unnamed(garment: Garment, named: set[str]) -> list[Bought]:
    """Elastic for casings, and buttons and snaps for marks, that the designer names no notion for."""
    drawn = [
        _along(piece, edge)
        for piece in garment.pieces
        for edge in piece.edges
        if _has_elastic(edge) and _called(piece, edge) not in named
    ]
    elastic = [Bought("elastic", length=_sold(np.sum(drawn, axis=0)))] if drawn else []
    return [*elastic, *_fastenings(garment, named)]


def _has_elastic(edge: Edge) -> bool:
    """Whether elastic is sewn onto an edge, or drawn through the casing that its hem is."""
    return edge.elastic is not None or (edge.turned_up and edge.gathered is not None)


def _fastenings(garment: Garment, named: set[str]) -> list[Bought]:
    """As many buttons as there are places for them, or holes where those alone are marked."""
    if any("button" in notion.name for notion in garment.notions):
        return []
    counts: dict[str, int] = {}
    for piece in garment.pieces:
        for mark in piece.marks:
            if mark.fastening and f"{piece.name}.{mark.name}" not in named:
                counts[mark.fastening] = counts.get(mark.fastening, 0) + len(places(mark, 0))
    buttons, snaps = max(counts.get("button", 0), counts.get("buttonhole", 0)), counts.get("snap", 0)
    sizes = len(garment.sizes)
    pairs = (("buttons", buttons), ("snaps", snaps))
    return [Bought(name, count=np.full(sizes, float(count))) for name, count in pairs if count]
