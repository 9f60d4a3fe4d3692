"""A settled garment cut at heights: how long it is round there as it was cut, and how its cloth is stretched."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.sitting.as_cut import as_cut
from draft.toile.sewn import Role, Sewn

_PARTS = 36
"""A round of directions is looked at in so many parts: each holds several corners of triangles."""
_BESIDE = 18.0
"""mm above and below a level within which triangles are of it."""


@dataclass(frozen=True, eq=False)
class Trunk:
    """The triangles of front and back as they lie: which ones `(t,)`, their middles `(t, 3)`, stretch and areas."""

    sewn: Sewn
    positions: Floats
    stretched: Floats
    areas: Floats
    front: Bools
    back: Bools
    sleeve: Bools
    """Those of front and back that are round an arm, and in neither."""

    @property
    def corners(self) -> Floats:
        """Where the corners of all triangles are now, `(t, 3, 3)`."""
        return np.asarray(self.positions[self.sewn.merged[self.sewn.triangles]])

    def reaches(self) -> tuple[float, float]:
        """The lowest height at which there is cloth all round, and the highest, mm from the nape."""
        high = min(float(self.corners[side][:, :, 2].max()) for side in (self.front, self.back))
        return self._hem_where_highest(), high

    def _hem_where_highest(self) -> float:
        """Of the lowest places of the cloth in each direction from the middle of the body, the highest."""
        x, y, z = self.corners[self.front | self.back].reshape(-1, 3).T
        turned = np.arctan2(x, y - y.mean())
        part = np.floor((turned + np.pi) / (2 * np.pi) * _PARTS).astype(int) % _PARTS
        lowest = np.full(_PARTS, np.inf)
        np.minimum.at(lowest, part, z)
        return float(lowest[np.isfinite(lowest)].max())

    def stretch_at(self, height: float) -> tuple[float, float, float]:
        """The mean stretch round a level as a share: where there is any, in front and behind, which may be slack."""
        middle = self.corners[:, :, 2].mean(axis=1)
        near = np.abs(middle - height) < _BESIDE
        every = near & (self.front | self.back)
        round_it = self._mean(np.maximum(self.stretched, 0.0), every)
        return round_it, self._mean(self.stretched, near & self.front), self._mean(self.stretched, near & self.back)

    def _mean(self, values: Floats, where: Bools) -> float:
        weight = self.areas * where
        return float((values * weight).sum() / weight.sum()) if weight.any() else 0.0

    def long_at(self, height: float) -> float | None:
        """How long the garment is round a level as it was cut, mm: both halves. None where a sleeve begins there."""
        sleeve = self.corners[self.sleeve][:, :, 2]
        if ((sleeve.max(axis=1) > height) & (sleeve.min(axis=1) < height)).any():
            return None
        side = self.front | self.back
        now, rest = self.corners[side], self.sewn.rest[self.sewn.triangles[side]]
        up = now[:, :, 2] - height
        crossed = (up > 0).any(axis=1) & (up < 0).any(axis=1)
        up, rest = up[crossed], rest[crossed]
        ends = np.full((len(up), 3, 2), np.nan)
        for k in range(3):
            a, b = up[:, k], up[:, (k + 1) % 3]
            cut = (a > 0) != (b > 0)
            share = a / np.where(cut, a - b, 1.0)
            at = rest[:, k] + share[:, None] * (rest[:, (k + 1) % 3] - rest[:, k])
            ends[cut, k] = at[cut]
        two = np.sort(np.isnan(ends[:, :, 0]), axis=1)
        order = np.argsort(np.isnan(ends[:, :, 0]), axis=1, kind="stable")
        ends = np.take_along_axis(ends, order[..., None], axis=1)[~two[:, 1], :2]
        long = float(np.hypot(*(ends[:, 1] - ends[:, 0]).T).sum())
        return 2 * long if self.sewn.halved else long


def on_trunk(sewn: Sewn, pieces: tuple[Role, ...]) -> Bools:
    """Which triangles `(t,)` are of pieces that go so, and lie there as they were cut."""
    roles = np.array([role in pieces for role in sewn.roles])
    return np.asarray(roles[sewn.piece_of_triangle] & as_cut(sewn))
