"""Combs on curved edges, by which the eye tells a fair line: those of one size, and of each edge."""

from __future__ import annotations

from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import at_hand
from draft.page.designing.construction import body_asked
from draft.page.designing.path_data import through
from draft.paper.pages.combs import comb
from draft.paper.piece.piece_lines import FLIP


def combs(asked: Asked, bench: Bench) -> Gave:
    """By the name of each piece the `teeth` of every curved edge in one `size`, and the line of their `tips`."""
    drafted = at_hand(asked, bench).drafted
    body = body_asked(asked, drafted)
    found: dict[str, list[dict[str, str]]] = {}
    for piece in drafted.garment.pieces:
        found[piece.name] = []
        for edge in piece.edges if drafted.outcome.drafted[body] else ():
            teeth = comb(edge, body)
            if teeth is not None:
                rows = [through(tooth * FLIP) for tooth in teeth]
                found[piece.name].append(
                    {"edge": edge.name, "teeth": "".join(rows), "tips": through(teeth[:, 1] * FLIP)}
                )
    return {"pieces": found}
