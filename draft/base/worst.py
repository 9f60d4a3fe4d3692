"""Whom a note names: the first of those for whom a figure is greatest, whatever a machine rounds off."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats

ALIKE = 1e-6
"""Figures that differ by less (mm, degrees, shares), or by so small a part of them, are alike."""


def worst_of(values: Floats) -> int:
    """Where values `(B,)` are greatest: the first of those that are alike."""
    most = float(np.max(values))
    return int(np.argmax(values >= most - ALIKE * max(1.0, abs(most) if np.isfinite(most) else 1.0)))
