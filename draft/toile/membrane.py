"""The cloth in its own plane: stiff along the grain and across it, and nearly limp where it is pressed together.

A triangle's strain is told by what becomes of a unit along the greatest stretch and one along the grain. Where it is
taut both ways it is a linear orthotropic sheet; where one way is slack it is a tie along the other (a tension field),
with a twentieth of its stiffness left, so that no fold is without any.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass
from draft.toile.summing import summed

LIMP = 0.05
"""What is left of the stiffness where cloth is pressed together: strain where it is tight does not feel it."""
_COUPLED, _SHEARED = 0.25, 0.22
"""Of the geometric mean of both stiffnesses: assumed, as no hand test tells them; strain where it is tight moves by
less than 0.004 with stiffnesses a quarter of these to four times them."""
_PULLED = 0.08
"""N for each mm of width with which a hand stretches a swatch as far as it says (assumed)."""


def stiffness_of(across: float, down: float) -> Floats:
    """Stiffnesses in N/mm `(4,)`: across, down, between both, and of shear, by the stretch of a hand test each way."""
    one, other = _PULLED / across, _PULLED / down
    mean = float(np.sqrt(one * other))
    return np.array([one, other, _COUPLED * mean, _SHEARED * mean])


@dataclass(frozen=True, eq=False)
class Membrane:
    """The triangles of a cloth `(t, 3)` by the vertices that move, how they lie at rest, and how stiff they are.

    `slopes` `(t, 3, 2)` are what each corner adds to the change along either unit, in 1/mm; `areas` `(t,)` mm2;
    `stiffness` `(t, 4)` N/mm as `stiffness_of` has it.
    """

    triangles: Ints
    slopes: Floats
    areas: Floats
    stiffness: Floats

    def units(self, x: Floats) -> tuple[Floats, Floats]:
        """What becomes of a unit across and of one along the grain, `(t, 3)` each, at positions `(v, 3)`."""
        corners = x[self.triangles]
        a, b = self.slopes[..., 0], self.slopes[..., 1]
        return _weighed(a, corners), _weighed(b, corners)

    def strain(self, x: Floats) -> tuple[Floats, Floats, Floats]:
        """Strain across and along the grain, and the cosine between both, `(t,)` each, at positions `(v, 3)`."""
        across, along = self.units(x)
        one, other = _long(across), _long(along)
        return one - 1, other - 1, (across * along).sum(axis=1) / (one * other)

    def energy(self, x: Floats) -> tuple[float, Floats]:
        """The energy in N mm and its gradient `(v, 3)` at positions `(v, 3)`."""
        state = _State(self, x)
        return state.energy, self._scattered(state, len(x))

    def with_blocks(self, x: Floats) -> tuple[float, Floats, Floats]:
        """The energy, its gradient, and blocks `(t, 3, 3, 3, 3)` of its second derivative: corner, axis of each."""
        state = _State(self, x)
        return state.energy, self._scattered(state, len(x)), self._blocks(state)

    def tension(self, x: Floats) -> tuple[Floats, Floats, Floats]:
        """Tension in N/mm across, along and of shear, `(t,)` each; none where it is slack."""
        state = _State(self, x)
        shear = self.stiffness[:, 3] * state.shear
        return np.maximum(state.pull[0], 0.0), np.maximum(state.pull[1], 0.0), shear

    def _scattered(self, state: _State, count: int) -> Floats:
        a, b = self.slopes[..., 0, None], self.slopes[..., 1, None]
        forces = a * state.forces[0][:, None] + b * state.forces[1][:, None]
        flat = self.triangles.ravel()
        return np.stack([summed(flat, forces[:, :, k].ravel(), count) for k in range(3)], axis=1)

    def _blocks(self, state: _State) -> Floats:
        a, b = self.slopes[..., 0], self.slopes[..., 1]
        across, both, along = state.second()
        weight = self.areas[:, None, None]
        by = np.stack([weight * _outer(p, q) for p, q in ((a, a), (b, b), (a, b), (b, a))], axis=3)
        parts = np.stack([across, along, both, both.transpose(0, 2, 1)], axis=1)
        count = len(self.areas)
        return np.asarray((by.reshape(count, 9, 4) @ parts.reshape(count, 4, 9)).reshape(count, 3, 3, 3, 3))


class _State:
    """A membrane at one place: its strain, what pulls, and how stiff it is there."""

    def __init__(self, membrane: Membrane, x: Floats) -> None:
        across, along = membrane.units(x)
        c, d, both, self._shear_stiffness = membrane.stiffness.T
        self._long = [_long(across) + 1e-12, _long(along) + 1e-12]
        self.units = [across, along]
        self._ways = [unit / long[:, None] for unit, long in zip(self.units, self._long, strict=True)]
        e, f = self._long[0] - 1, self._long[1] - 1
        taut_e, taut_f = c * e + both * f, d * f + both * e
        taut = (taut_e >= 0) & (taut_f >= 0)
        tie_e, tie_f = ~taut & (e > 0), ~taut & (e <= 0) & (f > 0)
        r, s = both / d, both / c
        k, m = c - both * r, d - both * s
        slack_f, slack_e = f + r * e, e + s * f
        which = [taut, tie_e, tie_f]
        density = np.select(
            which,
            [
                (taut_e * e + taut_f * f) / 2,
                (k * e**2 + LIMP * d * slack_f**2) / 2,
                (m * f**2 + LIMP * c * slack_e**2) / 2,
            ],
            LIMP * (taut_e * e + taut_f * f) / 2,
        )
        self.pull = [
            np.select(which, [taut_e, k * e + LIMP * d * slack_f * r, LIMP * c * slack_e], LIMP * taut_e),
            np.select(which, [taut_f, LIMP * d * slack_f, m * f + LIMP * c * slack_e * s], LIMP * taut_f),
        ]
        self.shear = (across * along).sum(axis=1)
        self.energy = float((membrane.areas * (density + self._shear_stiffness * self.shear**2 / 2)).sum())
        sheared = (membrane.areas * self._shear_stiffness * self.shear)[:, None]
        self.forces = [
            (membrane.areas * self.pull[k])[:, None] * self._ways[k] + sheared * self.units[1 - k] for k in range(2)
        ]
        self._stiff = (
            np.select(which, [c, k + LIMP * both * r, LIMP * c], LIMP * c),
            np.where(taut, both, LIMP * both),
            np.select(which, [d, LIMP * d, m + LIMP * both * s], LIMP * d),
        )

    def second(self) -> tuple[Floats, Floats, Floats]:
        """The second derivative by the units `(t, 3, 3)`: across twice, across and along, along twice; never negative.

        What pressed cloth would take off is left out, so that each step goes downhill.
        """
        (u, v), (p, q) = self._ways, self.units
        bent = [np.maximum(pull, 0.0) / long for pull, long in zip(self.pull, self._long, strict=True)]
        shear = self._shear_stiffness[:, None, None]
        one, between, other = self._stiff
        across = _outer(u, u) * (one - bent[0])[:, None, None] + shear * _outer(q, q)
        along = _outer(v, v) * (other - bent[1])[:, None, None] + shear * _outer(p, p)
        for found, pull in ((across, bent[0]), (along, bent[1])):
            found[:, range(3), range(3)] += pull[:, None]
        return across, _outer(u, v) * between[:, None, None] + shear * _outer(q, p), along


def _weighed(by: Floats, corners: Floats) -> Floats:
    return np.asarray(by[:, 0, None] * corners[:, 0] + by[:, 1, None] * corners[:, 1] + by[:, 2, None] * corners[:, 2])


def _long(ways: Floats) -> Floats:
    return np.asarray(np.sqrt((ways * ways).sum(axis=1)))


def _outer(one: Floats, other: Floats) -> Floats:
    return np.asarray(one[:, :, None] * other[:, None, :])


def slopes_at_rest(corners: Floats, across: Floats) -> tuple[Floats, Floats]:
    """The slopes `(t, 3, 2)` and areas `(t,)` of triangles `(t, 3, 2)` at rest; greatest stretch along `(t, 2)`."""
    along = np.stack([-across[:, 1], across[:, 0]], axis=1)
    first, second = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    turned = [np.stack([(way * axis).sum(axis=1) for axis in (across, along)], axis=1) for way in (first, second)]
    double = turned[0][:, 0] * turned[1][:, 1] - turned[0][:, 1] * turned[1][:, 0]
    slopes = np.empty((len(corners), 3, 2))
    slopes[:, 1] = np.stack([turned[1][:, 1], -turned[1][:, 0]], axis=1) / double[:, None]
    slopes[:, 2] = np.stack([-turned[0][:, 1], turned[0][:, 0]], axis=1) / double[:, None]
    slopes[:, 0] = -slopes[:, 1] - slopes[:, 2]
    return slopes, np.abs(double) / 2
