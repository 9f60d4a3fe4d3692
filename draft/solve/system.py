"""Several unknowns that several relations settle together.

Levenberg's and Marquardt's method (K. Levenberg 1944, D. W. Marquardt 1963) on numerical slopes, for all bodies side by
side: steps that fall short of the range's ends, small where the slopes are poor. Of many answers it gives the one
nearest to where the unknowns are wanted, each counted by the share of its range (`sliding.py`).
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.notes import Span
from draft.plan.plan import Solve, Trace
from draft.solve.margins import Ranges, Some, try_values
from draft.solve.outcome import MET
from draft.solve.sliding import nearest_by_tangents

STEPS = 80  # well-posed blocks take under ten
NUDGE = 1e-6  # of an unknown's range, for the slopes
STARTS = (0.5, 0.1, 0.9)  # shares of the range, where beginning at what is wanted leads nowhere
FAILED = 1e6  # the miss, in tolerances, of a body for which a step failed: worse than any drawing
ARRIVED = 1e-3  # of a tolerance
STUCK = 1e-9  # of an unknown's range: a step that small changes no line
HAIR = 0.99  # a step that leaves more of the squares of the misses than this gets on by a hair
PATIENCE = 6  # steps by hairs one after another: what is met at all is met by leaps
LOOKED_AT = 64  # bodies whose slopes are looked at for what may be remarked of a block
SLIDES = 30  # towards what is wanted; mostly it is two or three
NEARER = 1e-7  # of an unknown's range: what can come nearer by a step that small is as near as can be
SHORTER = 1 / 16  # of a slide: where even that little leads away, the relations lie at a corner
RANK = 1e-7  # slopes smaller than this share of the largest count as none


def solve_together(
    block: Solve, trace: Trace, ranges: dict[str, Ranges], remarks: list[tuple[Span, str]]
) -> dict[str, Floats]:
    """The unknowns' values `(B,)`; added to the remarks: relations that say nothing new, unknowns that nothing settles.

    Where the relations cannot be met it gives the values that come nearest to it.
    """
    misses = _Misses(block, trace, ranges)
    everyone = np.arange(trace.count)
    best, miss = _descend(misses, misses.wanted, everyone)
    open_ = np.flatnonzero(_size(miss) > 1.0)
    if open_.size:
        best[:, open_], miss[:, open_] = _from_elsewhere(misses, best[:, open_], miss[:, open_], open_)
    best, miss = _slide(misses, best, miss)
    _remark(block, misses, best, miss, remarks)
    return misses.values(best, everyone)


def _slide(misses: _Misses, found: Floats, miss: Floats) -> tuple[Floats, Floats]:
    """Shares `(U, B)` and misses, slid along the relations to where the shares are nearest to what is wanted.

    Where the relations leave no choice, or a body does not meet them, they stay.
    """
    found, miss, part = found.copy(), miss.copy(), np.ones(found.shape[1])
    going = np.flatnonzero((_size(miss) <= 1.0) & (_away(misses, found, np.arange(len(part))) > NEARER))
    for _ in range(SLIDES if misses.leave_a_choice() else 0):
        if not going.size:
            break
        shares, wanted = found[:, going], misses.wanted[:, going]
        step = misses.towards(shares, wanted, going) * part[going]
        tried, reached = _descend(misses, np.clip(shares + step, 0.0, 1.0), going)
        gained = _away(misses, shares, going) - _away(misses, tried, going)
        nearer = (_size(reached) <= 1.0) & (gained > 0)
        found[:, going], miss[:, going] = np.where(nearer, tried, shares), np.where(nearer, reached, miss[:, going])
        part[going] = np.where(nearer, np.minimum(1.0, 2 * part[going]), part[going] / 4)
        still = np.max(np.abs(step), axis=0) > NEARER
        going = going[still & (nearer | (part[going] >= SHORTER))]
    return found, miss


def _away(misses: _Misses, shares: Floats, rows: Ints) -> Floats:
    """How far the shares `(U, N)` of the bodies `(N,)` are from where they are wanted, `(N,)`."""
    return np.asarray(np.linalg.norm(shares - misses.wanted[:, rows], axis=0))


def _from_elsewhere(misses: _Misses, best: Floats, miss: Floats, rows: Ints) -> tuple[Floats, Floats]:
    """Shares `(U, N)` and misses for bodies `(N,)` that came nowhere, begun in other places too: all at once.

    The first place counts from which everything is met; else the one that comes nearest.
    """
    count = len(STARTS)
    begun = np.tile(np.repeat(STARTS, len(rows)), (len(best), 1))
    found, reached = _descend(misses, begun, np.tile(rows, count))
    for shares, missed in zip(np.split(found, count, axis=1), np.split(reached, count, axis=1), strict=True):
        better = (_size(miss) > 1.0) & (_size(missed) < _size(miss))
        best, miss = np.where(better, shares, best), np.where(better, missed, miss)
    return best, miss


class _Misses:
    """By how many tolerances each relation is missed, `(M, N)`, by some of the bodies `(N,)`.

    The unknowns are shares of their ranges, `(U, N)`.
    """

    def __init__(self, block: Solve, trace: Trace, ranges: dict[str, Ranges]) -> None:
        self.block = block
        self.some = Some(trace)
        self.names = [unknown.name for unknown in block.unknowns]
        self.low = np.stack([ranges[name][0] for name in self.names])
        self.width = np.stack([ranges[name][1] - ranges[name][0] for name in self.names])
        nearest = np.stack([ranges[name][2] for name in self.names])
        self.wanted = (nearest - self.low) / np.where(self.width > 0, self.width, 1.0)
        self.equal = np.array([relation.sort == "equals" for relation in block.relations])

    def leave_a_choice(self) -> bool:
        """Whether there are more unknowns than equations."""
        return bool(len(self.names) > np.count_nonzero(self.equal))

    def values(self, shares: Floats, rows: Ints) -> dict[str, Floats]:
        return dict(zip(self.names, self.low[:, rows] + shares * self.width[:, rows], strict=True))

    def __call__(self, shares: Floats, rows: Ints) -> Floats:
        return np.asarray(self.several(shares[None], rows)[0])

    def several(self, shares: Floats, rows: Ints) -> Floats:
        """Misses `(K, M, N)` for `(K, U, N)` shares, in one evaluation."""
        gaps = self.gaps(shares, rows)
        return np.where(self.equal[:, None], gaps, np.minimum(gaps, 0.0))

    def gaps(self, shares: Floats, rows: Ints) -> Floats:
        """What the relations have to spare `(K, M, N)`, in tolerances: nothing where equal, else not below nothing."""
        copies, bodies = len(shares), shares.shape[-1]
        values = self.low[:, rows] + shares * self.width[:, rows]
        at = {name: values[:, n].reshape(-1) for n, name in enumerate(self.names)}
        standings, failed = try_values(self.block, self.some.of(rows), at, copies)
        missed = []
        for standing in standings:
            gap = (standing.left - standing.right) / MET[standing.relation.left.kind]
            sort = standing.relation.sort
            missed.append(np.where(failed, FAILED if sort == "equals" else -FAILED, -gap if sort == "at most" else gap))
        return np.stack(missed).reshape(-1, copies, bodies).swapaxes(0, 1)

    def slopes(self, shares: Floats, miss: Floats, rows: Ints) -> Floats:
        """The slopes `(N, M, U)` of the misses `(M, N)`, each unknown nudged towards the middle of its range."""
        tried, nudges = self._nudged(shares)
        return np.moveaxis((self.several(tried, rows) - miss) / nudges[:, None], (2, 1, 0), (0, 1, 2))

    def towards(self, shares: Floats, wanted: Floats, rows: Ints) -> Floats:
        """The step `(U, N)` that leads nearest to the wanted shares `(U, N)` while the relations are straight."""
        tried, nudges = self._nudged(shares)
        here, *nudged = self.gaps(np.concatenate([shares[None], tried]), rows)
        slopes = np.moveaxis((np.stack(nudged) - here) / nudges[:, None], (2, 1, 0), (0, 1, 2))
        return nearest_by_tangents((wanted - shares).T, here.T, slopes, (shares.T, 1.0 - shares.T), self.equal).T

    def _nudged(self, shares: Floats) -> tuple[Floats, Floats]:
        """Shares `(U, U, N)` with one unknown after another nudged, and by how much `(U, N)` each is."""
        nudges = np.where(shares > 0.5, -NUDGE, NUDGE)
        return shares + np.eye(len(self.names))[:, :, None] * nudges, nudges


def _size(miss: Floats) -> Floats:
    """The worst miss of each body, in tolerances."""
    return np.asarray(np.max(np.abs(miss), axis=0))


def _descend(misses: _Misses, begun: Floats, rows: Ints) -> tuple[Floats, Floats]:
    """From a start `(U, N)` to where no step lessens the misses of the bodies `(N,)`: the shares, and the misses there.

    A body that has arrived, is stuck or gets on by hairs alone stays, and is not drafted again: it comes out the same
    whatever its neighbours still need.
    """
    found, found_miss = begun.copy(), misses(begun, rows)
    damping, slow = np.full(len(rows), 1e-3), np.zeros(len(rows), dtype=int)
    going = np.flatnonzero(_size(found_miss) >= ARRIVED)
    for _ in range(STEPS):
        if not going.size:
            break
        shares, miss, some = found[:, going], found_miss[:, going], rows[going]
        tried = np.clip(shares + _step(misses.slopes(shares, miss, some), miss, damping[going]), 0.0, 1.0)
        reached = misses(tried, some)
        before, after = np.sum(miss**2, axis=0), np.sum(reached**2, axis=0)
        stuck = np.all(np.abs(tried - shares) < STUCK, axis=0)
        better = (after < before) & ~stuck
        found[:, going], found_miss[:, going] = np.where(better, tried, shares), np.where(better, reached, miss)
        damping[going] = np.clip(np.where(better, damping[going] / 5, damping[going] * 4), 1e-12, 1e12)
        slow[going] = np.where(better & (after < before * HAIR), 0, slow[going] + better)
        going = going[~stuck & (slow[going] < PATIENCE) & (_size(found_miss[:, going]) >= ARRIVED)]
    return found, found_miss


def _step(slopes: Floats, miss: Floats, damping: Floats) -> Floats:
    """The damped step `(N, B)` by slopes `(B, M, N)` that lessens misses `(M, B)`; damping `(B,)`.

    All unknowns are damped alike: were each damped by its own slope, one that hardly matters would run away.
    """
    normal = np.swapaxes(slopes, 1, 2) @ slopes
    scale = (damping + 1e-12) * (1e-12 + np.max(np.einsum("bnn->bn", normal), axis=1))
    damped = normal + np.eye(normal.shape[1]) * scale[:, None, None]
    downhill = -np.einsum("bmn,mb->bn", slopes, miss)
    return np.asarray(np.linalg.solve(damped, downhill[..., None])[..., 0].T)


def _remark(block: Solve, misses: _Misses, shares: Floats, miss: Floats, remarks: list[tuple[Span, str]]) -> None:
    """Where everything is met: relations that the others imply, and unknowns that could lie anywhere."""
    met = _size(miss) <= 1.0
    if not met.any():
        return
    equal = [k for k, relation in enumerate(block.relations) if relation.sort == "equals"]
    rows = np.flatnonzero(met)[:LOOKED_AT]
    slopes = misses.slopes(shares[:, rows], miss[:, rows], rows)[:, equal]
    largest = np.max(np.abs(slopes), axis=(1, 2), keepdims=True)
    scaled = slopes / np.where(largest > 0, largest, 1.0)
    if len(equal) > 1 and np.all(np.linalg.matrix_rank(scaled, tol=RANK) < len(equal)):
        last = block.relations[equal[-1]]
        remarks.append((last.span, "this relation says nothing that the others of its block do not say"))
    for n, unknown in enumerate(block.unknowns):
        if np.all(np.abs(scaled[:, :, n]) < RANK) and len(equal) == len(block.relations):
            remarks.append((unknown.span, f"nothing settles `{unknown.name}`: it stays where it is wanted"))
