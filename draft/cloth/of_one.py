"""A garment as one of its cloths sees it: the pieces that are cut of that, as often, with the allowances for it."""

from __future__ import annotations

from dataclasses import replace

from draft.garment.garment import Cloth, CutAs, Garment, Piece


def of_each_cloth(garment: Garment) -> dict[str, Garment]:
    """The garment for each of its cloths by its name; as it is, under no name, where it has one without."""
    return {cloth.name: _of_cloth(garment, cloth) for cloth in garment.cloths} or {"": garment}


def _of_cloth(garment: Garment, cloth: Cloth) -> Garment:
    pieces = tuple(_piece(piece, cloth.name) for piece in garment.pieces)
    return replace(garment, pieces=pieces, cloths=(cloth,), cloth=cloth.known)


def _piece(piece: Piece, cloth: str) -> Piece:
    """The piece as often as it is cut of a cloth: both sides of it, if it has two of the same cloth."""
    cuts = [cut for cut in piece.cuts if cut.cloth == cloth]
    said = {cut.cut_as for cut in cuts}
    cut_as: CutAs = said.pop() if len(said) == 1 else ""
    found = replace(piece, cut=sum(cut.count for cut in cuts), cut_as=cut_as, cuts=())
    own = next((cut.allowance for cut in cuts if cut.allowance is not None), None)
    return found if own is None else _with_allowance(found, own)


def _with_allowance(piece: Piece, allowance: float) -> Piece:
    """A piece with one allowance all round, in mm."""
    edges = (edge if edge.on_fold else replace(edge, allowance=allowance) for edge in piece.edges)
    return replace(piece, edges=tuple(edges))
