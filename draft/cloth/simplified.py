"""Outlines as rings of points: simplified outwards, so that a search works on few points and never cuts into a piece.

A ring is `(n, 2)`, counterclockwise, its first point not repeated.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import cross, norm

_STRAIGHT = 1e-9
_MOST = 96
"""Points of a ring that is searched with: what two rings keep free takes about the cube of them."""
_COARSEST = 1000.0
"""How deep the hollows are that are filled for that, mm: only where an edge is all teeth, as a zigzag's is."""


def counterclockwise(points: Floats) -> Floats:
    """The ring `(n, 2)` the right way round, without the points that repeat their neighbour."""
    ring = points[norm(points - np.roll(points, -1, axis=0)) > _STRAIGHT]
    area = np.sum(cross(ring, np.roll(ring, -1, axis=0)))
    return ring if area > 0 else ring[::-1]


def flipped(ring: Floats, across: int, along: int) -> Floats:
    """The ring `(n, 2)` mirrored (-1) or not (1) across and along the grain, still counterclockwise."""
    turned: Floats = ring * np.array([across, along], dtype=float)
    return turned if across * along > 0 else turned[::-1]


def of_few_points(ring: Floats, tolerance: float) -> Floats:
    """The ring `(n, 2)` grown by `tolerance` mm; where too many points are left, its hollows are filled, too."""
    few = grown(ring, tolerance)
    while len(few) > _MOST and tolerance < _COARSEST:
        tolerance *= 2
        few = grown(few, tolerance, carrying=False)
    return few


def grown(ring: Floats, tolerance: float, carrying: bool = True) -> Floats:
    """A ring of fewer points that contains this one `(n, 2)` and reaches at most about `tolerance` mm beyond it.

    Hollow corners are filled, and short sides cut off by carrying their neighbours on until they meet; straight sides
    stay exactly where they are. Without `carrying` only hollow corners are filled. A ring that would cross itself is
    given back as it came.
    """
    import shapely

    few = ring
    while len(few) > 4:
        fewer = _round(few, tolerance, carrying)
        if len(fewer) == len(few):
            break
        few = fewer
    return few if shapely.is_valid(shapely.Polygon(few)) else ring


@dataclass(frozen=True)
class _Moves:
    """What simplifying may do at each point: how far the ring would grow, and where the two neighbours would meet."""

    fill: Floats
    carry: Floats
    meeting: Floats


def _moves(ring: Floats) -> _Moves:
    before, after, second = np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0), np.roll(ring, -2, axis=0)
    turn = cross(ring - before, after - ring)
    chord = after - before
    deep = np.abs(cross(chord, ring - before)) / np.maximum(norm(chord), _STRAIGHT)
    first, last, side = ring - before, after - second, after - ring
    slant = cross(first, last)
    slant = np.where(np.abs(slant) < _STRAIGHT, np.inf, slant)
    along, back = cross(second - before, last) / slant, cross(second - before, first) / slant
    meeting = before + along[:, None] * first
    out = np.abs(cross(side, meeting - ring)) / np.maximum(norm(side), _STRAIGHT)
    meets = (turn > 0) & (np.roll(turn, -1) > 0) & (along > 1) & (back > 1)
    return _Moves(np.where(turn <= _STRAIGHT, deep, np.inf), np.where(meets, out, np.inf), meeting)


def _round(ring: Floats, tolerance: float, carrying: bool) -> Floats:
    """One round: the smallest third of the moves within the tolerance, none beside another."""
    n, moves = len(ring), _moves(ring)
    growth = np.concatenate([moves.fill, moves.carry]) if carrying else moves.fill
    order = np.argsort(growth, kind="stable")
    order = order[growth[order] < tolerance]
    out, gone, used = ring.copy(), np.zeros(n, dtype=bool), np.zeros(n, dtype=bool)
    for move in order[: len(order) // 3 + 1]:
        carries, at = divmod(int(move), n)
        touched = [(at + k) % n for k in range(-1, 2 + carries)]
        if used[touched].any() or n - gone.sum() <= 4:
            continue
        used[touched] = True
        gone[(at + carries) % n] = True
        if carries:
            out[at] = moves.meeting[at]
    kept: Floats = out[~gone]
    return kept
