"""The leg of a dart: straight, or bowed by so much in its middle, as a dart is that follows the body."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import dot, line, turned, unit

LIFT = 4 / 3
"""A cubic's handles stand so much further off its chord than its middle does."""


def leg(mouth: Floats, to: Floats, bow: Floats | None, way: Floats) -> Floats:
    """Segments `(..., 4, 2)` from where a dart's edge is, `mouth`, to its point `to`, `(..., 2)` each.

    In the middle the leg lies `bow` mm `(...,)` off its chord, to the side that `way` `(..., 2)` goes; less than
    none is to the other. It is as long as any other leg between points as far apart that is bowed as far.
    """
    straight = line(mouth, to)
    if bow is None:
        return straight
    aside = turned(unit(to - mouth), np.array(np.pi / 2))
    lift = (np.sign(dot(aside, way)) * LIFT * bow)[..., None] * aside
    none = np.zeros_like(lift)
    return straight + np.stack([none, lift, lift, none], axis=-2)
