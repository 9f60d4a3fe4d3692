"""What a search may cost, counted in what it tries and not in seconds: the same on every machine."""

from __future__ import annotations

from draft.base.record import dataclass


@dataclass
class Budget:
    """So much is `left` to be spent."""

    left: float

    @property
    def spent(self) -> bool:
        """Whether nothing is left: then the search ends with what it has found."""
        return self.left <= 0

    def spend(self, cost: float) -> None:
        """Take a cost off what is left."""
        self.left -= cost
