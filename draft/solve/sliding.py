"""Of all values that meet the relations of a block, those nearest to where they are wanted.

Newton's method on the way to them arrives where its steps lead: an unknown that hardly matters may have gone far by
then, and one that made room for a relation on the way stays there after the relation has room to spare. So what was
found slides along the relations towards what is wanted: by the nearest values that meet the relations' tangents, and
from there back to the relations.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats

EXCHANGES = 24  # of the relations that hold an unknown back; three or four are usual
SOFT = 1e-12  # what two relations that say the same share between them


def nearest_by_tangents(
    away: Floats, gaps: Floats, slopes: Floats, room: tuple[Floats, Floats], equal: Bools
) -> Floats:
    """The step `(N, U)` nearest to `away` `(N, U)` that meets all relations as far as their slopes tell.

    `gaps` `(N, M)` and `slopes` `(N, M, U)` are those of the relations: nothing where `equal` `(M,)`, else not below.
    `room` is how far each unknown may go down and up, `(N, U)` each, and nothing or more.

    The relations that hold the step back are exchanged until each that does so pulls, and none else is broken
    (M. Hintermueller, K. Ito, K. Kunisch, "The primal-dual active set strategy as a semismooth Newton method", SIAM
    Journal on Optimization 13 (2002)).
    """
    rows, limits = _as_rows(gaps, slopes, room)
    always = np.concatenate([equal, np.zeros(rows.shape[1] - len(equal), dtype=bool)])
    holding = np.broadcast_to(always, limits.shape)
    step = away
    for _ in range(EXCHANGES):
        step, pull = _held(away, rows, limits, holding)
        broken = np.einsum("nmu,nu->nm", rows, step) + limits < -1e-12
        exchanged = always | np.where(holding, pull > 0, broken)
        if np.array_equal(exchanged, holding):
            break
        holding = exchanged
    return np.clip(step, -room[0], room[1])


def _as_rows(gaps: Floats, slopes: Floats, room: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
    """All that a step must keep as `rows @ step + limits`, `(N, K, U)` and `(N, K)`: relations, then both ends."""
    length = np.maximum(np.linalg.norm(slopes, axis=2), 1e-300)
    ends = np.broadcast_to(np.eye(slopes.shape[2]), (len(slopes), *np.eye(slopes.shape[2]).shape))
    rows = np.concatenate([slopes / length[..., None], ends, -ends], axis=1)
    return rows, np.concatenate([gaps / length, room[0], room[1]], axis=1)


def _held(away: Floats, rows: Floats, limits: Floats, holding: Bools) -> tuple[Floats, Floats]:
    """The step `(N, U)` nearest to `away` that leaves the rows that hold nothing, and the pull `(N, K)` of each."""
    kept = np.where(holding[..., None], rows, 0.0)
    count = kept.shape[1]
    against = kept @ np.swapaxes(kept, 1, 2) + np.eye(count) * np.where(holding, SOFT, 1.0)[:, None, :]
    short = np.where(holding, np.einsum("nmu,nu->nm", kept, away) + limits, 0.0)
    pull = np.asarray(-np.linalg.solve(against, short[..., None])[..., 0])
    return np.asarray(away + np.einsum("nmu,nm->nu", kept, pull)), pull
