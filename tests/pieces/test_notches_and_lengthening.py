"""A notch stands clear of the lines between which a piece is lengthened: cut apart there, it would be lost."""

from __future__ import annotations

import numpy as np
import pytest

from draft.garment.garment import Garment, Mark, Notch, Piece
from draft.geometry.ruler import Ruler
from tests.asking import bundled

PATTERNS = ("netloft", "ropewalk", "tidemill", "breakwater", "boatyard", "slipway", "roundhouse")
"""Not those whose notches are at a share of a seam that the choices of sleeve and hem change by half its length."""
CLEAR = 20.0  # mm (common practice: a lengthened piece is redrawn for a hand's breadth, and a notch beside it stays)


def _apart(notch: Notch, mark: Mark, piece: Piece, body: int) -> float:
    """How far a notch lies from a line square to the grain through a lengthening mark, mm."""
    at = float(notch.at[body])
    if not np.isfinite(at):
        return np.inf
    point, _ = Ruler(piece.edge(notch.edge).segments[body]).place(at)
    return abs(float((point - mark.points[body][0]) @ piece.grain[body]))


def _near(garment: Garment) -> list[str]:
    return [
        f"{piece.name}.{notch.edge} {garment.sizes[body]}"
        for piece in garment.pieces
        for mark in piece.marks
        for notch in piece.notches
        for body in range(len(garment.sizes))
        if mark.line == "lengthen" and _apart(notch, mark, piece, body) < CLEAR
    ]


@pytest.mark.parametrize("pattern", PATTERNS)
def test_no_notch_lies_where_a_piece_is_lengthened(pattern: str) -> None:
    assert _near(bundled(pattern).garment) == []
