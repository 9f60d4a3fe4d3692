"""Hoods: two mirrored pieces, sewn to one another over the head, that stand on the whole neck.

Seen from the front or from behind a hood has no line of the pattern: drafted is how deep it is from the face to
the back of the head. Its outline keeps that depth at every height, made narrower as the neck is narrower than deep.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Join, Piece
from draft.geometry.cubic import lines_through
from draft.geometry.flatten import polyline

_LEVELS = 48
_OPEN = 0.74
"""How wide the face is, of the width of the hood: what hangs beside it is seen from the front."""
_BROW = 0.9
"""How high the face reaches, of the height of the hood."""


@dataclass(frozen=True)
class Hood:
    """The piece, the join that sets it on, its own edges: at the neck, over the head, and the edges of the neck."""

    piece: Piece
    join: Join
    seat: str
    crown: str
    neck: frozenset[tuple[str, str]]


@dataclass(frozen=True)
class HoodLines:
    """One view, mm with y up, paths `(n, 4, 2)`: all of it, its outer line, the face, seams, and where edges lie."""

    ring: Floats
    outer: Floats
    opening: Floats | None
    seams: tuple[Floats, ...]
    edges: tuple[tuple[str, Floats], ...]


def hoods(garment: Garment) -> list[Hood]:
    """The hoods of a garment: of a mirrored pair, with one edge sewn to itself and one to edges of two pieces."""
    found = []
    for join in garment.joins:
        for own, others in ((join.first, join.second), (join.second, join.first)):
            piece = garment.piece(own[0].piece)
            crown = _crown(garment, piece)
            if len(own) == 1 and len({part.piece for part in others}) == 2 and crown and piece.cut_as == "as a pair":
                neck = frozenset((part.piece, part.edge) for part in others)
                found.append(Hood(piece, join, own[0].edge, crown, neck))
    return found


def _crown(garment: Garment, piece: Piece) -> str:
    """The edge by which both copies of a piece are sewn to one another."""
    for join in garment.joins:
        parts = {(part.piece, part.edge) for part in (*join.first, *join.second)}
        if join.closes(piece.name) and len(parts) == 1:
            return next(iter(parts))[1]
    return ""


def hood_lines(hood: Hood, body: int, neck: Floats, from_behind: bool) -> HoodLines | None:
    """The hood stood up on a neck, a path `(n, 4, 2)` from left to right; None where it has no depth there."""
    heights, depths = _depths(hood, body)
    if not depths[0] > 0:
        return None
    wide, low = float(neck[-1, 3, 0]), float(neck[-1, 3, 1])
    half = np.stack([depths * wide / depths[0], low + heights - heights[0]], axis=-1)
    rim = np.concatenate([half * (-1.0, 1.0), half[::-1]])
    outer = lines_through(rim)
    ring = lines_through(np.concatenate([rim, polyline(neck)[::-1]]), closed=True)
    middle = neck[len(neck) // 2, 0]
    top = half[-1]
    seat = (hood.seat, neck)
    if from_behind:
        seam = lines_through([middle, top])
        return HoodLines(ring, outer, None, (seam,), ((hood.crown, seam), seat))
    brow = np.array([0.0, low + float(top[1] - low) * _BROW])
    face, crown = _face(middle, float(brow[1]), float(half[:, 0].max()) * _OPEN), lines_through([brow, top])
    named = [(edge.name, face) for edge in hood.piece.edges if edge.name not in (hood.seat, hood.crown)]
    return HoodLines(ring, outer, face, (crown,), (*named, seat))


def _depths(hood: Hood, body: int) -> tuple[Floats, Floats]:
    """Heights above the neck `(n,)`, and how deep the hood is at each: from its seat, along the grain."""
    import shapely

    piece = hood.piece
    up = piece.grain[body]
    points = polyline(np.concatenate([edge.segments[body] for edge in piece.edges]))
    seat = piece.edge(hood.seat).segments[body]
    base = (seat[0, 0] + seat[-1, 3]) / 2
    up = up if float((points.mean(axis=0) - base) @ up) > 0 else -up
    across = np.array([up[1], -up[0]])
    shape = shapely.Polygon((points - base) @ np.stack([across, up], axis=-1)).buffer(0)
    left, _, right, top = shape.bounds
    heights = np.linspace(max((seat[:, 3] - base) @ up) + 1.0, top - 0.5, _LEVELS)
    levels = [shapely.LineString([(left - 1, at), (right + 1, at)]) for at in heights]
    return np.append(heights, top), np.append(shapely.length(shapely.intersection(shape, levels)), 0.0)


def _face(middle: Floats, top: float, half: float) -> Floats:
    """The opening for the face, from the middle of the neck up, round and back, a closed path `(n, 4, 2)`."""
    turn = np.linspace(0.0, np.pi, _LEVELS)
    rounder = np.linspace(1.7, 0.7, _LEVELS)  # both edges meet in a point at the neck, and in a curve over the brow
    right = np.stack([half * np.sin(turn) ** rounder, middle[1] + (top - middle[1]) * (1 - np.cos(turn)) / 2], axis=-1)
    return lines_through(np.concatenate([right, right[-2::-1] * (-1.0, 1.0)]))
