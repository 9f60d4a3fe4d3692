"""Strokes joined into closed outlines: ends that all but meet are one, and what hangs loose or lies within is left.

What is left of strokes that hang together is walked round outside, so that a line across a piece, or two pieces that
share one, lead nobody inwards.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.area import outline_area
from draft.geometry.cubic import end_tangent, norm, reverse, start_tangent

LENGTH = 1e-6
"""mm: a shorter segment is none."""
EXACT = 1e-4
"""mm: ends so near one another were meant to be one by whatever drew them."""


@dataclass(frozen=True)
class Outline:
    """A closed line `(S, 4, 2)` that runs counterclockwise, and the number of the stroke that each segment is of."""

    path: Floats
    of: tuple[int, ...]
    gap: float = 0.0
    """mm: the widest gap between two of its strokes that was closed."""
    turned: bool = False
    """Whether it was drawn clockwise."""


@dataclass(frozen=True)
class Joined:
    """The closed outlines, how many strokes lie loose, and the open run with the most to it: its ends and their gap."""

    closed: tuple[Outline, ...]
    loose: int = 0
    open_ends: Floats | None = None
    """The ends `(2, 2)` of the longest open run; None where there is none."""
    longest: float = 0.0
    """How long that run is, mm."""


def joined(paths: Sequence[Floats], tolerance: float) -> Joined:
    """Closed outlines of strokes `(S, 4, 2)` whose ends lie within `tolerance` mm."""
    kept = {k: path for k, path in enumerate(map(_with_length, paths)) if len(path)}
    chains = [_outline(chain, kept, round_it=False) for chain in _chains(kept)]
    lines = {n: chain.path for n, chain in enumerate(chains)}
    whole = [n for n, path in lines.items() if norm(path[0, 0] - path[-1, 3]) <= tolerance < _long(path) / 3]
    closed = [_of_chains([(n, False)], chains) for n in whole]
    rest = [n for n in lines if n not in set(whole)]
    graph = _Graph(_ends(rest, lines, tolerance), lines)
    loose = graph.without_loose()
    walks, flat = graph.walks()
    closed += [_of_chains(walk, chains) for walk in walks]
    loose += flat
    run = _longest_run(loose, lines)
    open_ends, longest = (run[0], run[1]) if run else (None, 0.0)
    return Joined(tuple(closed), len(loose), open_ends, longest)


def _chains(paths: dict[int, Floats]) -> list[list[tuple[int, bool]]]:
    """Strokes that meet end to end and nowhere else, each with whether it is walked backwards."""
    ends = _ends(list(paths), paths, EXACT)
    at: dict[int, list[int]] = {}
    for k, nodes in ends.items():
        for node in nodes:
            at.setdefault(node, []).append(k)
    found, seen = [], set[int]()
    for k in paths:
        if k not in seen:
            chain = [*_onwards((k, True), ends, at, seen)[:0:-1], (k, True)]
            back = [(other, not backwards) for other, backwards in chain]
            seen.add(k)
            found.append([*back, *_onwards((k, False), ends, at, seen)[1:]])
    return found


def _onwards(
    step: tuple[int, bool], ends: dict[int, tuple[int, int]], at: dict[int, list[int]], seen: set[int]
) -> list[tuple[int, bool]]:
    """The strokes from one on, until one ends, parts, or is met again."""
    walk = [step]
    while True:
        k, back = walk[-1]
        node = ends[k][0 if back else 1]
        others = [other for other in at[node] if other != k]
        if len(at[node]) != 2 or len(others) != 1 or others[0] in seen or others[0] == step[0]:
            return walk
        seen.add(others[0])
        walk.append((others[0], ends[others[0]][1] == node))


def _ends(which: list[int], paths: dict[int, Floats], tolerance: float) -> dict[int, tuple[int, int]]:
    """The nodes at both ends of strokes."""
    ends = _nodes(np.array([paths[k][side] for k in which for side in _SIDES]).reshape(-1, 2), tolerance)
    return {k: (ends[2 * n], ends[2 * n + 1]) for n, k in enumerate(which)}


_SIDES = ((0, 0), (-1, 3))


def _with_length(path: Floats) -> Floats:
    return np.asarray(path[np.abs(path - path[:, :1]).max(axis=(1, 2)) > LENGTH])


def _long(path: Floats) -> float:
    return float(norm(np.diff(path, axis=1)).sum())


def _nodes(ends: Floats, tolerance: float) -> list[int]:
    """Numbers for ends `(N, 2)`, the same for those that hang together within the tolerance."""
    import shapely

    if not len(ends):
        return []
    points = shapely.points(ends)
    pairs = shapely.STRtree(points).query(points, predicate="dwithin", distance=tolerance)
    lead = list(range(len(ends)))

    def first(k: int) -> int:
        while lead[k] != k:
            lead[k] = k = lead[lead[k]]
        return k

    for a, b in pairs.T.tolist():
        if a < b:
            lead[max(first(a), first(b))] = min(first(a), first(b))
    return [first(k) for k in range(len(ends))]


class _Graph:
    """Strokes between nodes."""

    def __init__(self, ends: dict[int, tuple[int, int]], paths: dict[int, Floats]) -> None:
        self.ends, self.paths = ends, paths
        self.at: dict[int, set[int]] = {}
        for k, nodes in ends.items():
            for node in nodes:
                self.at.setdefault(node, set()).add(k)

    def without_loose(self) -> list[list[int]]:
        """Take away what has a loose end, and what then has one: the runs that were taken, each from that end on."""
        runs: list[list[int]] = []
        for node in sorted(self.at):
            run: list[int] = []
            while len(self.at[node]) == 1:
                (k,) = self.at[node]
                run.append(k)
                for end in self.ends[k]:
                    self.at[end].discard(k)
                node = self.ends[k][0] if self.ends[k][1] == node else self.ends[k][1]
            runs += [run] if run else []
        return runs

    def walks(self) -> tuple[list[list[tuple[int, bool]]], list[list[int]]]:
        """Round each heap of strokes outside: their numbers, and whether each is walked backwards.

        Besides the heaps round which each stroke would be walked there and back: they enclose nothing.
        """
        found, flat = [], []
        seen: set[int] = set()
        for k in sorted(self.ends):
            if k not in seen and k in self.at[self.ends[k][0]]:
                heap = self._heap(k)
                seen |= heap
                walk = self._round(heap)
                if walk:
                    found.append(walk)
                else:
                    flat.append(sorted(heap))
        return found, flat

    def _heap(self, k: int) -> set[int]:
        found, waiting = set[int](), [k]
        while waiting:
            k = waiting.pop()
            if k not in found:
                found.add(k)
                waiting += [other for node in self.ends[k] for other in self.at[node] - found]
        return found

    def _round(self, heap: set[int]) -> list[tuple[int, bool]]:
        """From the leftmost place on, always as far to the right as the strokes lead."""
        lowest = min(heap, key=lambda k: (float(self.paths[k][..., 0].min()), k))
        first = (lowest, False)
        walk = self._walk(first)
        turned = self._walk((lowest, True))
        return max((walk, turned), key=lambda one: abs(self._area(one)) if one else 0.0)

    def _walk(self, first: tuple[int, bool]) -> list[tuple[int, bool]]:
        walk, now = [first], self._next(first)
        while now != first and len(walk) <= 2 * len(self.ends):
            walk.append(now)
            now = self._next(now)
        return _once(walk)

    def _next(self, step: tuple[int, bool]) -> tuple[int, bool]:
        k, back = step
        node = self.ends[k][0 if back else 1]
        ways = [(other, side == 1) for other in self.at[node] for side in (0, 1) if self.ends[other][side] == node]
        if len(ways) == 2:
            return next((way for way in ways if way[0] != k), (k, not back))
        heading = -self._direction(k, not back)
        return min(ways, key=lambda way: (way[0] == k, _turn(heading, self._direction(*way))))

    def _direction(self, k: int, back: bool) -> Floats:
        path = self.paths[k]
        return -np.asarray(end_tangent(path[-1])) if back else np.asarray(start_tangent(path[0]))

    def _area(self, walk: list[tuple[int, bool]]) -> float:
        return outline_area(np.concatenate([reverse(self.paths[k]) if back else self.paths[k] for k, back in walk]))


def _once(walk: list[tuple[int, bool]]) -> list[tuple[int, bool]]:
    """A walk without the strokes that it took there and back."""
    taken = Counter(k for k, _ in walk)
    return [step for step in walk if taken[step[0]] == 1]


def _turn(heading: Floats, way: Floats) -> float:
    """How far to the left a way turns from a heading, the sharpest right turn least."""
    cross = heading[0] * way[1] - heading[1] * way[0]
    return float(np.arctan2(cross, heading @ way))


def _of_chains(walk: list[tuple[int, bool]], chains: list[Outline]) -> Outline:
    """The outline that chains make."""
    whole = _outline(walk, {n: chains[n].path for n, _ in walk})
    numbers = {n: list(chains[n].of) for n, _ in walk}
    of = [k for n, back in walk for k in (numbers[n][::-1] if back else numbers[n])]
    return Outline(whole.path, tuple(of[::-1] if whole.turned else of), whole.gap)


def _outline(walk: list[tuple[int, bool]], paths: dict[int, Floats], round_it: bool = True) -> Outline:
    """Strokes end to end; `round_it` closes them and runs them counterclockwise."""
    parts = [reverse(paths[k]) if back else paths[k].copy() for k, back in walk]
    gap = 0.0
    for n in range(0 if round_it else 1, len(parts)):
        gap = max(gap, float(norm(parts[n][0, 0] - parts[n - 1][-1, 3])))
        parts[n][0, 0] = parts[n - 1][-1, 3]
    path, of = np.concatenate(parts), [k for k, _ in walk for _ in range(len(paths[k]))]
    turned = round_it and outline_area(path) < 0
    if turned:
        path, of = reverse(path), of[::-1]
    return Outline(path, tuple(of), gap, turned)


def _longest_run(runs: list[list[int]], paths: dict[int, Floats]) -> tuple[Floats, float] | None:
    """The ends `(2, 2)` of the longest run of strokes that stayed open, and its length."""
    if not runs:
        return None
    run = max(runs, key=lambda run: sum(_long(paths[k]) for k in run))
    ends = np.array([paths[k][side] for k in run for side in ((0, 0), (-1, 3))])
    apart = norm(ends[:, None] - ends[None])
    apart[np.arange(len(ends)), np.arange(len(ends))] = np.inf
    lonely = np.argsort(-apart.min(axis=1), kind="stable")[:2]
    return ends[np.sort(lonely)], sum(_long(paths[k]) for k in run)
