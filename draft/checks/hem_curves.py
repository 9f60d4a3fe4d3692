"""A hem that is turned up along a curve: its raw edge is longer or shorter than the line that it is sewn to."""

from __future__ import annotations

import numpy as np

from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import Parts, mm, of_sizes
from draft.base.worst import worst_of
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.fairness import fairness

MOST = 0.2  # of its length: what can be eased in or stretched out by pressing, in a willing cloth (common practice)


def check(garment: Garment) -> list[Note]:
    """A caution for each hem that is too wide for its curve to lie flat."""
    return [
        note
        for piece in garment.pieces
        for edge in piece.edges
        if edge.turned_up and edge.allowance > 0
        for note in _hem(garment, piece, edge)
    ]


def _hem(garment: Garment, piece: Piece, edge: Edge) -> list[Note]:
    radius = fairness(edge.segments).radius
    share = edge.allowance / radius
    if not np.any(share > MOST):
        return []
    worst = worst_of(share)
    fact = f"`{piece.name}.{edge.name}` is too curved to be turned up so far, for {listed(garment.sizes, share > MOST)}"
    figures = f"at worst {edge.allowance:.0f} mm on a radius of {radius[worst]:.0f} mm ({garment.sizes[worst]})"
    fix = f"give it an `allowance` of at most {max(radius[worst] * MOST, 5.0):.0f} mm, or face it"
    names: Parts = {"piece": piece.name, "edge": edge.name, "most": mm(max(radius[worst] * MOST, 5.0))}
    plainly = of_sizes("hem_too_curved", garment.sizes, share > MOST, "turn_up_less", **names)
    return [caution(fact, edge.span, figures, fix, off=np.where(share > MOST, share, 0.0), plainly=plainly)]
