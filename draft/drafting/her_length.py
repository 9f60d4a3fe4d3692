"""Lines at which pieces may be lengthened on what is made to measure: none where it is known how long she is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from draft.bodies.estimates import Estimate
from draft.garment.garment import Garment, Piece

LENGTHWAYS = frozenset({"back_waist_length", "outer_arm_length", "crotch_depth", "inside_leg_length"})
"""What says how far down a body its waist, wrist, crotch and foot lie: an estimate may be off by centimetres."""


def at_her_length(garment: Garment, estimates: Iterable[Estimate]) -> Garment:
    """The garment of one person without those lines, unless any such length of hers was estimated."""
    if any(one.name in LENGTHWAYS for one in estimates):
        return garment
    return replace(garment, pieces=tuple(map(_without, garment.pieces)))


def _without(piece: Piece) -> Piece:
    marks = tuple(mark for mark in piece.marks if mark.line != "lengthen")
    return piece if len(marks) == len(piece.marks) else replace(piece, marks=marks)
