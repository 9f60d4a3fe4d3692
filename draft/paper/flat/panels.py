"""Which pieces are the front and the back of the garment, and where their middle lies.

A panel is half of what is worn: a piece on the fold, or one of a pair whose middle edge is sewn to itself or left open.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Piece
from draft.geometry.cubic import norm, unit
from draft.paper.flat.legs import Hung, between_legs, hung
from draft.paper.flat.similar import Similar
from draft.seams.walk import handedness

_PARALLEL = 0.98
"""Cosine: an edge within about 11 degrees of the grain may be the middle of a pair."""


@dataclass(frozen=True)
class Panel:
    """A piece with its middle edge, and the move that lays the middle on x = 0 with the piece to its right, y up."""

    piece: Piece
    middle: str
    move: Similar | Hung
    sewn: bool
    """Whether the middle is a seam or an opening, not a fold."""


@lru_cache(maxsize=8)  # asked for by every part of a view
def panels(garment: Garment, body: int) -> tuple[Panel, ...]:
    """The panels of a garment in one size, in the order of its pieces."""
    found = [(piece, _middle(garment, piece, body)) for piece in garment.pieces]
    return tuple(Panel(p, e.name, _laid(p, e, body), not e.on_fold) for p, e in found if e is not None)


def front_and_back(found: Sequence[Panel]) -> tuple[Panel | None, Panel | None]:
    """The front and the back by their names; failing that, the first and the second panel.

    A panel that is neither, of which there are enough for both, is front and back.
    """
    front = next((panel for panel in found if "front" in panel.piece.name), None)
    back = next((panel for panel in found if "back" in panel.piece.name), None)
    rest = [panel for panel in found if panel not in (front, back)]
    front = front or (rest.pop(0) if rest else None)
    back = back or (rest.pop(0) if rest else None)
    return front, front if front and not back and _serves_twice(front.piece) else back


def _serves_twice(piece: Piece) -> bool:
    """Whether as many of a piece are cut as go round the body, and it is not named for one side of it."""
    return piece.copies() >= 4 and not {"front", "back"} & set(piece.name.split("_"))


def cut_up(garment: Garment, found: Sequence[Panel]) -> bool:
    """Whether the front or the back is cut in parts, none of which is half of it: no view could show it as worn."""
    return any(
        any(word in piece.name for piece in garment.pieces) and not any(word in panel.piece.name for panel in found)
        for word in ("front", "back")
    )


def _middle(garment: Garment, piece: Piece, body: int) -> Edge | None:
    folds = [edge for edge in piece.edges if edge.on_fold]
    itself = [edge for edge in piece.edges if any(_sewn_to_itself(join, piece, edge) for join in garment.joins)]
    along = [edge for edge in piece.edges if piece.cut_as == "as a pair" and _along_grain(garment, piece, edge, body)]
    return next(iter((*folds, *itself, *along)), None)


def _sewn_to_itself(join: Join, piece: Piece, edge: Edge) -> bool:
    parts = {(part.piece, part.edge) for part in (*join.first, *join.second)}
    return parts == {(piece.name, edge.name)} and not join.is_lying


def _along_grain(garment: Garment, piece: Piece, edge: Edge, body: int) -> bool:
    """Whether an edge that is not joined to another runs along the grain and nowhere inside the piece's own width."""
    joined = {(part.piece, part.edge) for join in garment.joins for part in (*join.first, *join.second)}
    if (piece.name, edge.name) in joined or not ("front" in piece.name or "back" in piece.name):
        return False
    way = unit(edge.segments[body, -1, 3] - edge.segments[body, 0, 0])
    return abs(float(way @ piece.grain[body])) > _PARALLEL


def _laid(piece: Piece, edge: Edge, body: int) -> Similar | Hung:
    if between_legs(piece, edge, body):
        return hung(piece, edge, body)
    start, end = edge.segments[body, 0, 0], edge.segments[body, -1, 3]
    way = unit(end - start) if norm(end - start) > 0 else np.array([0.0, 1.0])
    if way @ piece.grain[body] < 0:
        way = -way
    turn = 1j / complex(*way)
    inside = _inside(piece, body)
    middle = complex(*start)
    over = ((complex(*inside) - middle) * turn).real < 0
    laid = Similar(turn, -turn * middle + 1j * (turn * middle).imag)
    return laid.then(Similar(-1.0, 0.0, over=True)) if over else laid


def _inside(piece: Piece, body: int) -> Floats:
    """The middle of the piece's corners: inside enough to tell on which side of its middle edge it lies."""
    return np.asarray(np.concatenate([edge.segments[body, :, 0] for edge in piece.edges]).mean(axis=0))


def outside(piece: Piece, body: int, over: bool) -> float:
    """1 if outside lies to the left of the piece's edges as they run (y up), else -1; `over` if it is turned over."""
    return -float(handedness(piece)[body]) * (-1.0 if over else 1.0)
