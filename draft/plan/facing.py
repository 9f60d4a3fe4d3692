"""Which joins sew a facing to its piece: both have the edge from the same paper, on the same side of it."""

from __future__ import annotations

from collections.abc import Mapping

from draft.garment.garment import JoinOf
from draft.language import tree
from draft.plan.plan import Value


def is_faced(join: JoinOf[Value], pieces: Mapping[str, tree.Piece]) -> bool:
    """Whether the two sides of a join are one edge of one draft, that both pieces were traced with."""
    if len(join.first) != 1 or len(join.second) != 1:
        return False
    one, other = join.first[0], join.second[0]
    if one.edge != other.edge or one.piece == other.piece:
        return False
    drafts = [_drafts(part.piece, pieces) for part in (one, other)]
    return bool(set(drafts[0]) & set(drafts[1]))


def _drafts(name: str, pieces: Mapping[str, tree.Piece]) -> list[str]:
    """A piece and what it is traced from, as far back as that goes; an edge drawn anew belongs to the piece alone."""
    found = [name]
    while (piece := pieces.get(found[-1])) and piece.origin and piece.origin.draft.text not in found:
        found.append(piece.origin.draft.text)
    return found
