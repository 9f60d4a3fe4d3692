"""Where a seam runs into a hem: the allowance beyond the hem's line is the seam's own, folded over that line.

So a turned-up hem lies flat on the piece however the seam slants or bends there: it is as wide as what it lies on.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.corner import SNUG, ParallelCorner, is_forward
from draft.geometry.cubic import cross, line, norm, reverse, right_of
from draft.geometry.parallel import Parallel
from draft.geometry.tangle import crossings, part_from, place_point

NEAR = 2.5
"""A seam that meets the hem's line, or folded over it the hem's edge, further off than this many times the wider
allowance slants too much to be a hem's neighbour (under 24 degrees): then the corner is made as any other."""


def mirrored_into_hem(seam: Parallel, hem: Parallel, reach: float) -> ParallelCorner | None:
    """The corner from `seam` to the `hem` that follows it, or None where it is hollow or the seam hardly reaches it.

    The hem's line is straight, along the hem at the corner: a bent hem folds along its bend, and only at the corner
    is the seam the neighbour that has to match.
    """
    if cross(seam.arrive, hem.leave) * hem.distance <= 0 or seam.trail or hem.lead:
        return None
    along = seam.carried(reach)
    fold = line(hem.start - reach * hem.leave, hem.start + reach * hem.leave)[None]
    meetings = crossings(along, fold)[:, 0]
    if not len(meetings):
        return None
    apart = norm(np.stack([place_point(along, place) for place in meetings]) - hem.start)
    leave = float(meetings[apart.argmin()])
    folded = folded_over(reverse(part_from(along, 0.0, leave)), hem.start, hem.leave)
    ends = crossings(folded, hem.carried(reach))[:1]
    near = NEAR * max(abs(seam.distance), abs(hem.distance))
    if apart.min() > near or not len(ends) or norm(place_point(folded, ends[0, 0]) - hem.start) > near:
        return None
    beyond, enter = part_from(folded, 0.0, float(ends[0, 0])), float(ends[0, 1])
    outside = np.sign(hem.distance) * cross(hem.leave, beyond - hem.start) <= SNUG
    if not outside.all() or not is_forward(part_from(hem.carried(reach), 1.0, max(1.0, enter)), hem.leave):
        return None
    return ParallelCorner(leave, enter, beyond)


def mirrored_out_of_hem(hem: Parallel, seam: Parallel, reach: float) -> ParallelCorner | None:
    """The corner from a `hem` to the `seam` that follows it: as the other, run backwards."""
    found = mirrored_into_hem(seam.backwards(), hem.backwards(), reach)
    if found is None:
        return None
    leave, enter = len(hem.path) + 2 - found.enter, len(seam.path) + 2 - found.leave
    return ParallelCorner(leave, enter, reverse(found.between))


def folded_over(path: Floats, start: Floats, direction: Floats) -> Floats:
    """A path `(N, 4, 2)` reflected about the line through `start` along the unit vector `direction` `(2,)`."""
    side = right_of(direction)
    folded: Floats = path + 2 * cross(direction, path - start)[..., None] * side
    return folded
