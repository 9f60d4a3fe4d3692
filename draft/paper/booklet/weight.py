"""Which seams of a knit carry its weight, and must not grow."""

from __future__ import annotations

from draft.garment.garment import Join, SidePart
from draft.paper.booklet.facts import BookletFacts
from draft.seams.joins_in_order import neighbour


def carries(join: Join, facts: BookletFacts) -> bool:
    """Whether a knit hangs from this seam: it begins or ends at an opening that a band is stretched to, at the neck."""
    if not facts.knit or len(join.first) != 1 or join.fit != "even":
        return False
    ends = [neighbour(facts.garment, join.first[0], at_end) for at_end in (False, True)]
    for other in facts.garment.joins:
        for piece, edge in ends:
            if other.stretched and (piece, edge) in {(part.piece, part.edge) for part in other.second}:
                start = [neighbour(facts.garment, SidePart(piece, edge), at_end) for at_end in (False, True)]
                return any(facts.garment.piece(p).edge(e).on_fold for p, e in start)
    return False
