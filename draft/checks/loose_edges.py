"""Every edge is sewn, hemmed or on a fold, or is said to stay open: a forgotten seam is found here."""

from __future__ import annotations

from draft.base.notes import Note, caution
from draft.garment.garment import Edge, Garment, Layer, Piece


def check(garment: Garment) -> list[Note]:
    """A caution for each piece with edges that are in no join and not finished otherwise.

    A piece alone, without any join, is still being drafted.
    """
    if not garment.joins and len(garment.pieces) < 2:
        return []
    joined = {(part.piece, part.edge, part.layer) for join in garment.joins for part in (*join.first, *join.second)}
    stitched_on = {patch.piece for patch in garment.patches}
    return [note for piece in garment.pieces if piece.name not in stitched_on for note in _piece(piece, joined)]


def _piece(piece: Piece, joined: set[tuple[str, str, Layer]]) -> list[Note]:
    loose = [
        (edge, layer)
        for edge in piece.edges
        for layer in _without_seam(piece, edge, joined)
        if not (edge.on_fold or edge.unjoined or edge.turned_up or edge.allowance == 0)
    ]
    if not loose:
        return []
    names = " and ".join(f"`{layer}{' ' if layer else ''}{piece.name}.{edge.name}`" for edge, layer in loose)
    fact = f"{names} {'is' if len(loose) == 1 else 'are'} in no seam"
    fix = "add the seam under `join`; or write `turned up` behind a hem, `unjoined` behind one that stays open"
    cut = next((edge.cut_along for edge, _ in loose if edge.cut_along), "")
    again = (
        [f"`{cut.partition('.')[2]}  along {cut}` under `join` sews together again what was cut there"] if cut else []
    )
    return [caution(fact, loose[0][0].span, *again, fix)]


def _without_seam(piece: Piece, edge: Edge, joined: set[tuple[str, str, Layer]]) -> list[Layer]:
    """The sides of a piece of which an edge is in no seam; all of them as one where none of them is."""
    if (piece.name, edge.name, "") in joined:
        return []
    layers: tuple[Layer, ...] = piece.layers
    loose = [layer for layer in layers if (piece.name, edge.name, layer) not in joined]
    return loose if 0 < len(loose) < len(layers) else [""] if len(loose) == len(layers) else []
