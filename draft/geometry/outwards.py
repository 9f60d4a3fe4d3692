"""An edge moved out to lie beside itself, and the edges that meet it carried on to it."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.crossing import edge_meets_line
from draft.geometry.cubic import line, norm, reverse, right_of
from draft.geometry.ends import end_directions
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.part import part_along
from draft.geometry.spline import hobby

PARTS = 4  # of each segment: the cubics through them stray from the true parallel of a garment's curve by under 0.01 mm


def beside(path: Floats, first: Floats, last: Floats, begin: Floats | None = None, end: Floats | None = None) -> Floats:
    """A path `(B, S * 4, 4, 2)` that lies to the right of another, `first` mm away at its start and `last` at its end.

    Between, the distance `(B,)` changes evenly. Only the stretch from `begin` to `end` mm `(B,)` of the other is
    followed where they are given.
    """
    whole = length(path)
    low = np.zeros_like(whole) if begin is None else begin
    high = whole if end is None else end
    shares = np.linspace(0.0, 1.0, path.shape[1] * PARTS + 1)
    knots, ways = [], []
    run = np.maximum(high - low, 1e-9)
    slope = (last - first) / run
    for share in shares:
        at = low + share * run
        along = tangent_at(path, at)
        out = right_of(along)
        knots.append(point_at(path, at) + (first + share * (last - first))[:, None] * out)
        way = along + slope[:, None] * out
        ways.append(way / np.maximum(norm(way), 1e-9)[:, None])
    return hobby(np.stack(knots, axis=1), ways)


def carried_to(path: Floats, before: Floats, behind: Floats) -> tuple[Floats, Floats, Floats, Bools]:
    """A path cut or carried on to end where the edges before and behind it, carried on straight, meet it.

    Gives the path, the edge before and the edge behind with what was added to them, and where both meet it.
    """
    reach = 10 * (length(path) + 100.0)
    out, into = end_directions(before)[1], end_directions(behind)[0]
    first, last = before[:, -1, 3], behind[:, 0, 0]
    leave, arrive = end_directions(path)
    long = np.concatenate(
        [
            line(path[:, 0, 0] - reach[:, None] * leave, path[:, 0, 0])[:, None],
            path,
            line(path[:, -1, 3], path[:, -1, 3] + reach[:, None] * arrive)[:, None],
        ],
        axis=1,
    )
    start, at, met = edge_meets_line(long, first, out)
    end, back, met_too = edge_meets_line(reverse(long), last, into)
    kept = part_along(long, at, length(long) - back)
    grown = np.concatenate([before, line(first, start)[:, None]], axis=1)
    grown_too = np.concatenate([line(end, last)[:, None], behind], axis=1)
    return kept, grown, grown_too, met & met_too
