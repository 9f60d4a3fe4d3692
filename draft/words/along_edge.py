"""Places so far along an edge from one of its ends, and by how much they lie beyond it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import norm
from draft.geometry.length import length, point_at
from draft.words.striking import at_worst
from draft.words.word import Given, Miss

ROUNDING = 1e-6  # mm: a place as far along as the edge is long lies at its end


def on_edge(edge: Floats, distance: Floats, near: Floats) -> Given:
    """The point `distance` mm `(B,)` along an edge `(B, S, 4, 2)` from the end that `near` `(B, 2)` is."""
    whole = length(edge)
    at_end = norm(near - edge[:, 0, 0]) > norm(near - edge[:, -1, 3])
    fits = (distance >= -ROUNDING) & (distance <= whole + ROUNDING)
    return point_at(edge, np.where(at_end, whole - distance, distance)), fits


def misses_edge(edge: Floats, distance: Floats, near: Floats) -> Iterator[Miss]:
    """What is wrong where a place `distance` mm `(B,)` along an edge `(B, S, 4, 2)` does not lie on it."""
    beyond, whole = distance - length(edge), length(edge)
    figures = at_worst("it is {} long, and the place lies {} from its end: {} beyond", beyond, whole, distance)
    yield "the edge is shorter than that", beyond > ROUNDING, figures
    yield "the place lies before the end that it is measured from", distance < -ROUNDING, ""


def share_of_edge(edge: Floats, share: Floats, near: Floats) -> Given:
    """The point at a share `(B,)` of an edge `(B, S, 4, 2)` from the end that `near` `(B, 2)` is."""
    return on_edge(edge, share * length(edge), near)
