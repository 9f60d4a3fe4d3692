"""A sewn mesh as cloth that can be asked for its energy: what it weighs, how it stretches, how it bends."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.toile.block_matrix import BlockPattern, pattern_of
from draft.toile.curvature_energy import bending_of
from draft.toile.membrane import Membrane, slopes_at_rest, stiffness_of
from draft.toile.sewn import Sewn
from draft.toile.summing import summed

WEIGHT = 2e-7
"""kg/mm2: of a jersey of 200 g/m2, in the middle of what is sold for tops (common practice)."""
BENDING = 2e-3
"""N mm: of a jersey that bends by 20 to 30 mm under its own weight (from memory, of cantilever tests of jerseys)."""
GRAVITY = 9.81


@dataclass(frozen=True, eq=False)
class SewnCloth:
    """The vertices that move: the area `(v,)` mm2 and weight `(v,)` N that falls to each, and the energies.

    `held` `(v, 3)` are the coordinates that do not move: across the plane between left and right.
    """

    membrane: Membrane
    pattern: BlockPattern
    areas: Floats
    weights: Floats
    held: Bools
    mirrored: bool
    """Whether another half lies beyond the plane between left and right, and is in the way there."""

    @property
    def count(self) -> int:
        """How many vertices there are."""
        return len(self.areas)

    def bent_by(self, times: float) -> SewnCloth:
        """The same cloth, so many times as stiff against bending."""
        pattern = self.pattern
        return replace(self, pattern=replace(pattern, bent=times * pattern.bent, bent_own=times * pattern.bent_own))


def cloth_of(sewn: Sewn, stretch: tuple[float, float], weight: float = WEIGHT, bending: float = BENDING) -> SewnCloth:
    """The cloth of a hand test: by how much it stretches across and along its length, as shares of its own length.

    Doubled cloth is twice as stiff in its plane, twice as heavy, and bends as two sheets that slide.
    """
    return cloth_with(sewn, stiffness_of(*stretch), weight, bending)


def cloth_with(sewn: Sewn, stiffness: Floats, weight: float, bending: float) -> SewnCloth:
    """The cloth of stiffnesses `(4,)` in N/mm as `stiffness_of` gives them, in kg/mm2 and N mm."""
    triangles = sewn.merged[sewn.triangles]
    corners = sewn.rest[sewn.triangles]
    slopes, areas = slopes_at_rest(corners, sewn.across)
    membrane = Membrane(triangles, slopes, areas, stiffness * sewn.layers[:, None])
    bent = bending_of(corners, triangles, sewn.count, bending * sewn.layers)
    held = np.zeros((sewn.count, 3), dtype=bool)
    if sewn.halved:
        held[sewn.merged[sewn.on_middle], 0] = True
    third = np.repeat(areas / 3, 3)
    weighs = np.repeat(areas * sewn.layers * weight * GRAVITY / 3, 3)
    flat = triangles.ravel()
    return SewnCloth(
        membrane,
        pattern_of(triangles, bent, sewn.count),
        summed(flat, third, sewn.count),
        summed(flat, weighs, sewn.count),
        held,
        sewn.halved,
    )
