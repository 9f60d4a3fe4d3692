"""Several unknowns that several relations settle together.

Levenberg's and Marquardt's method (K. Levenberg 1944, D. W. Marquardt 1963) on numerical slopes, for all bodies side by
side: steps that fall short of the range's ends, small where the slopes are poor. Of many answers it gives the one near
to where the unknowns are wanted.
"""

from __future__ import annotations

from copy import copy

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.notes import Span
from draft.plan.plan import Solve, Trace
from draft.solve.margins import Ranges, some, try_values
from draft.solve.outcome import MET

STEPS = 80  # well-posed blocks take under ten
NUDGE = 1e-6  # of an unknown's range, for the slopes
STARTS = (None, 0.5, 0.1, 0.9)  # None is where the unknowns are wanted; shares of the range where that leads nowhere
FAILED = 1e6  # the miss, in tolerances, of a body for which a step failed: worse than any drawing
ARRIVED = 1e-3  # of a tolerance
STUCK = 1e-9  # of an unknown's range: a step that small changes no line
RANK = 1e-7  # slopes smaller than this share of the largest count as none


def solve_together(
    block: Solve, trace: Trace, ranges: dict[str, Ranges], remarks: list[tuple[Span, str]]
) -> dict[str, Floats]:
    """The unknowns' values `(B,)`; added to the remarks: relations that say nothing new, unknowns that nothing settles.

    Where the relations cannot be met it gives the values that come nearest to it.
    """
    misses = _Misses(block, trace, ranges)
    best = misses.wanted.copy()
    miss = misses(best)
    for start in STARTS:
        open_ = np.flatnonzero(_size(miss) > 1.0)
        if not open_.size:
            break
        few = misses.of(open_)
        found = _descend(few, few.wanted if start is None else np.full_like(few.wanted, start))
        reached = few(found)
        better = _size(reached) < _size(miss[:, open_])
        best[:, open_], miss[:, open_] = (
            np.where(better, now, before[:, open_]) for now, before in ((found, best), (reached, miss))
        )
    _remark(block, misses, best, miss, remarks)
    return misses.values(best)


class _Misses:
    """By how many tolerances each relation is missed, `(M, B)`, for unknowns as shares of their ranges, `(N, B)`."""

    def __init__(self, block: Solve, trace: Trace, ranges: dict[str, Ranges]) -> None:
        self.block = block
        self.trace = trace
        self.names = [unknown.name for unknown in block.unknowns]
        self.low = np.stack([ranges[name][0] for name in self.names])
        self.width = np.stack([ranges[name][1] - ranges[name][0] for name in self.names])
        nearest = np.stack([ranges[name][2] for name in self.names])
        self.wanted = (nearest - self.low) / np.where(self.width > 0, self.width, 1.0)

    def of(self, rows: Ints) -> _Misses:
        """The same for only some of the bodies, by their numbers."""
        few = copy(self)
        few.trace = some(self.trace, rows)
        few.low, few.width, few.wanted = (values[:, rows] for values in (self.low, self.width, self.wanted))
        return few

    def values(self, shares: Floats) -> dict[str, Floats]:
        return dict(zip(self.names, self.low + shares * self.width, strict=True))

    def __call__(self, shares: Floats) -> Floats:
        return np.asarray(self.several(shares[None])[0])

    def several(self, shares: Floats) -> Floats:
        """Misses `(K, M, B)` for `(K, N, B)` shares, in one evaluation."""
        copies, bodies = len(shares), shares.shape[-1]
        values = self.low + shares * self.width
        at = {name: values[:, n].reshape(-1) for n, name in enumerate(self.names)}
        standings, failed = try_values(self.block, self.trace, at, copies)
        rows = []
        for standing in standings:
            gap = (standing.left - standing.right) / MET[standing.relation.left.kind]
            short = {"equals": gap, "at least": np.minimum(gap, 0.0), "at most": np.maximum(gap, 0.0)}
            rows.append(np.where(failed, FAILED, short[standing.relation.sort]))
        return np.stack(rows).reshape(-1, copies, bodies).swapaxes(0, 1)

    def slopes(self, shares: Floats) -> Floats:
        """The slopes `(B, M, N)` of the misses, each unknown nudged towards the middle of its range."""
        nudges = np.where(shares > 0.5, -NUDGE, NUDGE)
        tried = shares + np.eye(len(self.names))[:, :, None] * nudges
        misses = self.several(np.concatenate([shares[None], tried]))
        return np.moveaxis((misses[1:] - misses[0]) / nudges[:, None], (2, 1, 0), (0, 1, 2))


def _size(miss: Floats) -> Floats:
    """The worst miss of each body, in tolerances."""
    return np.asarray(np.max(np.abs(miss), axis=0))


def _descend(misses: _Misses, shares: Floats) -> Floats:
    """From a start `(N, B)` to where no step lessens the misses any more.

    A body that has arrived or is stuck stays, so that it comes out the same whatever its neighbours still need; only
    the others are looked at again.
    """
    arrived = shares.copy()
    miss, rows = misses(shares), np.arange(shares.shape[1])
    damping, stuck = np.full(len(rows), 1e-3), np.zeros(len(rows), dtype=bool)
    for _ in range(STEPS):
        going = ~(stuck | (_size(miss) < ARRIVED))
        arrived[:, rows[~going]] = shares[:, ~going]
        if not going.all():
            misses, rows, damping, stuck = misses.of(np.flatnonzero(going)), rows[going], damping[going], stuck[going]
            shares, miss = shares[:, going], miss[:, going]
        if not len(rows):
            break
        tried = np.clip(shares + _step(misses.slopes(shares), miss, damping), 0.0, 1.0)
        stuck = np.all(np.abs(tried - shares) < STUCK, axis=0)
        reached = misses(tried)
        better = (np.sum(reached**2, axis=0) < np.sum(miss**2, axis=0)) & ~stuck
        shares, miss = np.where(better, tried, shares), np.where(better, reached, miss)
        damping = np.clip(np.where(better, damping / 5, damping * 4), 1e-12, 1e12)
    arrived[:, rows] = shares
    return arrived


def _step(slopes: Floats, miss: Floats, damping: Floats) -> Floats:
    """The damped step `(N, B)` by slopes `(B, M, N)` that lessens misses `(M, B)`; damping `(B,)`."""
    normal = np.swapaxes(slopes, 1, 2) @ slopes
    scale = np.einsum("bnn->bn", normal) + 1e-12 * (1.0 + np.max(normal, axis=(1, 2)))[:, None]
    damped = normal + damping[:, None, None] * np.eye(normal.shape[1]) * scale[:, None, :]
    downhill = -np.einsum("bmn,mb->bn", slopes, miss)
    return np.asarray(np.linalg.solve(damped, downhill[..., None])[..., 0].T)


def _remark(block: Solve, misses: _Misses, shares: Floats, miss: Floats, remarks: list[tuple[Span, str]]) -> None:
    """Where everything is met: relations that the others imply, and unknowns that could lie anywhere."""
    met = _size(miss) <= 1.0
    if not met.any():
        return
    equal = [k for k, relation in enumerate(block.relations) if relation.sort == "equals"]
    slopes = misses.slopes(shares)[met][:, equal]
    largest = np.max(np.abs(slopes), axis=(1, 2), keepdims=True)
    scaled = slopes / np.where(largest > 0, largest, 1.0)
    if len(equal) > 1 and np.all(np.linalg.matrix_rank(scaled, tol=RANK) < len(equal)):
        last = block.relations[equal[-1]]
        remarks.append((last.span, "this relation says nothing that the others of its block do not say"))
    for n, unknown in enumerate(block.unknowns):
        if np.all(np.abs(scaled[:, :, n]) < RANK) and len(equal) == len(block.relations):
            remarks.append((unknown.span, f"nothing settles `{unknown.name}`: it stays where it is wanted"))
