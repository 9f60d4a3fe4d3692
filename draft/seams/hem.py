"""Where a seam runs into a hem: the allowance beyond the hem's line is the seam's own, folded over that line.

So a turned-up hem lies flat on the piece however the seam slants or bends there: it is as wide as what it lies on.
"""

from __future__ import annotations

import numpy as np

from draft.geometry.corner import Corner
from draft.geometry.cubic import Floats, cross, line, norm, reverse, right_of
from draft.geometry.parallel import Parallel
from draft.geometry.tangle import crossings, cut, place_point


def mirrored_into_hem(seam: Parallel, hem: Parallel, reach: float) -> Corner | None:
    """The corner from `seam` to the `hem` that follows it, or None where the seam does not reach the hem's line.

    The hem's line is straight, along the hem at the corner: a bent hem folds along its bend, and only at the corner
    is the seam the neighbour that has to match.
    """
    along = seam.carried(reach)
    fold = line(hem.start - reach * hem.leave, hem.start + reach * hem.leave)[None]
    meetings = crossings(along, fold)[:, 0]
    if not len(meetings):
        return None
    apart = [float(norm(place_point(along, place) - hem.start)) for place in meetings]
    leave = float(meetings[int(np.argmin(apart))])
    folded = folded_over(reverse(cut(along, 0.0, leave)), hem.start, hem.leave)
    ends = crossings(folded, hem.carried(reach))
    if not len(ends):
        return None
    return Corner(leave, float(ends[0, 1]), cut(folded, 0.0, float(ends[0, 0])))


def mirrored_out_of_hem(hem: Parallel, seam: Parallel, reach: float) -> Corner | None:
    """The corner from a `hem` to the `seam` that follows it: as the other, run backwards."""
    found = mirrored_into_hem(seam.backwards(), hem.backwards(), reach)
    if found is None:
        return None
    leave, enter = len(hem.path) + 2 - found.enter, len(seam.path) + 2 - found.leave
    return Corner(leave, enter, reverse(found.between))


def folded_over(path: Floats, start: Floats, direction: Floats) -> Floats:
    """A path `(N, 4, 2)` reflected about the line through `start` along the unit vector `direction` `(2,)`."""
    side = right_of(direction)
    folded: Floats = path + 2 * cross(direction, path - start)[..., None] * side
    return folded
