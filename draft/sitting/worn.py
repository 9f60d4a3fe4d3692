"""A garment on a form as it is looked at: both surfaces, how the cloth is stretched, where it stands off and pulls."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass
from draft.form.field import Field


@dataclass(frozen=True, eq=False)
class Worn:
    """Both halves, mm from the nape: the garment's points `(v, 3)` and triangles `(t, 3)`, with figures of each point.

    `stretched` `(v,)` is by which share the cloth is longer than at rest along its greatest stretch; `off` `(v,)` how
    far it stands off the form, mm; `doubtful` `(v,)` is 1 where neither is to be trusted, else 0.
    """

    points: Floats
    triangles: Ints
    stretched: Floats
    off: Floats
    doubtful: Floats
    drags: Floats
    """Strokes along which it pulls, `(k, 2, 3)`."""
    seams: tuple[Floats, ...]
    edges: tuple[Floats, ...]
    """Hems and other finished edges, lines `(n, 3)` as are seams."""
    skin: Floats
    skin_triangles: Ints
    bare: Floats
    """The form's surface without arms, as it is seen from the side; `skin` has them."""
    bare_triangles: Ints
    trunk: Field
    """The form without arms, which knows how these are held: what is round them would hide the rest from the side."""
    levels: Mapping[str, float] = field(default_factory=dict)
    """Heights of the form's levels by name, mm from the nape."""
    hem: Mapping[str, float] = field(default_factory=dict)
    """Heights of the hem at `front`, `side` and `back`, mm from the nape."""
    right: Field | None = None
    """The form without arms of the body's right, where that differs."""
    apart: bool = False
    """Whether left and right differ, so that both are looked at from the side."""

    @property
    def from_waist(self) -> bool:
        """Whether it hangs from the waist, so that nothing of arms is to be seen."""
        if not len(self.points):
            return False
        return bool(self.points[:, 2].max() < (self.levels["waist"] + self.levels["shoulder"]) / 2)


def mirrored(points: Floats, triangles: Ints) -> tuple[Floats, Ints]:
    """A left half with its mirror image: points `(2 n, 3)` and triangles `(2 m, 3)`."""
    other = triangles[:, ::-1] + len(points)
    return np.concatenate([points, points * [-1.0, 1.0, 1.0]]), np.concatenate([triangles, other])
