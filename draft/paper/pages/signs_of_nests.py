"""The signs that only a nest has: those in whose stead the usual ones would lie over one another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from draft.garment.garment import Garment
from draft.paper.piece.piece_lines import outlines_of
from draft.paper.piece.sliding_fastenings import slide
from draft.paper.piece.takeups import crossing


def signs_of_nest(garment: Garment, bodies: Sequence[int]) -> Iterator[str]:
    """The names of the signs: buttons on one line, pleats by their notches."""
    sizes = [(garment.sizes[body], body) for body in bodies]
    for piece in garment.pieces:
        if any(slide(mark, piece, bodies) for mark in piece.marks):
            yield "sliding"
        pleats = {takeup.name for takeup in piece.takeups if takeup.to is None}
        if pleats and pleats & crossing(outlines_of(piece, sizes)):
            yield "pleats"
