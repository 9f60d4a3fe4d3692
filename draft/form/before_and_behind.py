"""A belly or a seat that was measured: how much of a girth lies before the side lines, and how deep each half is then.

A tape from side line to side line across the front tells it, at the waist and at the hip. The breadth stays; what lies
in front becomes deeper or flatter until its half of the ring is as long as the tape, what lies behind has the rest.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from draft.base.arrays import Floats
from draft.form.measured import Measured
from draft.form.section import around, ring
from draft.form.stature_levels import LEVELS

_LEAST, _MOST = 0.42, 0.62
"""Shares of a girth that lie in front, of bodies as they are (from memory); beyond, the side line was another."""
_STEPS = 12

Ring = tuple[Floats, Floats, Floats]
"""Half the breadth, half the depth and the exponent of a level, `(bodies,)` each."""


def before_and_behind(m: Measured, rings: Mapping[str, Ring]) -> tuple[Floats, Floats]:
    """By what the depth of each level's front and of its back is multiplied, `(bodies, levels)` each."""
    front, back = np.ones((len(m), len(LEVELS))), np.ones((len(m), len(LEVELS)))
    shares = _shares(m)
    for name, share in shares.items():
        level = LEVELS.index(name)
        front[:, level], back[:, level] = (_deeper(rings[name], part) for part in (share, 1.0 - share))
    return front, back


def _shares(m: Measured) -> dict[str, Floats]:
    """Which share of its girth lies in front at each level where it is not just half."""
    found = {}
    for name in ("waist", "hip"):
        taken = m.was_taken(f"front_{name}_width")
        if taken.any():
            share = np.clip(m[f"front_{name}_width"] / m[f"{name}_girth"], _LEAST, _MOST)
            found[name] = np.where(taken, share, 0.5)
    if not found:
        return {}
    half = np.full(len(m), 0.5)
    waist, hip = found.get("waist", half), found.get("hip", half)
    return {**found, "top_hip": (waist + hip) / 2, "crotch": 0.5 + (hip - 0.5) / 2}


def _deeper(of: Ring, share: Floats) -> Floats:
    """By what a ring's depth is multiplied so that a half of it is such a share of what it is all round."""
    breadth, depth, exponent = of
    wanted = 2.0 * share * around(ring(breadth, depth, exponent))
    low, high = np.full_like(depth, 0.2), np.full_like(depth, 2.5)
    for _ in range(4 * _STEPS):
        middle = (low + high) / 2
        short = around(ring(breadth, depth * middle, exponent)) < wanted
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return np.asarray((low + high) / 2)
