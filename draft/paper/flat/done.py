"""How far a garment is sewn: what a view of it shows, and what it does not show yet."""

from __future__ import annotations

from draft.base.record import dataclass


@dataclass(frozen=True)
class Done:
    """What is sewn, by names: joins, zips in them, hems as piece and edge, patches; all of it if `everything`."""

    everything: bool = False
    joins: frozenset[str] = frozenset()
    openings: frozenset[str] = frozenset()
    hems: frozenset[tuple[str, str]] = frozenset()
    patches: frozenset[str] = frozenset()

    def join(self, name: str) -> bool:
        """Whether a join is sewn."""
        return self.everything or name in self.joins

    def opening(self, join: str) -> bool:
        """Whether what is left open of a join is finished."""
        return self.everything or join in self.openings

    def hem(self, piece: str, edge: str) -> bool:
        """Whether an edge is turned up."""
        return self.everything or (piece, edge) in self.hems

    def patch(self, name: str) -> bool:
        """Whether a piece is stitched onto its line."""
        return self.everything or name in self.patches


ALL = Done(everything=True)
"""The finished garment."""
