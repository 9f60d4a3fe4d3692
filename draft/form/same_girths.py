"""Other bodies of the same girths: what a tape does not tell of their shape lies one deviation off, this way or that.

What comes out the same on all of them may be said of a person who is known by her measures alone; nothing else may.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.bodies.bodies import Bodies
from draft.bodies.wearers import WOMEN, Wearers
from draft.form.dress_form import Form, formed
from draft.form.measured import Measured, measured

COUNT = 8
_SHAPE = {"chest_depth": 9.1, "waist_breadth": 9.5, "waist_depth": 11.7, "hip_breadth": 8.8, "hip_depth": 11.1}
"""mm, one deviation: those of the regressions on people they were not fitted to (`proportions.py`)."""
_BY_EYE = {"side_neck": 7.0, "hollow": 10.0}
"""mm, from memory: no survey at hand has them."""
_BUST_TAKEN, _BUST_ESTIMATED = 5.0, 21.0
"""mm by which the bust's level is off, taken with a tape, and as its estimate is off surveyed women's."""


def alike(bodies: Bodies, body: int = 0, wearers: Wearers = WOMEN) -> Form | None:
    """Eight forms of one body's measures; None where no form can be made."""
    m = measured(bodies.at([body] * COUNT), wearers)
    return None if m is None else formed(tuple(f"{bodies.names[body]} {k + 1}" for k in range(COUNT)), shaped(m))


def shaped(m: Measured) -> Measured:
    """The measures of eight bodies, each figure of their shape one deviation up in four and down in four."""
    taken = bool(m.was_taken("bust_depth").all())
    names = [*_SHAPE, *_BY_EYE]
    off = {
        name: way * sd
        for name, way, sd in zip(names, balanced(len(names)), [*_SHAPE.values(), *_BY_EYE.values()], strict=True)
    }
    level = balanced(len(names) + 1)[-1] * (_BUST_TAKEN if taken else _BUST_ESTIMATED)
    return replace(m, values={**m.values, "bust_depth": m["bust_depth"] + level}, off=off)


def balanced(count: int) -> Floats:
    """Which way each of up to eight figures lies off in eight bodies, `(count, 8)` of -1 and 1.

    Seven are square to one another (Hadamard's matrix); the eighth goes with the fourth, the hip's
    breadth, which lies far from it.
    """
    half = np.array([[1.0, 1.0], [1.0, -1.0]])
    ways = np.kron(np.kron(half, half), half)[1:]
    return np.concatenate([ways, ways[3:4]])[:count]
