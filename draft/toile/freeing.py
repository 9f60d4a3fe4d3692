"""Vertices that were caught inside the form while it grew, brought out again between their neighbours.

Inside, the distance only tells the nearest way out, which may be the other side of a thin shoulder; the neighbours that
lie outside know on which side the cloth is.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.toile.dressed import FormField
from draft.toile.sewn_cloth import SewnCloth

_ROUNDS = 60
_STRIDE, _STRIDES = 4.0, 30  # mm


def freed(cloth: SewnCloth, x: Floats, field: FormField, deeper: float) -> Floats:
    """Positions `(v, 3)` in which none lies deeper inside than that, mm, as far as that goes."""
    values, normals = field.at(x)
    caught = values < -deeper
    if not caught.any() or caught.all():
        return x
    caught = _with_neighbours(cloth, caught) & (values < 0)
    found = _between(cloth, x, caught)
    out = _between(cloth, normals, caught)
    out /= np.maximum(np.linalg.norm(out, axis=1), 1e-9)[:, None]
    out[cloth.held] = 0.0
    for _ in range(_STRIDES):
        inside = caught & (field.at(found)[0] < 0)
        if not inside.any():
            break
        found[inside] += _STRIDE * out[inside]
    return found


def _with_neighbours(cloth: SewnCloth, some: Bools) -> Bools:
    """The vertices, and all that share a triangle with one of them."""
    near = some[cloth.membrane.triangles].any(axis=1)
    found = some.copy()
    found[cloth.membrane.triangles[near].ravel()] = True
    return found


def _between(cloth: SewnCloth, values: Floats, some: Bools) -> Floats:
    """Values `(v, 3)` of which some are drawn evenly between those of the others."""
    pattern, found = cloth.pattern, values.copy()
    sizes = np.diff(np.append(pattern.rows, len(pattern.columns)))
    for _ in range(_ROUNDS):
        mean = np.add.reduceat(found[pattern.columns], pattern.rows, axis=0) / sizes[:, None]
        found[some] = mean[some]
    return found
