"""What came of outlines, told: for each piece its edges, how many are straight, its curves, and how near it keeps."""

from __future__ import annotations

from draft.base.text_columns import in_columns
from draft.beginning.begun import Begun


def begun_report(begun: Begun) -> str:
    """A line a piece."""
    rows = [("piece", "edges", "straight", "curves", "within", "")]
    for piece in begun.pieces:
        fold = "on fold" if piece.on_fold else ""
        counts = (str(len(piece.edges)), str(piece.straight), str(piece.curves))
        rows.append((piece.name, *counts, f"{piece.off:.2f} mm", fold))
    return in_columns(rows)
