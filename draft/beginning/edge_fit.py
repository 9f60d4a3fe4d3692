"""The runs of an outline as edges of a piece: corners rounded as they are written, and legs that run through points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.beginning.corners import Part, Run, parts_of
from draft.beginning.curve_fit import Asked, Fit, Line, fitted_curve, line_of
from draft.geometry.cubic import norm


@dataclass(frozen=True)
class Rounding:
    """In what steps points (mm) and angles (rad) are written, and how near curves are kept (mm) for that."""

    step: float
    turn: float
    limit: float

    def of(self, points: Floats) -> Floats:
        """Points `(..., 2)` as they are written."""
        return np.asarray(np.round(points / self.step) * self.step)


LADDER = (
    Rounding(0.1, np.radians(0.5), 0.08),
    Rounding(0.1, np.radians(0.1), 0.07),
    Rounding(0.02, np.radians(0.1), 0.06),
    Rounding(0.01, np.radians(0.05), 0.04),
)
"""The coarsest first: what keeps within the tolerance is written."""
_INCH = 0.508
"""Steps are so much finer in inches: 2 thousandths of one in the place of a tenth of a mm."""


def ladder(inches: bool) -> tuple[Rounding, ...]:
    """How lengths are rounded, the coarsest first."""
    return tuple(replace(one, step=_INCH * one.step) for one in LADDER) if inches else LADDER


@dataclass(frozen=True)
class Leg:
    """One leg of an edge, to a point `(2,)`: straight, or a curve by its fit; whether it says its ways at the ends."""

    end: Floats
    fit: Fit | None = None
    leaves: bool = False
    arrives: bool = False


@dataclass(frozen=True)
class FittedEdge:
    """An edge from a corner `(2,)` on: its legs, the line that it keeps by `(S, 4, 2)`, and what it calls itself."""

    start: Floats
    legs: tuple[Leg, ...]
    meant: Floats
    name: str

    @property
    def straight(self) -> bool:
        """Whether it is one straight line."""
        return len(self.legs) == 1 and self.legs[0].fit is None

    @property
    def curves(self) -> int:
        """How many curves it is drawn in, from named point to named point."""
        return sum(1 + len(leg.fit.points) for leg in self.legs if leg.fit)


def fitted_edges(runs: Sequence[Run], rounding: Rounding) -> list[FittedEdge]:
    """The edges of a closed outline, in order."""
    corners = [rounding.of(run.path[0, 0]) for run in runs]
    return [_edge(run, corners[k], corners[(k + 1) % len(runs)], rounding) for k, run in enumerate(runs)]


def _edge(run: Run, start: Floats, end: Floats, rounding: Rounding) -> FittedEdge:
    parts = parts_of(run)
    meant = run.path if run.straight else np.concatenate([part.path for part in parts])
    if run.straight:
        return FittedEdge(start, (Leg(end),), meant, run.name)
    ends = [start, *(rounding.of(part.path[-1, 3]) for part in parts[:-1]), end]
    legs = [_leg(parts, ends, k, rounding) for k in range(len(parts))]
    return FittedEdge(start, tuple(legs), meant, run.name)


def _leg(parts: Sequence[Part], ends: Sequence[Floats], k: int, rounding: Rounding) -> Leg:
    if parts[k].straight:
        return Leg(ends[k + 1])
    line = line_of(parts[k].path)
    before = _way(ends[k - 1], ends[k]) if k else None
    after = _way(ends[k + 1], ends[k + 2]) if k + 2 < len(ends) else None
    first, last = (_angle(line, at) if way is None else way for at, way in ((0, before), (-1, after)))
    free = (before is None, after is None)
    straight = (not free[0], not free[1])
    asked = Asked(line, np.stack(ends[k : k + 2]), (first, last), free, rounding.step, rounding.turn, straight)
    return Leg(ends[k + 1], fitted_curve(asked, rounding.limit), *free)


def _way(start: Floats, end: Floats) -> float:
    return float(np.arctan2(*(end - start)[::-1]))


def _angle(line: Line, at: int) -> float:
    return float(np.arctan2(line.along[at, 1], line.along[at, 0]))


def size(edge: FittedEdge) -> float:
    """How long an edge is meant to be, mm."""
    return float(norm(np.diff(edge.meant, axis=1)).sum())
