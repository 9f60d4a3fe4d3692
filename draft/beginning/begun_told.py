"""What came of outlines, told: for each piece its edges, how many are straight, its curves, and how near it keeps."""

from __future__ import annotations

from draft.base.as_data import Data, mm
from draft.base.text_columns import in_columns
from draft.beginning.begun import Begun


def begun_data(begun: Begun) -> Data:
    """The same as data."""
    return {
        "pieces": [
            {
                "piece": one.name,
                "edges": list(one.edges),
                "straight_edges": one.straight,
                "curves": one.curves,
                "within_mm": mm(one.off),
                "on_fold": one.on_fold,
            }
            for one in begun.pieces
        ]
    }


def begun_report(begun: Begun) -> str:
    """A line a piece."""
    rows = [("piece", "edges", "straight", "curves", "within", "")]
    for piece in begun.pieces:
        fold = "on fold" if piece.on_fold else ""
        counts = (str(len(piece.edges)), str(piece.straight), str(piece.curves))
        rows.append((piece.name, *counts, f"{piece.off:.2f} mm", fold))
    return in_columns(rows)
