"""How often a join has each of its edges.

A join has all copies of an edge, unless other joins have the rest: the two sides of a back on the fold are one edge,
and where the left front is another than the right one each of them is sewn to one of those sides.
"""

from __future__ import annotations

from dataclasses import replace

from draft.garment.garment import Garment, Join, SidePart
from draft.seams.middles import SideParts, ends_in_slit, in_middle, side_ends
from draft.seams.sides import Side, side


def both_sides(garment: Garment, join: Join) -> tuple[Side, Side]:
    """The two sides of a join, each edge as often as this join has it."""
    first, second = side(garment, join.first), side(garment, join.second)
    fewest = min(first.copies, second.copies)
    if max(first.most_copies, second.most_copies) == fewest:
        return first, second
    return _shared(garment, join, first, fewest), _shared(garment, join, second, fewest)


def sharing(garment: Garment, part: SidePart) -> list[Join]:
    """The joins that share the copies of an edge, all of them together; none where each has them all."""
    found = [join for join in garment.joins if not join.is_lying and _names(join, part)]
    asked = sum(_fewest(garment, join) for join in found)
    return found if len(found) > 1 and asked == _copies(garment, part) and _in_two(garment, found, part) else []


def _shared(garment: Garment, join: Join, along: Side, fewest: int) -> Side:
    edges = [
        replace(each, copies=fewest) if each.copies > fewest and _is_among(join, sharing(garment, each.part)) else each
        for each in along.edges
    ]
    return Side(tuple(edges))


def _is_among(join: Join, joins: list[Join]) -> bool:
    return any(other.span == join.span for other in joins)


def _in_two(garment: Garment, joins: list[Join], part: SidePart) -> bool:
    """Whether the copies lie apart: a side that reaches the middle of the body goes on there, in one piece."""
    return not any(_reaches_middle(garment, parts) for join in joins for parts in _sides_with(join, part))


def _reaches_middle(garment: Garment, parts: SideParts) -> bool:
    corners = side_ends(garment, parts)
    return any(in_middle(garment, corner) and not ends_in_slit(garment, corner) for corner in corners)


def _sides_with(join: Join, part: SidePart) -> list[SideParts]:
    return [parts for parts in (join.first, join.second) if any(_same(other, part) for other in parts)]


def _names(join: Join, part: SidePart) -> bool:
    return bool(_sides_with(join, part))


def _same(one: SidePart, other: SidePart) -> bool:
    return (one.piece, one.edge, one.layer) == (other.piece, other.edge, other.layer)


def _fewest(garment: Garment, join: Join) -> int:
    return min(side(garment, parts).copies for parts in (join.first, join.second))


def _copies(garment: Garment, part: SidePart) -> int:
    return garment.piece(part.piece).copies(part.layer)
