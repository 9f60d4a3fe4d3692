"""The form in the cloth's way: pushed out along the distance's gradient, held back by friction where that is asked."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.toile.dressed import FormField

STIFFNESS = 5e-3
"""N/mm3: a knit of 10 % strain sinks 0.03 mm into a body's curve; ten times less or more moves strain by 0.001."""
OUTSIDE = 0.5
"""mm from the form at which the middle of the cloth lies."""
_RAMP = 0.25
"""mm to either side of that place over which the form grows to be as stiff as it is: what touches at one step, and does
not at the next, comes to rest in twice the steps."""
_IN = 0.11
"""mm by which all of that lies further in: cloth that is stretched by 10 % lies where a plain spring would have it."""
_CREEP = 0.5
"""mm within which friction grows to its full: less than this is taken for rest."""


@dataclass(frozen=True, eq=False)
class Flattened:
    """A form pressed flat onto the plane y = `middle` by a `scale`, for the cloth to be laid round before it grows."""

    field: FormField
    scale: float
    middle: float = 0.0

    @property
    def joint(self) -> Floats:
        """The shoulder's joint `(3,)`, flattened too."""
        return self.pressed(self.field.joint)

    def pressed(self, points: Floats) -> Floats:
        """Where places `(..., 3)` of the form come to lie."""
        off = np.array([0.0, self.middle, 0.0])
        return np.asarray((points - off) * np.array([1.0, self.scale, 1.0]) + off)

    def at(self, points: Floats) -> tuple[Floats, Floats]:
        """Distances `(n,)` in the flattened space and their gradients `(n, 3)` at points `(n, 3)`."""
        off = np.array([0.0, self.middle, 0.0])
        values, gradients = self.field.at((points - off) / np.array([1.0, self.scale, 1.0]) + off)
        gradients = gradients / np.array([1.0, self.scale, 1.0])
        steep = np.maximum(np.sqrt((gradients * gradients).sum(axis=1)), 1.0)
        return values / steep, gradients / steep[:, None]


@dataclass(frozen=True, eq=False)
class Friction:
    """Friction by a coefficient against sliding from `anchor` `(v, 3)`, under loads `(v,)` in N taken as known."""

    coefficient: float
    anchor: Floats
    loads: Floats


@dataclass(frozen=True, eq=False)
class Touch:
    """The form felt at positions `(v, 3)`: energy, gradient `(v, 3)`, blocks `(v, 3, 3)`, and `depth`
    `(v,)`: mm as deep as a spring would be that presses so."""

    energy: float
    gradient: Floats
    blocks: Floats
    depth: Floats


def touch(
    x: Floats, areas: Floats, field: FormField, stiffness: float, outside: float, friction: Friction | None
) -> Touch:
    """What a form does to vertices at positions `(v, 3)` to which areas `(v,)` mm2 fall; a spring for each mm2."""
    values, normals = field.at(x)
    sunk = outside - _IN - values
    ramp = np.clip(sunk + _RAMP, 0.0, 2 * _RAMP)
    past = np.maximum(sunk - _RAMP, 0.0)
    depth = ramp * ramp / (4 * _RAMP) + past
    stiff = stiffness * areas
    energy = float((stiff * (ramp**3 / (12 * _RAMP) + past * (_RAMP + past / 2))).sum())
    gradient = -(stiff * depth)[:, None] * normals
    blocks = (
        (stiff * np.where(past > 0, 1.0, ramp / (2 * _RAMP)))[:, None, None] * normals[:, :, None] * normals[:, None, :]
    )
    if friction is not None:
        energy += _rub(x, normals, friction, gradient, blocks)
    return Touch(energy, gradient, blocks, depth)


def _rub(x: Floats, normals: Floats, friction: Friction, gradient: Floats, blocks: Floats) -> float:
    """Adds friction to the gradient and blocks in place; gives its energy."""
    unit = normals / np.maximum(np.sqrt((normals * normals).sum(axis=1)), 1e-9)[:, None]
    way = x - friction.anchor
    slid = way - (way * unit).sum(axis=1)[:, None] * unit
    far = np.sqrt((slid * slid).sum(axis=1))
    most = friction.coefficient * friction.loads
    rests = far < _CREEP
    per_mm = most / np.where(rests, _CREEP, np.maximum(far, 1e-9))
    gradient += per_mm[:, None] * slid
    blocks += per_mm[:, None, None] * (np.eye(3) - unit[:, :, None] * unit[:, None, :])
    return float(np.where(rests, per_mm * far * far / 2, most * (far - _CREEP / 2)).sum())
