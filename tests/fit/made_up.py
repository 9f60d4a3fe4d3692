"""Garments of nothing but measurements, to ask one question of at a time."""

from __future__ import annotations

import numpy as np

from draft.base.notes import Source, Span
from draft.garment.garment import Edge, Finished, Garment, Join, Piece, SidePart
from draft.geometry.cubic import line

SPAN = Span(Source("made-up.piece", "band"), 0, 4)


def measured(
    name: str,
    values: list[float],
    over: list[float] | None = None,
    passing: list[float] | None = None,
    across: float = 1.0,
) -> Finished:
    """A girth in mm, worn over a body and passing another."""
    worn = (f"{name} girth", np.array(over, dtype=float)) if over else None
    passed = (("head", np.array(passing, dtype=float)),) if passing else ()
    return Finished(name, True, np.array(values, dtype=float), "", SPAN, worn, passed, np.full(len(values), across))


def garment(
    *readings: Finished, cloth: dict[str, float] | None = None, names: tuple[str, ...] | None = None
) -> Garment:
    """A garment with these measurements and no pieces."""
    count = len(readings[0].values) if readings else 1
    sizes = names or tuple("abcdefgh"[:count])
    return Garment("Made up", "", sizes, (), (), readings, cloth=cloth or {})


def banded(ratio: float, direction: float, cloth: dict[str, float]) -> Garment:
    """A band of 600 mm times the ratio, sewn to an opening of 600 mm; it lies at an angle (deg) to the stretch."""
    way = np.radians(direction)
    length = 600 * ratio

    def strip(name: str, mm: float) -> Piece:
        low = line(np.zeros((1, 2)), mm * np.array([[np.cos(way), np.sin(way)]]))[:, None]
        return Piece(
            SPAN, name, (Edge(SPAN, "long", low, allowance=0.0),), 1, np.array([[0.0, 1.0]]), np.array([[1.0, 0.0]])
        )

    join = Join(SPAN, "neck", (SidePart("band", "long"),), (SidePart("front", "long"),), np.array([ratio]), (),
                fit="stretched")  # fmt: skip
    return Garment("Banded", "", ("M",), (strip("band", length), strip("front", 600)), (join,), (), cloth=cloth)
