"""Pieces made up for the tests of lays.

`top` is the made-up top of the project's notes on cloth, as far as it can be rebuilt: of its shapes only the areas
(front 711 and back 730 square inches), two bands of 13 x 3 in, a strip of 2 x 24 in and the lengths of its lays were
written down. The outlines here have those areas, and were chosen so that they give the lengths noted for the open lays;
both are 26.965 in high, half of the 53.93 in noted for one fold. What a general solver finds for them is noted beside.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.units import MM_PER_INCH
from draft.cloth.cut_pieces import CutPiece, made

HEIGHT = 26.965
NECK = 1.77
FRONT_AREA, BACK_AREA = 711.0, 730.0


def rectangle(width: float, height: float) -> Floats:
    return np.array([(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])


def ell(width: float, height: float, leg: float, foot: float) -> Floats:
    """An L: `leg` wide, its foot `foot` high."""
    return np.array([(0.0, 0.0), (width, 0.0), (width, foot), (leg, foot), (leg, height), (0.0, height)])


def top(tip: float = 22.65) -> tuple[CutPiece, ...]:
    """The made-up top, in mm; its sleeves reach `tip` inches from the fold."""
    front, back = (
        replace(made(number, name, "", 1, _opened(_half(area, tip, drop)) * MM_PER_INCH), folded=True)
        for number, name, area, drop in ((1, "front", FRONT_AREA, 5.5), (2, "back", BACK_AREA, 1.0))
    )
    bands = made(3, "band", "", 2, rectangle(13 * MM_PER_INCH, 3 * MM_PER_INCH))
    strip = made(4, "strip", "", 1, rectangle(24 * MM_PER_INCH, 2 * MM_PER_INCH))
    return front, back, bands, strip


def _half(area: float, tip: float, drop: float) -> Floats:
    """Half a top in inches, its hem as wide as its area asks: hem, side, sleeve end square to the overarm, neck."""
    slope = np.radians(17.96)
    cuff_top = np.array([tip, HEIGHT - (tip - NECK) * np.tan(slope)])
    cuff_under = cuff_top - 9.43 * np.array([np.sin(slope), np.cos(slope)])

    def ring(hem: float) -> Floats:
        return np.array([(0, 0), (hem, 0), (hem, 9.32), cuff_under, cuff_top, (NECK, HEIGHT), (0, HEIGHT - drop)])

    narrow, wide = 0.0, tip
    for _ in range(60):
        hem = (narrow + wide) / 2
        narrow, wide = (hem, wide) if area_of(ring(hem)) < area / 2 else (narrow, hem)
    return ring(narrow)


def _opened(half: Floats) -> Floats:
    inner = half[1:-1]
    return np.concatenate([inner, half[-1:], inner[::-1] * (-1, 1)])


def area_of(ring: Floats) -> float:
    x, y = ring.T
    return float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) / 2
