"""Which of a sewn mesh lies as its piece was cut: no band, and no facing or lap on it.

A band is stretched or held by its sewing, what is faced by its facing; a yoke of two layers is as true as one of one.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools
from draft.toile.sewn import Sewn


def as_cut(sewn: Sewn) -> Bools:
    """Which triangles `(t,)` are of pieces that are no bands, in as many layers as all of their piece is made of."""
    found = np.array([role != "band" for role in sewn.roles])[sewn.piece_of_triangle]
    own = np.full(len(sewn.pieces), np.inf)
    np.minimum.at(own, sewn.piece_of_triangle, sewn.layers)
    return np.asarray(found & (sewn.layers < own[sewn.piece_of_triangle] + 0.5))
