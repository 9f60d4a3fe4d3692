"""How the arms are held: so far below level, elbows bent so far, and how the shoulder follows an arm that is raised."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.form.dress_form import Form
from draft.form.tubes import ARM

LOWEST, HIGHEST = np.radians(85.0), np.radians(-80.0)
"""Below level: hanging, and as high as an arm is reached up."""
_FOLLOWS_FROM = np.radians(45.0)
"""Below level: up to here the shoulder stays where it was measured."""
_RISE, _INWARD = 55.0, 22.0
"""mm by which the joint has come up and in when the arm points straight up (from memory: the collar bone turns up by
some 20 degrees)."""
_ELBOW = ARM[2]


@dataclass(frozen=True, eq=False)
class Arm:
    """One arm of the left as it is held: its middles `(places, 3)`, z from the nape, and the radii there `(places,)`.

    `rise` is by how much the shoulder has followed it up, mm.
    """

    middles: Floats
    radii: Floats
    rise: float

    @property
    def joint(self) -> Floats:
        """Where it is hinged `(3,)`."""
        return np.asarray(self.middles[0])


def arm_of(form: Form, body: int, below_level: float, elbow: float = 0.0) -> Arm:
    """One body's arm at an angle below level, negative above; its forearm turned so far forward, both in radians."""
    if not HIGHEST - 1e-9 <= below_level <= np.pi / 2 + 1e-9:
        raise ValueError("an arm hangs by at most 90 degrees below level and is raised to at most 80 above it")
    lifted = max(_FOLLOWS_FROM - below_level, 0.0) / (_FOLLOWS_FROM + np.pi / 2)
    joint = form.arm.start[body] - np.array([0.0, 0.0, form.heights.nape[body]])
    joint = joint + lifted**1.5 * np.array([-_INWARD, 0.0, _RISE])
    way = np.array([np.cos(below_level), 0.0, -np.sin(below_level)])
    fore = np.cos(elbow) * way + np.sin(elbow) * np.array([0.0, -1.0, 0.0])
    along = form.arm.along[body]
    bend = along[-1] * _ELBOW
    middles = joint + np.minimum(along, bend)[:, None] * way + np.maximum(along - bend, 0.0)[:, None] * fore
    return Arm(middles, form.arm.radii[body], float(lifted**1.5 * _RISE))
