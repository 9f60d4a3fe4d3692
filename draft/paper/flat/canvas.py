"""One view of the finished garment while it is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.paper.drawing.drawing import Stroke
from draft.paper.flat.similar import MIRROR


@dataclass
class Canvas:
    """One view while it is drawn, in mm of the cloth with y up: what lies lowest comes first."""

    items: list[tuple[str, list[Floats], Stroke | None]] = field(default_factory=list)
    edges: dict[tuple[str, str], list[Floats]] = field(default_factory=dict)
    """Where each edge of each piece came to lie, by the names of both."""
    hangs: float = 0.0
    """How far the ends of ties hang below the garment, mm: views stand at one height without them."""

    def fill(self, ring: Floats, colour: str) -> None:
        """What a closed path `(n, 4, 2)` encloses, in a colour."""
        self.items.append((colour, [ring], None))

    def line(self, runs: Iterable[Floats], stroke: Stroke) -> None:
        """Paths `(n, 4, 2)` drawn with one stroke."""
        self.items.append(("", list(runs), stroke))

    def edge(self, piece: str, edge: str, run: Floats, mirrored: bool = True) -> None:
        """Remember where an edge lies, as a path `(n, 4, 2)`."""
        runs = [run, MIRROR.points(run)] if mirrored else [run]
        self.edges.setdefault((piece, edge), []).extend(runs)

    def lead_back(self, origins: Mapping[tuple[str, str], tuple[str, str]]) -> None:
        """Call edges as they were drafted that lie here on a piece which was put together."""
        self.edges = {origins.get(key, key): runs for key, runs in self.edges.items()}

    def both(self, runs: Iterable[Floats], stroke: Stroke) -> None:
        """Paths `(n, 4, 2)` and their mirror images."""
        kept = list(runs)
        self.line([*kept, *(MIRROR.points(run) for run in kept)], stroke)

    def box(self) -> Floats:
        """Lowest and highest corner `(2, 2)` of everything, handles included. Raises ValueError if there is nothing."""
        points = np.concatenate([run.reshape(-1, 2) for _, runs, _ in self.items for run in runs])
        return np.stack([points.min(axis=0), points.max(axis=0)])
