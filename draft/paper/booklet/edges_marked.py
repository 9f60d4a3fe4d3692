"""Edges in words, by what stands along them on the paper: the letter of a seam, or the name of a hem.

A maker has only the paper. What an edge is called in the pattern's text stands on none of it.
"""

from __future__ import annotations

from collections.abc import Sequence

from draft.garment.garment import Join, SidePart
from draft.paper.booklet.facts import BookletFacts
from draft.seams.hem_names import called_on_paper
from draft.seams.joins_in_order import edge_letters


def marked(parts: Sequence[SidePart], facts: BookletFacts, join: Join | None = None) -> str:
    """`edge marked C`, `edges marked C`, or `edge “slit”`, where the pieces are known; a join gives its own letter."""
    said = [_edges(text, len(own), facts) for text, own in _grouped(parts, facts, join).items()]
    return facts.wording.listed(said)


def marked_together(joins: Sequence[Join], facts: BookletFacts) -> str:
    """`edges marked L and M`: the first sides of several joins in one, each under its join's own letter."""
    found = [(said, len(own)) for one in joins for said, own in _grouped(one.first, facts, one).items()]
    letters = [(text, count) for (text, lettered), count in found if lettered]
    named = [_edges(said, count, facts) for said, count in found if not said[1]]
    if letters:
        text = facts.wording.listed([text for text, _ in letters])
        named = [_edges((text, True), sum(count for _, count in letters), facts), *named]
    return facts.wording.listed(named)


def marked_on(parts: Sequence[SidePart], facts: BookletFacts, join: Join | None = None) -> str:
    """`the edges marked C of the back and sleeve`, and so on for each letter."""
    found = []
    for text, own in _grouped(parts, facts, join).items():
        pieces = facts.pieces([part.piece for part in own])
        found.append(facts.wording.say("sewing.edge_of", edge=_edges(text, len(own), facts), piece=pieces))
    return facts.wording.listed(found)


def seam_called(name: str, facts: BookletFacts) -> str:
    """`seam C`."""
    return facts.wording.say("sewing.seam", letter=facts.letters[name])


def _grouped(
    parts: Sequence[SidePart], facts: BookletFacts, join: Join | None
) -> dict[tuple[str, bool], list[SidePart]]:
    """The parts by what they are marked with, and whether that is a letter; each edge once."""
    letters, found = edge_letters(facts.garment), dict[tuple[str, bool], list[SidePart]]()
    once = {(part.piece, part.edge): part for part in parts}
    for edge, part in once.items():
        lettered = edge in letters
        text = facts.letters[join.name] if join and lettered else letters.get(edge) or _named(part, facts)
        found.setdefault((text, lettered), []).append(part)
    return found


def _named(part: SidePart, facts: BookletFacts) -> str:
    piece = facts.garment.piece(part.piece)
    return facts.edge(called_on_paper(piece, piece.edge(part.edge)))


def _edges(said: tuple[str, bool], count: int, facts: BookletFacts) -> str:
    text, lettered = said
    if not lettered:
        return facts.wording.say("sewing.edge", edge=text)
    return facts.wording.say("sewing.edge_marked" if count == 1 else "sewing.edges_marked", letter=text)
