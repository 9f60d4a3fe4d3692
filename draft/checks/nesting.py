"""Sizes nest: laid on one another, a line grows one way from size to size, and does not go back on itself.

Lines of neighbouring sizes may cross: an armhole that is deeper and starts further out in every size, a waist that
rises at the side while it widens. That is how the piece is graded, and it is so from every size to the next (common
practice). What is told is a size whose line crosses its neighbour's where it goes against what all sizes do there, as
they are laid on one another and also wherever else on that line they could be.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.notes import Note, caution
from draft.base.plainly import Typed, sentence
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.cubic import cross, dot
from draft.geometry.ends import end_directions
from draft.geometry.flatten import sample

PLACES = 12  # on each segment
ASIDE = 10.0  # mm: how far beside a crossing it is looked at; crossings no further apart are one
APART = 0.05  # mm: lines that come no further apart than this lie on one another
BACK = 0.5  # mm: a place that goes back by less is where it was
STEADY = 0.25  # of the most that a line moves to the next size: crossings wander by such steps, and nobody sees them


def check(garment: Garment) -> list[Note]:
    """A note for each edge that crosses the same edge of the next size where it goes back on itself."""
    return [note for piece in garment.pieces for note in _piece(garment, piece)]


def _piece(garment: Garment, piece: Piece) -> list[Note]:
    # its peaks lie elsewhere in every size
    peaked = {takeup.edge for takeup in piece.takeups if takeup.trued_over is not None}
    return [note for edge in piece.edges if edge.name not in peaked for note in _edge(garment, piece, edge)]


def _edge(garment: Garment, piece: Piece, edge: Edge) -> list[Note]:
    sampled = sample(edge.segments, PLACES)
    pairs = _crossed(edge.segments, sampled)
    # sizes may be laid on one another at another place: those of a sleeve at its hem, or at the top of its cap
    for joint in edge.segments[:, 1:, 0].swapaxes(0, 1) if pairs else ():
        pairs = pairs and _crossed(edge.segments - joint[:, None, None], sampled - joint[:, None])
    if not pairs:
        return []
    crossed = [f"{garment.sizes[k]} and {garment.sizes[k + 1]}" for k in pairs]
    fact = f"`{piece.name}.{edge.name}` goes back on itself from size to size: {', '.join(crossed)}"
    typed = Typed(", ".join(crossed).replace(" and ", " – "))
    plainly = sentence("sizes_cross", piece=piece.name, edge=edge.name, pairs=typed)
    return [caution(fact, edge.span, "let what places it grow steadily with the size", plainly=plainly)]


def _crossed(segments: Floats, sampled: Floats) -> list[int]:
    """The sizes whose line, segments `(B, S, 4, 2)` and sampled `(B, N, 2)`, crosses the next where it goes back."""
    import shapely

    lines, back = shapely.linestrings(sampled), _goes_back(sampled)
    crossed = []
    for k in np.flatnonzero(shapely.crosses(lines[:-1], lines[1:]) & back):
        places = _places(lines[k], lines[k + 1])
        if len(places) and not _ends_pass(segments[k : k + 2], places, lines[k].length):
            crossed.append(int(k))
    return crossed


def _goes_back(sampled: Floats) -> Bools:
    """From which sizes `(B - 1,)` to the next some place of a line `(B, N, 2)` moves against the way of all sizes.

    Where all of them together go nowhere, whatever moves goes back.
    """
    along = sampled[:, -1:] - sampled[:, :1] if sampled.shape[1] < 3 else np.gradient(sampled, axis=1)
    way = along.mean(axis=0)
    length = np.maximum(np.linalg.norm(way, axis=-1, keepdims=True), 1e-12)
    moves = cross(np.diff(sampled, axis=0), way / length)  # aside, as moving along a line does not show
    whole = moves.sum(axis=0)
    least = np.maximum(BACK, STEADY * np.abs(moves).max(axis=1, keepdims=True))
    against = np.where(np.abs(whole) > BACK, -moves * np.sign(whole), np.abs(moves))
    back: Bools = np.any(against > least, axis=1)
    return back


def _ends_pass(path: Floats, places: Floats, length: float) -> bool:
    """Whether two lines `(2, S, 4, 2)` cross once at most at either end, where the second runs on past the first.

    It runs on further than it lies aside, and they cross no further from the end than it runs on.
    """
    at_start = places < length / 2
    gaps = path[1, 0, 0] - path[0, 0, 0], path[1, -1, 3] - path[0, -1, 3]
    leave, arrive = (direction[0] for direction in end_directions(path[:1]))
    for which, gap, out in ((at_start, gaps[0], -leave), (~at_start, gaps[1], arrive)):
        near = np.minimum(places, length - places)[which]
        beyond, aside = float(dot(gap, out)), abs(float(cross(gap, out)))
        if len(near) > 1 or (len(near) and not max(aside, near[0]) <= beyond):
            return False
    return True


def _places(one: Any, other: Any) -> Floats:
    """How far along a line it crosses another, and parts from it on both sides: one upon another they only touch."""
    import shapely

    met = shapely.get_coordinates(shapely.intersection(one, other))
    places = np.sort(shapely.line_locate_point(one, shapely.points(met)))
    ways = [np.clip(places + way, 0.0, one.length) for way in (-ASIDE, ASIDE)]
    beside = shapely.distance(shapely.line_interpolate_point(one, ways), other)
    places = places[np.min(beside, axis=0) > APART]
    first: Floats = places[np.diff(places, prepend=-np.inf) > ASIDE]
    return first
