"""A slit on a fold that a facing is sewn to: both sides are sewn before anything is cut, and it is cut between them."""

from __future__ import annotations

import numpy as np

from draft.garment.garment import Join, SidePart
from draft.geometry.cubic import cross, unit
from draft.geometry.length import length
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.stages import Sentence, staged
from draft.paper.booklet.two_sides import the_side
from draft.seams.joins_in_order import neighbour

_WIDEST, _SHORTEST = 12.0, 20.0  # mm: beside the fold, and along it
_ON_THE_FOLD = 1.5  # mm: so narrow a slit is a line


def is_faced_slit(join: Join, facts: BookletFacts) -> bool:
    """Whether a facing's seam goes along the fold of both of its pieces, as far as the fold begins."""
    sides = (join.first, join.second)
    return join.is_facing and all(len(parts) == 1 and _beside_fold(parts[0], facts) < _WIDEST for parts in sides)


def slit_faced(join: Join, facts: BookletFacts) -> list[Sentence]:
    """How it is sewn and cut."""
    narrow = min(_beside_fold(part, facts) for part in (join.first[0], join.second[0])) < _ON_THE_FOLD
    fields = {
        "first": the_side(join.first, facts),
        "second": the_side(join.second, facts),
        "letter": facts.letters[join.name],
    }
    before, needle = (
        ("slit_faced_marked", "slit_faced_line_sewn") if narrow else ("slit_faced_uncut", "slit_faced_sewn")
    )
    return [staged(key, facts, **fields) for key in (before, "slit_faced", needle, "slit_cut")]


def _beside_fold(part: SidePart, facts: BookletFacts) -> float:
    """How far an edge lies from the fold that it runs out into, mm at most; endless where it is no such edge."""
    piece = facts.garment.piece(part.piece)
    folds = [
        edge for at_end in (False, True) if (edge := piece.edge(neighbour(facts.garment, part, at_end)[1])).on_fold
    ]
    line = piece.edge(part.edge).segments[list(facts.bodies)]
    if not folds or float(np.min(length(line))) < _SHORTEST:
        return np.inf
    fold = folds[0].segments[list(facts.bodies)]
    start, way = fold[:, :1, :1], unit(fold[:, -1, 3] - fold[:, 0, 0])[:, None, None]
    return float(np.abs(cross(np.broadcast_to(way, line.shape), line - start)).max())
