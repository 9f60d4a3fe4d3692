"""What came out of an evaluation: values, what the solver chose, what failed and where."""

from __future__ import annotations

from dataclasses import field

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.bodies.bodies import Bodies
from draft.plan.plan import Relation, Trace

MET = {Kind.LENGTH: 1e-3, Kind.ANGLE: 1e-6, Kind.NUMBER: 1e-6}  # a relation is met within 1 micrometre or its like


@dataclass(frozen=True)
class Standing:
    """How a relation stands for each body: its two sides, by how much it is met (less than nothing: unmet)."""

    relation: Relation
    left: Floats
    right: Floats
    margin: Floats
    lost: Bools
    """Where its sides mean nothing, because something that they need failed: that is told, and this is not."""

    @property
    def met(self) -> Bools:
        """For which bodies `(B,)` the relation holds, or cannot be asked about."""
        return self.lost | (self.margin >= -MET[self.relation.left.kind])


@dataclass(frozen=True)
class Outcome:
    """Everything found for a list of bodies: values by full name, what the blocks chose, what failed and where."""

    bodies: Bodies
    trace: Trace
    chosen: dict[str, Floats]
    standings: tuple[Standing, ...] = ()
    promises: tuple[Standing, ...] = ()
    remarks: tuple[tuple[Span, str], ...] = field(default=())
    """What a designer may want to know though everything was met: a relation that says nothing new, say."""

    @property
    def drafted(self) -> Bools:
        """For which bodies `(B,)` every step succeeded and every wanted relation is met."""
        good = np.ones(len(self.bodies), dtype=bool)
        for _, _, mask in self.trace.failures:
            good &= ~mask
        for standing in self.standings:
            good &= standing.met
        return good
