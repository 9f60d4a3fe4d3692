"""Every edge is sewn, hemmed or on a fold, or is said to stay open: a forgotten seam is found here."""

from __future__ import annotations

from draft.base.notes import Note, caution
from draft.garment.garment import Garment, Piece


def check(garment: Garment) -> list[Note]:
    """A caution for each piece with edges that are in no join and not finished otherwise.

    A piece alone, without any join, is still being drafted.
    """
    if not garment.joins and len(garment.pieces) < 2:
        return []
    joined = {(part.piece, part.edge) for join in garment.joins for part in (*join.first, *join.second)}
    stitched_on = {patch.piece for patch in garment.patches}
    return [note for piece in garment.pieces if piece.name not in stitched_on for note in _piece(piece, joined)]


def _piece(piece: Piece, joined: set[tuple[str, str]]) -> list[Note]:
    loose = [
        edge
        for edge in piece.edges
        if (piece.name, edge.name) not in joined
        and not (edge.on_fold or edge.unjoined or edge.turned_up or edge.allowance == 0)
    ]
    if not loose:
        return []
    names = " and ".join(f"`{piece.name}.{edge.name}`" for edge in loose)
    fact = f"{names} {'is' if len(loose) == 1 else 'are'} in no seam"
    fix = "add the seam under `join`; or write `turned up` behind a hem, `unjoined` behind one that stays open"
    return [caution(fact, loose[0].span, fix)]
