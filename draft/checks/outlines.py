"""Every outline is closed and does not cross itself."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.naming import listed
from draft.base.notes import Note, error
from draft.base.plainly import AGAIN, of_sizes
from draft.garment.garment import Garment, Piece
from draft.geometry.flatten import sample

PLACES = 12  # on each segment: a crossing between two of them is smaller than a stitch
CLOSED = 0.01  # mm
SAME = 0.001  # mm: points nearer than this are one point


def check(garment: Garment) -> list[Note]:
    """A note for each piece whose outline is open or crosses itself."""
    return [note for piece in garment.pieces for note in _piece(garment, piece)]


def crosses_itself(piece: Piece) -> bool:
    """Whether the outline of a piece crosses itself for any body."""
    return bool(np.any(_crossed(_points(piece))))


def _points(piece: Piece) -> Floats:
    """Points `(B, N, 2)` along the outline, the last of them the first again where it closes."""
    points = sample(np.concatenate([edge.segments for edge in piece.edges], axis=1), PLACES)
    closed = np.hypot(*(points[:, 0] - points[:, -1]).T) <= CLOSED
    points[closed, -1] = points[closed, 0]
    return points


def _crossed(points: Floats) -> Bools:
    """For which bodies the line through the points crosses itself `(B,)`."""
    import shapely

    return np.asarray(~shapely.is_simple(_lines(points)))


def _piece(garment: Garment, piece: Piece) -> list[Note]:
    points = _points(piece)
    gap = np.hypot(*(points[:, 0] - points[:, -1]).T)
    notes = []
    if np.any(gap > CLOSED):
        fact = f"the outline of `{piece.name}` does not close, for {listed(garment.sizes, gap > CLOSED)}"
        plainly = of_sizes("outline_crosses", garment.sizes, gap > CLOSED, AGAIN, piece=piece.name)
        notes.append(error(fact, piece.span, off=np.where(gap > CLOSED, gap, 0.0), plainly=plainly))
    crossed = _crossed(points)
    if np.any(crossed):
        fact = f"the outline of `{piece.name}` crosses itself, for {listed(garment.sizes, crossed)}"
        where = _where(piece, int(np.argmax(crossed)))
        plainly = of_sizes("outline_crosses", garment.sizes, crossed, AGAIN, piece=piece.name)
        notes.append(error(fact, piece.span, *where, off=crossed.astype(float), plainly=plainly))
    return notes


def _lines(points: Floats) -> Any:
    """Lines through points `(B, N, 2)` without the repeated points of segments that have no length."""
    import shapely

    return shapely.remove_repeated_points(shapely.linestrings(points), SAME)


def _where(piece: Piece, body: int) -> list[str]:
    """The first edges that cross one another, or one that crosses itself."""
    import shapely

    lines = {edge.name: _lines(sample(edge.segments[body : body + 1], PLACES))[0] for edge in piece.edges}
    for name, line in lines.items():
        if not shapely.is_simple(line):
            return [f"`{name}` crosses itself"]
    names = list(lines)
    for k, name in enumerate(names):
        for other in names[k + 1 :]:
            if shapely.crosses(lines[name], lines[other]):
                return [f"`{name}` and `{other}` cross one another"]
    return []
