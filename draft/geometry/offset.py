"""The parallel of a path of one body, whatever the path: corners met or trimmed, loops cut out."""

from __future__ import annotations

from itertools import pairwise

from draft.base.arrays import Floats
from draft.geometry.corner import REACH, corner, with_corners
from draft.geometry.parallel import TOLERANCE, parallel, smooth_runs
from draft.geometry.tangle import without_loops


def offset(path: Floats, distance: float, tolerance: float = TOLERANCE) -> Floats:
    """The true parallel `(N, 4, 2)` of one body's path `(S, 4, 2)` at `distance` mm, within `tolerance` mm.

    A positive distance lies to the right of travel: outside an outline that runs counterclockwise. A path without
    length has no parallel: `(0, 4, 2)`.
    """
    side = 1 if distance >= 0 else -1
    parallels = [parallel(run, distance, tolerance) for run in smooth_runs(path)]
    if not parallels:
        return path[:0]
    reach = REACH * abs(distance)
    corners = [corner(a, b, side, reach) for a, b in pairwise(parallels)]
    return without_loops(with_corners(parallels, corners, reach, closed=False))
