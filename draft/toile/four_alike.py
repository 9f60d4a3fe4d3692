"""A piece that is cut four times, as the quarters of a skirt are: two before the body and two behind.

It is told as two pieces, each cut as a pair. Where the seam that sews it to itself in the middle is another than the
one at the sides, their names tell which is which; a band goes round the quarters behind and then those in front.
"""

from __future__ import annotations

from dataclasses import replace

from draft.garment.garment import Garment, Join, Piece, SidePart
from draft.toile.chosen_panels import on_middle

FRONT, BACK = "front", "back"
_SIDE = "side"


def told_apart(garment: Garment) -> Garment:
    """The garment with each such piece told as a front and a back; as it is where there is none."""
    for piece in garment.pieces:
        if _is_quarter(garment, piece):
            garment = _parted(garment, piece)
    return garment


def _is_quarter(garment: Garment, piece: Piece) -> bool:
    """Whether a piece is cut four times and sewn to itself along two of its edges, one of them at the sides."""
    own = [join for join in garment.joins if on_middle(join, piece.name)]
    names = [join.first[0].edge for join in own]
    return piece.copies() == 4 and not piece.on_fold and len(own) == 2 and sum(_SIDE in name for name in names) == 1


def _parted(garment: Garment, piece: Piece) -> Garment:
    both = tuple(
        replace(piece, name=f"{piece.name}_{role}", cut=2, cut_as="as a pair", cuts=()) for role in (FRONT, BACK)
    )
    pieces = tuple(one for other in garment.pieces for one in (both if other is piece else (other,)))
    joins = tuple(one for join in garment.joins for one in _joined(join, piece.name))
    return replace(garment, pieces=pieces, joins=joins)


def _joined(join: Join, name: str) -> tuple[Join, ...]:
    if name not in join.pieces:
        return (join,)
    if on_middle(join, name):
        if _SIDE in join.first[0].edge:
            return (replace(join, first=_called(join.first, name, FRONT), second=_called(join.second, name, BACK)),)
        roles = (FRONT, BACK)
        return tuple(
            replace(join, first=_called(join.first, name, role), second=_called(join.second, name, role))
            for role in roles
        )
    return (replace(join, first=_both(join.first, name), second=_both(join.second, name)),)


def _called(parts: tuple[SidePart, ...], name: str, role: str) -> tuple[SidePart, ...]:
    return tuple(replace(part, piece=f"{name}_{role}") if part.piece == name else part for part in parts)


def _both(parts: tuple[SidePart, ...], name: str) -> tuple[SidePart, ...]:
    """A side along the quarter behind, from its middle, and back along the one in front to the middle there."""
    found: list[SidePart] = []
    for part in parts:
        if part.piece != name:
            found.append(part)
        else:
            found += [
                replace(part, piece=f"{name}_{BACK}", reverse=not part.reverse),
                replace(part, piece=f"{name}_{FRONT}"),
            ]
    return tuple(found)
