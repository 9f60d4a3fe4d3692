"""Whether points lie inside closed polylines."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats


def within(polygon: Floats, points: Floats) -> Bools:
    """Whether points `(B, N, 2)` lie inside closed polylines `(B, K, 2)`, each body's in its own: `(B, N)`.

    A point on the line itself may be told either way.
    """
    a, b = polygon[:, None], np.roll(polygon, -1, axis=1)[:, None]
    x, y = points[..., 0, None], points[..., 1, None]
    straddles = (a[..., 1] > y) != (b[..., 1] > y)
    rise = b[..., 1] - a[..., 1]
    crossing = a[..., 0] + (y - a[..., 1]) / np.where(rise == 0, 1.0, rise) * (b[..., 0] - a[..., 0])
    return np.asarray((straddles & (crossing > x)).sum(axis=-1) % 2 == 1)
