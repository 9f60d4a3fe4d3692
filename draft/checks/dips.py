"""An edge that is square to a fold and to a seam, but whose ends lie level, has to wave between them."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import SMOOTH_IT, Parts, mm, of_sizes
from draft.base.worst import worst_of
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.cubic import dot, norm, unit
from draft.geometry.ends import end_directions
from draft.geometry.flatten import sample

PLACES = 24  # on each segment
DEEPEST = 2.0  # mm beyond both ends: less is lost in sewing
FARTHEST = 40.0  # mm: an end that would have to be moved further is where it belongs
SQUARE = 0.02  # cosine of the angle to the fold, about a degree


def check(garment: Garment) -> list[Note]:
    """A caution for each edge from a fold that passes both its ends, one way or the other, before it comes back.

    One that runs through points is shaped by them, as its designer meant.
    """
    return [note for piece in garment.pieces for k in range(len(piece.edges)) for note in on_edge(garment, piece, k)]


def on_edge(garment: Garment, piece: Piece, k: int) -> list[Note]:
    """What there is to say of one edge of a piece."""
    edge = piece.edges[k]
    taken_up = any(takeup.edge == edge.name for takeup in piece.takeups)
    if edge.on_fold or edge.segments.shape[1] != 1 or taken_up:
        return []
    before, after = piece.edges[k - 1], piece.edges[(k + 1) % len(piece.edges)]
    if before.on_fold == after.on_fold:
        return []
    fold, far = (before, 1) if before.on_fold else (after, 0)
    up = unit(fold.segments[:, -1, 3] - fold.segments[:, 0, 0])
    heights = dot(sample(edge.segments, PLACES), up[:, None])
    low, high = np.minimum(heights[:, 0], heights[:, -1]), np.maximum(heights[:, 0], heights[:, -1])
    beyond = np.maximum(low - heights.min(axis=1), heights.max(axis=1) - high)
    leaving = end_directions(edge.segments)[1 - far]
    dips = (beyond > DEEPEST) & (np.abs(dot(leaving, up)) < SQUARE)
    if not np.any(dips):
        return []
    worst = worst_of(np.where(dips, beyond, 0.0))
    fact = f"`{piece.name}.{edge.name}` waves between its ends, for {listed(garment.sizes, dips)}"
    figures = f"at worst it passes both of them by {beyond[worst]:.1f} mm ({garment.sizes[worst]})"
    fix = _fix(edge, float(_rise(edge, up, far)[worst] * up[worst, 1]), far)
    names: Parts = {"piece": piece.name, "edge": edge.name, "off": mm(beyond[worst])}
    plainly = of_sizes("line_dips", garment.sizes, dips, SMOOTH_IT, **names)
    return [caution(fact, edge.span, figures, fix, off=np.where(dips, beyond, 0.0), plainly=plainly)]


def _fix(edge: Edge, rise: float, far: int) -> str:
    """How it comes to bend one way; where it ends steeply, as a neckline does, the end cannot be moved so far."""
    if abs(rise) > FARTHEST:
        return "make it deeper, or let it run `straight` a little way from the fold before it curves"
    moved = f"move `{edge.ends[-1 if far else 0]}` about {abs(rise) / 10:.1f} cm {'up' if rise > 0 else 'down'} there"
    return f"{moved}: a line that is square at both ends then bends one way"


def _rise(edge: Edge, up: Floats, far: int) -> Floats:
    """How much higher its far end would have to lie `(bodies,)` for a parabola that is flat at the fold to end so."""
    start, end = edge.segments[:, 0, 0], edge.segments[:, -1, 3]
    chord = (end - start) if far else (start - end)
    arriving = end_directions(edge.segments)[1] if far else -end_directions(edge.segments)[0]
    across = norm(chord - dot(chord, up)[:, None] * up)
    slope = dot(arriving, up) / np.maximum(norm(arriving - dot(arriving, up)[:, None] * up), 1e-9)
    return np.asarray(across * slope / 2 - dot(chord, up))
