"""Which joins sew a facing to its piece: both have the edge from the same paper, or one follows the other's.

A facing of one half alone is drawn with the paper turned over: then its edge is the other's mirror image.
"""

from __future__ import annotations

from collections.abc import Mapping

from draft.garment.garment import JoinOf, SidePart
from draft.language import tree
from draft.plan.plan import Value


def is_faced(join: JoinOf[Value], pieces: Mapping[str, tree.Piece], edges: Mapping[str, tree.Edge]) -> bool:
    """Whether both sides of a join are one edge, part by part: of a draft that both were traced from, or followed."""
    if len(join.first) != len(join.second) or join.onto:
        return False
    pairs = zip(join.first, join.second, strict=True)
    return bool(join.first) and all(_is_pair(one, other, pieces, edges) for one, other in pairs)


def _is_pair(one: SidePart, other: SidePart, pieces: Mapping[str, tree.Piece], edges: Mapping[str, tree.Edge]) -> bool:
    """Whether two parts of a join's sides are one edge."""
    names = [(part.piece, part.edge) for part in (one, other)]
    if _follows(edges, *names) or _follows(edges, *names[::-1]):
        return True
    drafts = [_drafts(part.piece, pieces) for part in (one, other)]
    shared = set(drafts[0]) & set(drafts[1])
    if one.piece == other.piece or not shared:
        return False
    ends = [(one.edge, other.edge), (other.edge, one.edge)]
    return one.edge == other.edge or any(_turned_over(edges, draft, *pair) for draft in shared for pair in ends)


def _follows(edges: Mapping[str, tree.Edge], one: tuple[str, str], other: tuple[str, str]) -> bool:
    """Whether all of one edge lies on another."""
    on = _on(edges, one)
    return isinstance(on, tree.Ref) and on.parts == other


def _turned_over(edges: Mapping[str, tree.Edge], draft: str, one: str, other: str) -> bool:
    """Whether all of a line of a draft lies on the mirror image of another."""
    on = _on(edges, (draft, one))
    line = on.args[0] if isinstance(on, tree.Call) and on.word == "mirrored_edge" else None
    return isinstance(line, tree.Ref) and line.parts in ((other,), (draft, other))


def _on(edges: Mapping[str, tree.Edge], name: tuple[str, str]) -> tree.Expr | None:
    """What a line lies on that has this one leg."""
    edge = edges.get(".".join(name))
    return edge.legs[0].about if edge and len(edge.legs) == 1 and edge.legs[0].sort == "following" else None


def _drafts(name: str, pieces: Mapping[str, tree.Piece]) -> list[str]:
    """A piece and what it is traced from, as far back as that goes; an edge drawn anew belongs to the piece alone."""
    found = [name]
    while (piece := pieces.get(found[-1])) and piece.origin and piece.origin.draft.text not in found:
        found.append(piece.origin.draft.text)
    return found
