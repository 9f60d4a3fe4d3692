"""What comes of dressing: the cloth in each of its states on a form, or the reason why nothing may be said."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, Protocol, TypeAlias

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.toile.sewn import Sewn
from draft.toile.why_not import Why

State: TypeAlias = Literal["down", "ride", "held"]
"""Pulled down: the middle of the back neck held at the nape, the hem where it would hang. Let ride: the hem let go.
Held: as pulled down and then let go, with friction, which bounds how far it rides."""


class FormField(Protocol):
    """A form as signed distances: mm, negative inside, z up from the nape."""

    @property
    def joint(self) -> Floats:
        """The joint of the left shoulder `(3,)`."""
        ...

    def at(self, points: Floats) -> tuple[Floats, Floats]:
        """Distances `(n,)` and their gradients `(n, 3)` at points `(n, 3)`."""
        ...


@dataclass(frozen=True, eq=False)
class Settled:
    """One state of the toile: a place `(v, 3)` for each vertex of the sewn mesh that moves, and what the cloth does."""

    positions: Floats
    across: Floats
    """Strain along the greatest stretch of each triangle `(t,)`: 0.05 is 5 %; negative where it is slack."""
    along: Floats
    """Strain along the grain `(t,)`."""
    stands_off: Floats
    """How far each vertex is from the form, mm `(v,)`; negative inside."""
    penetration: float
    """How far the deepest vertex is inside the form, mm."""
    last_step: float
    """How far the last step of the solver moved any vertex, mm."""
    pull: Floats
    """Unit vectors `(t, 3)` along the greatest tension, and `tension` in N/mm `(t,)`; no tension where it is slack."""
    tension: Floats
    settled: bool
    pinched: Bools
    """Vertices `(v,)` that the form presses from two sides, as between arm and body: nothing is to be trusted there."""


@dataclass(frozen=True, eq=False)
class Dressed:
    """A garment on a form: its states, and where the hem lies."""

    sewn: Sewn
    states: Mapping[State, Settled]
    hem: Mapping[State, Mapping[str, float]]
    """Heights above the nape of the hem in the middle of the front, at the side, and in the middle of the back, mm."""
    level_hem: Mapping[str, float]
    """The same where it would hang if nothing were tight."""
    cautions: tuple[Why, ...] = ()


@dataclass(frozen=True, eq=False)
class Refused:
    """A garment that was not dressed, or not so that it may be shown: the reason."""

    reason: Why
    sewn: Sewn | None = None
    penetration: float = 0.0
