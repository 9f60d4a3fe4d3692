"""How many points lines may run through: with more than any cloth shows, drawing takes minutes and gigabytes."""

from __future__ import annotations

from collections.abc import Iterable

from draft.base.notes import Note, error
from draft.plan.finishing import Filled

OF_AN_EDGE = 400
"""A lace of a hundred scallops has as many."""
OF_ALL = 4_000
"""Of all edges of all pieces; a lined coat has some hundreds."""


def too_many_points(pieces: Iterable[Filled]) -> list[Note]:
    """A note on the first edge with too many points, or on the piece where all together become too many."""
    count = 0
    for filled in pieces:
        for edge in filled.body.edges:
            if len(edge.legs) > OF_AN_EDGE:
                fact = f"`{edge.name}` runs through {len(edge.legs):,} points, more than {OF_AN_EDGE}"
                return [error(fact, edge.name_span, "leave points out: a curve runs smoothly through few")]
            count += len(edge.legs)
        if count > OF_ALL:
            fact = f"up to here the edges of this pattern run through over {OF_ALL:,} points, more than can be drawn"
            return [error(fact, filled.piece.name_span, "leave points out, or write it as two patterns")]
    return []
