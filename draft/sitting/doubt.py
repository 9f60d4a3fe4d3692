"""What is not to be trusted of a garment on a form: where forms of the same girths disagree, or nothing is known.

Eight forms of the same girths are dressed on a coarser mesh, pulled down. What differs there by more than a hundredth,
bands, what is pinched, and all that lies near the arm's joint is masked.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.form.field import Field
from draft.sitting.as_cut import as_cut
from draft.sitting.read_of import hem_of, trunk_of
from draft.sitting.reading import HemRead
from draft.sitting.strains import areas, at_points
from draft.sitting.worn_of import strains_of
from draft.toile.dressed import Dressed, Settled, State
from draft.toile.sewn import Sewn

MOST, OF_GIVES = 0.01, 0.02
"""By which the stretch may be off, one deviation, and still be trusted; or this share of what the cloth gives, where
that is more: of rib, which gives its own width, a hundredth is nothing."""
_JOINT = 50.0  # mm


@dataclass(frozen=True, eq=False)
class Spread:
    """How far eight forms of the same girths are off: stretch of each vertex of their mesh, levels, and the hem."""

    sewn: Sewn
    stretched: Floats
    levels: tuple[tuple[float, float], ...]
    """Heights from the nape and how far the stretch round there is off, as a share."""
    hem: HemRead
    """The hem's deviations, mm."""

    def at(self, height: float) -> float:
        """How far the stretch round a height is off."""
        if not self.levels:
            return 0.0
        known = np.array(sorted(self.levels))
        return float(np.interp(height, known[:, 0], known[:, 1]))


def spread_of(
    dressed: Sequence[Dressed], heights: Sequence[float], bare: Field, state: State = "down"
) -> Spread | None:
    """What differs between garments dressed on several forms; None where fewer than three could be dressed."""
    if len(dressed) < 3:
        return None
    sewn = dressed[0].sewn
    each = np.array([_stretch(one, state) for one in dressed])
    trunks = [trunk_of(one, bare, state) for one in dressed]
    off = [(height, float(np.std([trunk.stretch_at(height)[0] for trunk in trunks]))) for height in heights]
    hems = [hem_of(one, state) for one in dressed]
    deviations = (float(np.std([hem.front for hem in hems])), float(np.std([hem.side for hem in hems])))
    return Spread(sewn, each.std(axis=0), tuple(off), HemRead(*deviations))


def _stretch(dressed: Dressed, state: State) -> Floats:
    sewn = dressed.sewn
    greatest = np.maximum(strains_of(sewn, dressed.states[state]).greatest, 0.0)
    return at_points(greatest, areas(sewn.rest, sewn.triangles), sewn.merged[sewn.triangles], sewn.count)


def doubtful(
    sewn: Sewn, settled: Settled, joint: Floats, spread: Spread | None, everything: bool, gives: float = 0.0
) -> Floats:
    """1 for each vertex `(v,)` that is not to be trusted, else 0; `everything` where a main girth is estimated.

    The cloth `gives` so much, a share.
    """
    if everything:
        return np.ones(sewn.count)
    found = settled.pinched | _near(settled.positions, joint) | _in_bands(sewn)
    if spread is not None:
        found |= _carried(spread, sewn) > max(MOST, OF_GIVES * gives)
    return found.astype(float)


def _near(positions: Floats, joint: Floats) -> Bools:
    left = np.abs(positions) * [1, 0, 0] + positions * [0, 1, 1]
    return np.asarray(np.linalg.norm(left - joint, axis=1) < _JOINT)


def _in_bands(sewn: Sewn) -> Bools:
    """Vertices of bands and of what is faced, but for those that they share with the rest."""
    band = ~as_cut(sewn)
    inside = np.zeros(sewn.count, dtype=bool)
    inside[sewn.merged[sewn.triangles[band]].ravel()] = True
    inside[sewn.merged[sewn.triangles[~band]].ravel()] = False
    return inside


def _carried(spread: Spread, sewn: Sewn) -> Floats:
    """The spread of the coarse mesh at each vertex of another of the same pieces: that of the nearest place as cut."""
    found = np.zeros(sewn.count)
    for piece, name in enumerate(sewn.pieces):
        if name not in spread.sewn.pieces:
            continue
        mine = np.flatnonzero(sewn.piece_of_vertex == piece)
        theirs = np.flatnonzero(spread.sewn.piece_of_vertex == spread.sewn.pieces.index(name))
        near = theirs[_nearest(sewn.rest[mine], spread.sewn.rest[theirs])]
        np.maximum.at(found, sewn.merged[mine], spread.stretched[spread.sewn.merged[near]])
    return found


def _nearest(points: Floats, others: Floats) -> Ints:
    return np.asarray(((others**2).sum(axis=1)[None] / 2 - points @ others.T).argmin(axis=1))


Told = Callable[[str, float], object]
"""What is told while one waits: what is being done, and which share of all is done."""
