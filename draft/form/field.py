"""A form as a signed distance: trunk, neck, arms and thighs run softly into one, on a grid that cloth can be laid on.

The trunk is its rings about one upright line within all of them, so that its distance is first order: how far a point
lies beyond the ring, over the length of the slope. That is exact on the surface, which is all that contact asks for;
how far cloth stands off is asked of `standing_off.py`. A shoulder that follows its arm is looked up where it was.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.form.dress_form import ROW, Form
from draft.form.pose import Arm, arm_of
from draft.form.rounded_grid import knots_of, on_splines

RAYS = 129
"""Directions of half a ring, from the middle of the front to that of the back."""
_ANGLES = np.linspace(0.0, np.pi, RAYS)
_ARM, _LEG, _RIM = 26.0, 34.0, 8.0
"""mm within which arms and legs run together with the trunk, and the trunk's ends are rounded."""
_ABOVE, _BELOW, _ROUND = 48.0, 260.0, 64.0
"""mm of the grid over the neck's end, below the crotch, and round the whole."""
_OVER_NECK = 24.0
_BETWEEN = ((160.0, 0.80, 0.62), (110.0, 0.93, 0.82), (50.0, 0.99, 0.95))
"""mm below the crotch at which the trunk's last ring has shrunk so far in breadth and depth: it fills what lies between
the thighs and runs out within them (by eye)."""
_STEEPEST, _SKEWEST = 25.0, 4.0
"""Squares of the slopes, up and round, beyond which a ring's distance is not made less any more."""


@dataclass(frozen=True, eq=False)
class Field:
    """A form's signed distance in mm, negative within, on a grid `(nx, ny, nz)` of one half, x >= 0.

    x to her left, y to the back, z up from the nape. `joint` `(3,)` is where the arm is hinged.
    """

    grid: Floats
    knots: Floats
    origin: Floats
    step: float
    joint: Floats
    below_level: float
    arm: Arm

    def at(self, points: Floats) -> tuple[Floats, Floats]:
        """Values `(n,)` and slopes `(n, 3)` at points `(n, 3)` of either half, carried on outside."""
        left = np.where(points[:, 0] < 0, -1.0, 1.0)
        place = (points * np.stack([left, np.ones_like(left), np.ones_like(left)], axis=1) - self.origin) / self.step
        values, slopes = on_splines(self.knots, place)
        slopes /= self.step
        slopes[:, 0] *= left
        return values, slopes


def field_of(
    form: Form, body: int, below_level: float, step: float = 8.0, elbow: float = 0.0, armless: bool = False
) -> Field:
    """The field of one body with its arms held so far below level (negative: above), forearms bent forward so far."""
    arm = arm_of(form, body, below_level, elbow)
    axes = _axes(form, body, arm, step)
    x, y, z = axes
    grid = _trunk(form, body, axes, arm)
    if not armless:
        grid = _softly(grid, _tube(arm.middles, arm.radii, axes), _ARM)
    leg = form.leg.placed(body) - np.array([0.0, 0.0, form.heights.nape[body]])
    low = slice(0, int(np.searchsorted(z, leg[0, 2] + 150.0)))
    if low.stop:
        grid[..., low] = _softly(grid[..., low], _tube(leg, form.leg.radii[body], (x, y, z[low])), _LEG)
    return Field(grid, knots_of(grid), np.array([x[0], y[0], z[0]]), step, arm.joint, below_level, arm)


def _axes(form: Form, body: int, arm: Arm, step: float) -> tuple[Floats, Floats, Floats]:
    """Where the grid's planes lie: round the trunk, the arm and the upper part of the thighs."""
    nape, half = float(form.heights.nape[body]), form.halves[body]
    around = arm.radii[:, None]
    high, low = (arm.middles + around).max(axis=0), (arm.middles - around).min(axis=0)
    x = max(float(half[..., 0].max()), high[0]) + _ROUND
    y = (min(float(half[..., 1].min()), low[1]) - _ROUND, max(float(half[..., 1].max()), high[1]) + _ROUND)
    z = (
        min(float(form.rows[body, 0]) - nape - _BELOW, low[2] - _ROUND),
        max(float(form.rows[body, -1]) - nape + _ABOVE, high[2] + _ROUND),
    )
    return _planes(0.0, x, step), _planes(y[0], y[1], step), _planes(z[0], z[1], step)


def _planes(first: float, last: float, step: float) -> Floats:
    return np.asarray(first + step * np.arange(int(np.ceil((last - first) / step)) + 1), dtype=np.float64)


# ---- the trunk ------------------------------------------------------------------------------------------------------


def centre_of(form: Form, body: int) -> float:
    """How far back an upright line lies that is within every ring of a body, mm."""
    half = form.halves[body]
    return float((half[:, 0, 1].max() + half[:, -1, 1].min()) / 2)


def _trunk(form: Form, body: int, axes: tuple[Floats, Floats, Floats], arm: Arm) -> Floats:
    x, y, z = axes
    centre = centre_of(form, body)
    out = np.hypot(x[:, None], y - centre) + 1e-6
    ray = np.arctan2(x[:, None], centre - y) * (RAYS - 1) / np.pi
    first = np.minimum(ray.astype(np.intp), RAYS - 2)
    part = ray - first
    rows, halves = _carried_on(form.rows[body] - form.heights.nape[body], form.halves[body])
    radii = _radii(halves, centre)
    if arm.rise > 0:
        return np.stack(
            [
                _beyond(radii, rows, z - arm.rise * _follows(form, body, xk, z), first[k], part[k], out[k])
                for k, xk in enumerate(x.tolist())
            ]
        )
    found = _beyond(radii, rows, z, first.ravel(), part.ravel(), out.ravel())
    return found.reshape(len(x), len(y), len(z))


def _carried_on(rows: Floats, halves: Floats) -> tuple[Floats, Floats]:
    """Rows and rings with those that run out between the thighs."""
    below = [rows[0] - far for far, _, _ in _BETWEEN]
    middle = (halves[0, :1] + halves[0, -1:]) / 2
    shrunk = [middle + (halves[0] - middle) * [broad, deep] for _, broad, deep in _BETWEEN]
    return np.concatenate([below, rows]), np.concatenate([shrunk, halves])


def _beyond(radii: Floats, rows: Floats, z: Floats, first: Floats, part: Floats, out: Floats) -> Floats:
    """The trunk's distance `(places, heights)` for places given by their ray and how far out they lie."""
    at = np.clip(np.searchsorted(rows, z) - 1, 0, len(rows) - 2)
    high = rows[at + 1] - rows[at]
    share = np.clip((z - rows[at]) / high, 0.0, 1.0)
    ring = radii[at] + share[:, None] * (radii[at + 1] - radii[at])
    rise = (radii[at + 1] - radii[at]) / high[:, None]
    rise[(z < rows[0]) | (z > rows[-1])] = 0.0
    low, up = ring[:, first], ring[:, first + 1]
    r = low + part * (up - low)
    turn = (up - low) * ((RAYS - 1) / np.pi) / np.maximum(out, 30.0)
    slope = rise[:, first] + part * (rise[:, first + 1] - rise[:, first])
    slope *= slope
    turn *= turn
    found = (out - r) / np.sqrt(1.0 + np.minimum(turn, _SKEWEST) + np.minimum(slope, _STEEPEST))
    past = np.maximum(rows[0] - z, z - (rows[-1] + _OVER_NECK))
    return np.ascontiguousarray(_ended(found, past).T)


def _ended(found: Floats, past: Floats) -> Floats:
    """A distance `(heights, places)` cut off flat where heights are past its ends."""
    over = past > -_RIM
    if over.any():
        found[over] = -_softly(-found[over], -np.broadcast_to(past[over, None], found[over].shape), _RIM)
    return found


def _radii(half: Floats, centre: float) -> Floats:
    """How far each half ring `(rows, points, 2)` reaches along the rays from (0, centre), `(rows, RAYS)`."""
    x, y = half[..., 0], half[..., 1] - centre
    angle = np.maximum.accumulate(np.arctan2(x, -y), axis=1)
    way = np.stack([np.sin(_ANGLES), -np.cos(_ANGLES)])
    found = np.empty((len(half), RAYS))
    for row in range(len(half)):
        k = np.clip(np.searchsorted(angle[row], _ANGLES) - 1, 0, half.shape[1] - 2)
        ax, ay, dx, dy = x[row, k], y[row, k], x[row, k + 1] - x[row, k], y[row, k + 1] - y[row, k]
        across = way[0] * dy - way[1] * dx
        found[row] = (ax * dy - ay * dx) / np.where(np.abs(across) > 1e-9, across, 1e-9)
    return found


def _follows(form: Form, body: int, x: float, z: Floats) -> Floats:
    """How far the trunk has gone along with a raised shoulder `(heights,)`: not at the neck, nor below the armpit."""
    nape, at = form.heights.nape[body], form.heights
    side = np.clip((x - at.neck[body]) / (at.tip[body] - at.neck[body]), 0.0, 1.0)
    low, high = (float(form.rows[body, ROW[name]] - nape) for name in ("armpit", "under_shoulder"))
    up = np.clip((z - low) / (high - low), 0.0, 1.0)
    return np.asarray(side * side * (3 - 2 * side) * up)


# ---- limbs ----------------------------------------------------------------------------------------------------------


def _tube(middles: Floats, radii: Floats, axes: tuple[Floats, Floats, Floats]) -> Floats:
    """The distance from a tube of cones along a line of middles `(places, 3)`."""
    x, y, z = axes[0][:, None, None], axes[1][None, :, None], axes[2][None, None, :]
    nearest = None
    for k in range(len(middles) - 1):
        start, way = middles[k], middles[k + 1] - middles[k]
        long = float(way @ way)
        if long < 1.0:
            continue
        dx, dy, dz = x - start[0], y - start[1], z - start[2]
        t = np.clip((dx * way[0] + dy * way[1] + dz * way[2]) / long, 0.0, 1.0)
        away = np.sqrt((dx - t * way[0]) ** 2 + (dy - t * way[1]) ** 2 + (dz - t * way[2]) ** 2)
        away -= radii[k] + t * (radii[k + 1] - radii[k])
        nearest = away if nearest is None else np.minimum(nearest, away)
    assert nearest is not None
    return np.asarray(nearest)


def _softly(a: Floats, b: Floats, within: float) -> Floats:
    """The nearer of both, run together where they differ by less than `within` mm (a quadratic soft minimum)."""
    near = np.maximum(within - np.abs(a - b), 0.0)
    return np.asarray(np.minimum(a, b) - near * near / (4 * within))
