"""Which joins sew a facing to its piece: both have the edge from the same paper, or one follows the other's."""

from __future__ import annotations

from collections.abc import Mapping

from draft.garment.garment import JoinOf
from draft.language import tree
from draft.plan.plan import Value


def is_faced(join: JoinOf[Value], pieces: Mapping[str, tree.Piece], edges: Mapping[str, tree.Edge]) -> bool:
    """Whether the two sides of a join are one edge: of a draft that both pieces were traced from, or followed."""
    if len(join.first) != 1 or len(join.second) != 1:
        return False
    one, other = join.first[0], join.second[0]
    names = [(part.piece, part.edge) for part in (one, other)]
    if _follows(edges, *names) or _follows(edges, *names[::-1]):
        return True
    if one.edge != other.edge or one.piece == other.piece:
        return False
    drafts = [_drafts(part.piece, pieces) for part in (one, other)]
    return bool(set(drafts[0]) & set(drafts[1]))


def _follows(edges: Mapping[str, tree.Edge], one: tuple[str, str], other: tuple[str, str]) -> bool:
    """Whether all of one edge lies on another."""
    edge = edges.get(".".join(one))
    on = edge.legs[0].about if edge and len(edge.legs) == 1 and edge.legs[0].sort == "following" else None
    return isinstance(on, tree.Ref) and on.parts == other


def _drafts(name: str, pieces: Mapping[str, tree.Piece]) -> list[str]:
    """A piece and what it is traced from, as far back as that goes; an edge drawn anew belongs to the piece alone."""
    found = [name]
    while (piece := pieces.get(found[-1])) and piece.origin and piece.origin.draft.text not in found:
        found.append(piece.origin.draft.text)
    return found
