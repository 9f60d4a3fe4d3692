"""A band that goes on over several pieces: drawn as one strip where they lie in one line, as round a raglan neck."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import norm, reverse
from draft.paper.flat.bands import Band
from draft.paper.flat.limbs import Limb
from draft.paper.flat.lines_in_view import View, across
from draft.paper.flat.similar import MIRROR

_TOUCH = 2.0
"""Ends no farther from one another, mm, are one."""


def goes_on(view: View, band: Band, full: Floats) -> Floats:
    """A line across the middle `(n, 4, 2)`, left to right, with those of limbs at its ends that the band finishes."""
    for one in view.limbs:
        for name, line in one.lines:
            end = _at_its_end(full, line) if _finishes(band, one.piece.name, name) else None
            if end is not None:
                return np.concatenate([reverse(MIRROR.points(end)), full, end])
    return full


def is_drawn_across(view: View, one: Limb, name: str, line: Floats) -> bool:
    """Whether the band on a limb's edge `(n, 4, 2)` is drawn with that of an edge that goes over the middle."""
    for band in view.bands:
        if _finishes(band, one.piece.name, name):
            for edge in view.panel.piece.edges:
                full = across(view, view.panel, edge) if _finishes(band, view.panel.piece.name, edge.name) else None
                if full is not None and _at_its_end(full, line) is not None:
                    return True
    return False


def _finishes(band: Band, piece: str, edge: str) -> bool:
    return any((part.piece, part.edge) == (piece, edge) for part in band.edges)


def _at_its_end(full: Floats, line: Floats) -> Floats | None:
    """A limb's line, or its mirror image, so that it begins where another ends; None where it does not."""
    for one in (line, MIRROR.points(line)):
        for turned in (one, reverse(one)):
            if norm(turned[0, 0] - full[-1, 3]) < _TOUCH:
                return np.asarray(turned)
    return None
