"""Bands: pieces that finish an opening, drawn as strips of their finished width along it."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Join, Piece, SidePart
from draft.geometry.cubic import lines_through, norm, unit
from draft.geometry.flatten import polyline
from draft.paper.flat.legs import is_leg
from draft.seams.middles import behind_a_slit

_NARROW = 0.4
"""A piece less deep than this share of the edge that it is sewn by is a band, not a part of the body or a sleeve."""
_HAIR = 1e-3
"""Points no farther from one another, mm, are one."""


@dataclass(frozen=True)
class Band:
    """A band's piece, the join that sets it on, the edges that it finishes, and its finished width in mm."""

    piece: Piece
    join: Join
    edges: tuple[SidePart, ...]
    width: float


def bands(garment: Garment, body: int) -> list[Band]:
    """The bands of a garment.

    None is what is sewn to its own paper, however narrow (a facing, a panel), or lies behind a slit, as in a fly.
    """
    found: list[Band] = []
    behind = behind_a_slit(garment)
    for join in [join for join in garment.joins if not (join.is_lying or join.faced or join.parted)]:
        for own, others in ((join.first, join.second), (join.second, join.first)):
            if len(own) == 1 and own[0].piece not in {*behind, *(part.piece for part in others)}:
                piece = garment.piece(own[0].piece)
                width = _width(garment, piece, own[0].edge, body)
                if width:
                    found.append(Band(piece, join, others, width))
                    break
    return found


def _width(garment: Garment, piece: Piece, edge: str, body: int) -> float:
    """The finished width of a piece that is set on by this edge; 0 if it is no band."""
    if piece.on_fold or is_leg(garment, piece, body):
        return 0.0
    long = piece.edge(edge).segments[body]
    across = unit(long[-1, 3] - long[0, 0])
    points = np.concatenate([other.segments[body, :, 0] for other in piece.edges]) - long[0, 0]
    depth = float(np.ptp(points @ np.array([-across[1], across[0]])))
    if depth > _NARROW * float(norm(long[-1, 3] - long[0, 0])):
        return 0.0
    joined = {part.edge for join in garment.joins for part in _parts(join) if part.piece == piece.name}
    far = max(piece.edges, key=lambda other: float(np.abs(_off(other.segments[body], long[0, 0], across)).min()))
    folded = far.name not in joined and not far.turned_up and not piece.layers
    return depth / 2 if folded else depth


def _parts(join: Join) -> tuple[SidePart, ...]:
    """What a join sews; not what is stitched down on a seam, where a folded band closes over it."""
    return () if join.onto else (*join.first, *join.second)


def _off(segments: Floats, start: Floats, across: Floats) -> Floats:
    return np.asarray((segments[:, (0, 3)].reshape(-1, 2) - start) @ np.array([-across[1], across[0]]))


def band_lines(edge: Floats, width: float, side: float) -> tuple[Floats, Floats]:
    """The far line of a strip along an edge `(n, 4, 2)`, and its outline, both as straight segments `(m, 4, 2)`.

    `side` is 1 where the strip lies to the left of the edge (y up), else -1.
    """
    import shapely

    near = _apart(edge)
    far = np.asarray(shapely.get_coordinates(shapely.LineString(near).offset_curve(side * width, quad_segs=16)))
    if len(far) < 2:
        far = near
    if norm(far[0] - near[0]) > norm(far[-1] - near[0]):
        far = far[::-1]
    return lines_through(far), lines_through(np.concatenate([near, far[::-1]]), closed=True)


def _apart(edge: Floats) -> Floats:
    """Points `(m, 2)` along an edge, none twice: an end without length has no direction, and a parallel turns there."""
    points = polyline(edge, 24)
    new = np.append(True, norm(np.diff(points, axis=0)) > _HAIR)
    return np.asarray(points[new])


def inside_line(edge: Floats, distance: float, side: float) -> list[Floats]:
    """A line at so many mm from an edge `(n, 4, 2)`, on one side of it, as runs of straight segments `(m, 4, 2)`.

    `side` is 1 for the left of the edge (y up), else -1.
    """
    import shapely

    far = shapely.LineString(_apart(edge)).offset_curve(side * distance, quad_segs=16)
    return [lines_through(np.asarray(part.coords)) for part in shapely.get_parts(far) if len(part.coords) > 1]
