"""A dart that is sewn: its legs are of one length, and the edge runs on smoothly from one to the other."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution, remark
from draft.base.plainly import SMOOTH_IT, Parts, degrees, mm, of_sizes, sentence
from draft.base.worst import worst_of
from draft.garment.garment import Garment, Piece, Takeup
from draft.geometry.cubic import cross, dot, start_tangent
from draft.geometry.dart_leg import leg
from draft.geometry.length import length, point_at, tangent_at

SHIFT = 1.0  # mm between the lengths of the legs: more shows as a step in the edge (common practice)
KINK = 5.0  # degrees: what a maker evens out as she sews the edge; a dart of 1 cm across a straight waist makes 6
BESIDE = 0.05  # mm: so far off a leg the edge is looked at, for at the leg itself it may turn


def check(garment: Garment) -> list[Note]:
    """Cautions for darts that cannot be closed evenly."""
    return [
        note
        for piece, dart, to in darts(garment)
        for note in (*_legs(garment, piece, dart, to), *_edge(garment, piece, dart, to), *_way(piece, dart))
    ]


def darts(garment: Garment) -> Iterator[tuple[Piece, Takeup, Floats]]:
    """The darts that take up cloth for every body, each with its piece and the points `(bodies, 2)` it is sewn to."""
    for piece in garment.pieces:
        for takeup in piece.takeups:
            if takeup.to is not None and np.all(takeup.width > 0):
                yield piece, takeup, takeup.to


def legs(piece: Piece, takeup: Takeup, to: Floats) -> tuple[Floats, Floats]:
    """The two legs of a dart `(bodies, 1, 4, 2)`, from its edge to its point."""
    path = piece.edge(takeup.edge).segments
    first, last = (point_at(path, takeup.at + way * takeup.width / 2) for way in (-1, 1))
    across = last - first
    return leg(first, to, takeup.bow_first, across)[:, None], leg(last, to, takeup.bow_last, across)[:, None]


def _legs(garment: Garment, piece: Piece, takeup: Takeup, to: Floats) -> list[Note]:
    first, last = (length(leg) for leg in legs(piece, takeup, to))
    shift = np.abs(first - last)
    if not np.any(shift > SHIFT):
        return []
    fact = f"the legs of `{piece.name}.{takeup.name}` differ, for {listed(garment.sizes, shift > SHIFT)}"
    figures = f"at worst by {shift.max():.1f} mm ({_worst(garment, shift)})"
    fix = f"move the point that it runs to: square to `{takeup.edge}` from its middle the legs are alike"
    names: Parts = {"piece": piece.name, "dart": takeup.name, "off": mm(shift.max())}
    plainly = of_sizes("dart_sides_differ", garment.sizes, shift > SHIFT, "sew_from_the_ends", **names)
    return [caution(fact, takeup.span, figures, fix, off=np.where(shift > SHIFT, shift, 0.0), plainly=plainly)]


def _edge(garment: Garment, piece: Piece, takeup: Takeup, to: Floats) -> list[Note]:
    kink = _kink(piece, takeup, to)
    bent = np.abs(kink) > KINK
    if not np.any(bent):
        return []
    worst = worst_of(np.abs(kink))
    fact = f"`{piece.name}.{takeup.edge}` is bent once `{takeup.name}` is closed, for {listed(garment.sizes, bent)}"
    shape = "hollow" if kink[worst] < 0 else "peak"
    figures = f"at worst it makes a {shape} of {abs(kink[worst]):.1f} deg ({garment.sizes[worst]})"
    fix = "add `, trued`: the edge is then drawn as with the dart folded shut"
    names: Parts = {"piece": piece.name, "edge": takeup.edge, "dart": takeup.name, "angle": degrees(abs(kink[worst]))}
    plainly = of_sizes("dart_bends_edge", garment.sizes, bent, SMOOTH_IT, **names)
    return [caution(fact, takeup.span, figures, fix, off=np.where(bent, np.abs(kink), 0.0), plainly=plainly)]


def _way(piece: Piece, takeup: Takeup) -> list[Note]:
    """A trued dart that does not say how it is pressed, where that is not towards the middle of the piece."""
    if takeup.trued_over is None or takeup.pressed is not None:
        return []
    before = piece.edges[[edge.name for edge in piece.edges].index(takeup.edge) - 1]
    if before.on_fold:
        return []
    fact = f"`{piece.name}.{takeup.name}` is trued as it lies when it is pressed towards `{before.name}`"
    plainly = sentence("dart_is_pressed", piece=piece.name, dart=takeup.name, edge=before.name)
    fix = f"add `, pressed towards {before.name}`, or name what it is pressed towards"
    return [remark(fact, takeup.span, fix, plainly=plainly)]


def _kink(piece: Piece, takeup: Takeup, to: Floats) -> Floats:
    """The angle `(bodies,)` in degrees by which the edge turns where the legs come together; left is positive."""
    path = piece.edge(takeup.edge).segments
    begin, end = takeup.at - takeup.width / 2, takeup.at + takeup.width / 2
    outwards = [-start_tangent(leg[:, 0]) for leg in legs(piece, takeup, to)]
    turned = [
        _angle(leg, tangent_at(path, beside))
        for leg, beside in zip(outwards, (begin - BESIDE, end + BESIDE), strict=True)
    ]
    return np.asarray((turned[1] - turned[0] + 180.0) % 360.0 - 180.0)


def _angle(leg: Floats, along: Floats) -> Floats:
    return np.degrees(np.arctan2(cross(leg, along), dot(leg, along)))


def _worst(garment: Garment, badness: Floats) -> str:
    return garment.sizes[worst_of(badness)]
