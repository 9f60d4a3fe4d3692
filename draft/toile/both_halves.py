"""A garment whose sides differ, told piece by piece: halves on a fold and pairs by a name of each half.

What is cut once and not on a fold stays one piece. A seam of two halves is sewn twice, left and right; one
that has such a piece on a side is sewn where names say left or right, or where the edge lies on the piece.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from draft.base.record import dataclass
from draft.garment.garment import Garment, Join, Piece, SidePart
from draft.seams.handed import BEHIND
from draft.toile.chosen_panels import Chosen, chosen, on_middle
from draft.toile.folded_strips import sewn_by
from draft.toile.why_not import CannotDress

LEFT, RIGHT = 1, -1
_NAMES = {LEFT: "left_half", RIGHT: "right_half"}


@dataclass(frozen=True, eq=False)
class Whole:
    """The garment told so; on which side each piece with a name of its own lies; which edges lie in the middle."""

    garment: Garment
    sides: Mapping[str, int]
    middles: frozenset[tuple[str, str]]


def sides_differ(garment: Garment, body: int) -> bool:
    """Whether something that is sewn to others is cut once, is on no fold, and is no strip round the garment."""
    facings = {part.piece for join in garment.joins if join.is_facing for part in join.first}
    sewn = {name for join in garment.joins if not join.is_lying and not join.pieces & facings for name in join.pieces}
    stitched = {patch.piece for patch in garment.patches}
    worn = [piece for piece in garment.pieces if piece.name in sewn - stitched]
    return any(_copies(piece) == 1 and not _is_strip(garment, piece, body) for piece in worn)


def _is_strip(garment: Garment, piece: Piece, body: int) -> bool:
    joins = [join for join in garment.joins if not join.closes(piece.name)]
    sewn = {p.edge for join in joins for p in (*join.first, *join.second) if p.piece == piece.name}
    return bool(sewn_by(piece, sewn, body))


def told_whole(garment: Garment, body: int) -> Whole:
    """The garment told piece by piece. Raises CannotDress where it is not told on which side a seam lies."""
    twice = {piece.name for piece in garment.pieces if _copies(piece) == 2}
    pieces = tuple(one for piece in garment.pieces for one in (_both(piece) if piece.name in twice else (piece,)))
    joins, middles = [], set()
    for join in garment.joins:
        if on_middle(join, join.first[0].piece) and join.first[0].piece in twice:
            joins.append(_across(join))
            middles |= {(part.piece, part.edge) for part in (*joins[-1].first, *joins[-1].second)}
        else:
            joins += _sewn(garment, join, twice, body)
    folds = [_at_fold(piece) for piece in garment.pieces if piece.on_fold and piece.name in twice]
    sides = {_named(name, side): side for name in twice for side in _NAMES}
    return Whole(replace(garment, pieces=pieces, joins=(*joins, *folds)), sides, frozenset(middles))


def all_panels(whole: Whole, body: int) -> Chosen:
    """The panels of a garment told so, for one body, with their middles."""
    found = chosen(whole.garment, body, halved=False)
    for name, edge in whole.middles:
        if name in found.panels:
            found.panels[name].middles.add(edge)
    return found


def _copies(piece: Piece) -> int:
    return piece.copies(piece.layers[0] if piece.layers else "")


def _named(name: str, side: int) -> str:
    return f"{name}_{_NAMES[side]}"


def _both(piece: Piece) -> tuple[Piece, ...]:
    return tuple(replace(piece, name=_named(piece.name, side)) for side in _NAMES)


def _at_fold(piece: Piece) -> Join:
    edge = next(edge.name for edge in piece.edges if edge.on_fold)
    left, right = (SidePart(_named(piece.name, side), edge) for side in _NAMES)
    return Join(piece.span, f"{piece.name}_fold", (left,), (right,))


def _across(join: Join) -> Join:
    """A seam that sewed an edge to itself on the other half."""
    return replace(join, first=_on(join.first, LEFT, None), second=_on(join.first, RIGHT, None))


def _sewn(garment: Garment, join: Join, twice: set[str], body: int) -> list[Join]:
    parts = (*join.first, *join.second)
    if all(part.piece in twice for part in parts):
        return [replace(join, first=_on(join.first, s, twice), second=_on(join.second, s, twice)) for s in _NAMES]
    if not any(part.piece in twice for part in parts):
        return [join]
    for one, other, swapped in ((join.first, join.second, False), (join.second, join.first, True)):
        round_it = len(one) == 1 and one[0].piece not in twice and _is_strip(garment, garment.piece(one[0].piece), body)
        if round_it and all(part.piece in twice for part in other):
            found = (*_on(other, LEFT, twice), *_back(_on(other, RIGHT, twice)))
            return [replace(join, first=found if swapped else one, second=one if swapped else found)]
    side = _side_of(garment, join, [part for part in parts if part.piece not in twice])
    return [replace(join, first=_on(join.first, side, twice), second=_on(join.second, side, twice))]


def _on(parts: tuple[SidePart, ...], side: int, twice: set[str] | None) -> tuple[SidePart, ...]:
    """The parts, those of pieces that are there twice on one side."""
    own = {part.piece for part in parts} if twice is None else twice
    return tuple(replace(part, piece=_named(part.piece, side)) if part.piece in own else part for part in parts)


def _back(parts: tuple[SidePart, ...]) -> tuple[SidePart, ...]:
    return tuple(replace(part, reverse=not part.reverse) for part in reversed(parts))


def _side_of(garment: Garment, join: Join, single: list[SidePart]) -> int:
    """On which side a seam lies: as pieces, edges or the seam are called, or as the edges lie on their pieces."""
    for names in ([part.piece for part in single], [part.edge for part in single], [join.name]):
        told = {side for name in names if (side := _called(name))}
        if len(told) == 1:
            return told.pop()
    lies = {_lies(garment.piece(part.piece), part.edge) for part in single}
    if len(lies) != 1:
        raise CannotDress("why_sides_differ", name_piece=garment.piece(single[0].piece).title)
    return lies.pop()


def _called(name: str) -> int:
    words = set(re.split(r"\W|_", name))
    return (LEFT if "left" in words else 0) + (RIGHT if "right" in words else 0)


def _lies(piece: Piece, edge: str) -> int:
    """Seen from the front the wearer's left is on the viewer's right, and from behind on the viewer's left."""
    middle = [float(one.segments[0][..., 0].mean()) for one in piece.edges]
    own = float(piece.edge(edge).segments[0][..., 0].mean())
    behind = any(word in piece.name.split("_") for word in BEHIND)
    return (LEFT if own > sum(middle) / len(middle) else RIGHT) * (-1 if behind else 1)
