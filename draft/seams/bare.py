"""Whether a pattern comes without seam allowances, so that its line is sewn on and not cut."""

from __future__ import annotations

from draft.garment.garment import Garment


def is_bare(garment: Garment) -> bool:
    """Whether no seam of any piece has an allowance; hems have their own, and folds none."""
    edges = [edge for piece in garment.pieces for edge in piece.edges if not (edge.on_fold or edge.turned_up)]
    return bool(edges) and not any(edge.allowance for edge in edges)
