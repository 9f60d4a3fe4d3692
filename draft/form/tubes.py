"""Arms and legs: round tubes along a line, as thick as the tape reads at the places where it was laid."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.form.measured import Measured
from draft.form.stature_levels import Heights

ARM = np.array([0.0, 0.28, 0.58, 1.0])
"""Where along the arm its girths lie: the joint, the thickest of the upper arm, the elbow, the wrist."""
_ROUND = 2 * np.pi
_ANKLE = 80.0  # mm above the floor
_CALF = 0.72  # of the knee's height
_UNDER_CROTCH = 20.0


@dataclass(frozen=True)
class Tube:
    """One limb of the body's left: its first point `(bodies, 3)`, places along it and their radii `(bodies, places)`.

    x to the side, y to the back, z up, mm. `across` and `back` are how far the places lie beside and behind the first.
    """

    start: Floats
    along: Floats
    radii: Floats
    across: Floats
    back: Floats

    def girths(self) -> Floats:
        """What the tape reads at the places, mm `(bodies, places)`."""
        return np.asarray(_ROUND * self.radii)

    def placed(self, body: int, down: float = np.pi / 2) -> Floats:
        """The middles `(places, 3)` for one body, the limb held so far below level."""
        along = self.along[body]
        way = np.stack([along * np.cos(down), np.zeros_like(along), -along * np.sin(down)], axis=1)
        way[:, 0] += self.across[body]
        way[:, 1] += self.back[body]
        return np.asarray(self.start[body] + way)


def arms(m: Measured, joint_x: Floats, joint_y: Floats, heights: Heights) -> Tube:
    """The arm from a joint `(bodies,)` under the shoulder's line, or under where that runs on to; straight."""
    upper = m["upper_arm_girth"] / _ROUND
    beyond = np.maximum(joint_x - heights.tip, 0.0) * np.tan(m["shoulder_slope"])
    joint = np.stack([joint_x, joint_y, heights.of("shoulder") - beyond - 0.98 * upper], axis=1)
    long = np.maximum(m["outer_arm_length"] - 0.98 * upper, 200.0)
    radii = np.stack([upper, upper, m["elbow_girth"] / _ROUND, m["wrist_girth"] / _ROUND], axis=1)
    level = np.zeros_like(radii)
    return Tube(joint, long[:, None] * ARM, radii, level, level)


def legs(m: Measured, beside: Floats, middle: Floats, heights: Heights) -> Tube:
    """The leg from the crotch down to the ankle, the feet a little apart.

    The crotch's ring reaches so far to the side, and its middle lies so far back, mm `(bodies,)` each. Thighs press one
    another flat; a round one is set against that ring from within.
    """
    names = ("thigh_girth", "knee_girth", "calf_girth", "ankle_girth")
    radii = np.stack([m[name] / _ROUND for name in names], axis=1)
    top, knee = heights.of("crotch") - _UNDER_CROTCH, m["knee_height"]
    levels = np.stack([top, knee, knee * _CALF, np.full(len(m), _ANKLE)], axis=1)
    inner = beside[:, None] - radii[:, :1]
    beside = inner * (1.0 - np.array([0.0, 0.16, 0.20, 0.26]))
    start = np.stack([beside[:, 0], middle, top], axis=1)
    back = np.broadcast_to(np.array([0.0, 6.0, 18.0, 18.0]), radii.shape)
    return Tube(start, np.maximum(top[:, None] - levels, 0.0), radii, beside - beside[:, :1], back)
