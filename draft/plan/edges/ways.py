"""Directions that one edge takes from another."""

from __future__ import annotations

from draft.base.arrays import Floats
from draft.geometry.ends import end_directions
from draft.words.directions import square_towards


def square_to(path: Floats, at_start: bool, chord: Floats) -> Floats:
    """The perpendicular `(B, 2)` of a path at one of its ends, on the side towards which `chord` `(B, 2)` runs."""
    start, end = end_directions(path)
    along = start if at_start else end
    return square_towards(along, chord)[0]
