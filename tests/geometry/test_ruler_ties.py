"""Where two chords meet one answer holds, also where a machine rounds otherwise: it decides which way words lie."""

from __future__ import annotations

import numpy as np

from draft.geometry.ruler import Ruler

ARC = np.array(
    [
        [(0.0, 0.0), (30.0, 40.0), (70.0, 40.0), (100.0, 0.0)],
        [(100.0, 0.0), (130.0, -40.0), (170.0, -40.0), (200.0, 0.0)],
    ]
)


def test_a_hair_decides_nothing_at_any_end_of_a_chord() -> None:
    ruler = Ruler(ARC)
    ends = ruler._ends[1:-1]
    _, there = ruler.places(ends)
    for hair in (-1e-9, 1e-9):
        _, beside = ruler.places(ends + hair)
        assert np.array_equal(there, beside)
