"""Elastic holds on the body, and stretches as far as the cloth that it draws in."""

from __future__ import annotations

import numpy as np

from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import Parts, mm, of_sizes
from draft.base.plainly import share as part
from draft.base.units import in_centimetres
from draft.base.worst import worst_of
from draft.fabrics.properties import percent
from draft.garment.elastics import Elastic, elastics
from draft.garment.garment import Finished, Garment
from draft.seams.sides import sewn_length

MOST = 1.0
"""By which share of its length elastic stretches at most: knitted and braided kinds reach about twice their length
(common practice)."""


def check(garment: Garment) -> list[Note]:
    """A note for each elastic that is too loose for the body, or too short for its cloth."""
    loose = [_loose(garment, one) for one in garment.finished]
    short = [_short(garment, one) for one in elastics(garment)]
    return [note for note in (*loose, *short) if note]


def _loose(garment: Garment, finished: Finished) -> Note | None:
    """Elastic that is no shorter than what it is worn over does not hold there."""
    if finished.flat is None or finished.over is None:
        return None
    body, girth = finished.over
    room = finished.values - girth
    if np.all(room < 0):
        return None
    worst = worst_of(room)
    fact = f"the elastic of the {finished.title} does not hold, for {listed(garment.sizes, room >= 0)}"
    figures = f"relaxed it measures {in_centimetres(float(room[worst]))} more than the {body} ({garment.sizes[worst]})"
    plainly = of_sizes("elastic_is_loose", garment.sizes, room >= 0, level=finished.name, room=mm(room[worst]))
    return caution(fact, finished.span, figures, f"make it shorter than the {body}", plainly=plainly)


def _short(garment: Garment, one: Elastic) -> Note | None:
    halves = 2 if one.piece.on_fold else 1
    share = sewn_length(one.piece, one.edge) * halves / np.maximum(one.length, 1e-6) - 1
    if np.all(share <= MOST):
        return None
    worst = worst_of(share)
    where = f"`{one.piece.name}.{one.edge.name}`"
    fact = f"the elastic of {where} is too short for its cloth, for {listed(garment.sizes, share > MOST)}"
    figures = f"it would have to stretch by {percent(float(share[worst]))} ({garment.sizes[worst]})"
    names: Parts = {"piece": one.piece.name, "edge": one.edge.name, "asked": part(share[worst])}
    plainly = of_sizes("elastic_is_short", garment.sizes, share > MOST, **names)
    return caution(fact, one.edge.span, figures, "make it longer, or the edge shorter", plainly=plainly)
