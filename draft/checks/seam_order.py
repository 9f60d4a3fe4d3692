"""The edges of a side follow one another, both sides run the same way, and no piece is sewn on turned over."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from draft.base.notes import Note, caution, error
from draft.base.plainly import AGAIN, sentence
from draft.garment.garment import Garment, Join, SidePart
from draft.seams.following import SewnCorners, reversed_side, side_words
from draft.seams.middles import SideParts, edges_at, in_middle, on_fold, side_ends
from draft.seams.opposite import is_turned_over, runs_opposite, with_side_turned


def check(garment: Garment) -> list[Note]:
    """A note for each join whose edges are in the wrong order, or run the wrong way.

    Joins that run the wrong way are turned before the others are looked at, so that one slip is told once.
    """
    opposite = [runs_opposite(garment, join) for join in garment.joins]
    pairs = list(zip(garment.joins, opposite, strict=True))
    mended = replace(garment, joins=tuple(with_side_turned(garment, join) if wrong else join for join, wrong in pairs))
    notes = [_opposite(garment, join) if wrong else _join(mended, join) for join, wrong in pairs]
    return [note for note in notes if note]


def _opposite(garment: Garment, join: Join) -> Note:
    fact = f"the two sides of `{join.name}` run opposite ways"
    turned = with_side_turned(garment, join)
    other = turned.first if turned.first != join.first else turned.second
    fixes = [*_fold(garment, join), f"write `{side_words(other)}`"]
    return error(fact, join.span, *fixes, plainly=sentence("seam_is_turned", AGAIN, seam=join.name))


def _fold(garment: Garment, join: Join) -> list[str]:
    """What comes to lie on a fold though nothing goes on there, where a fold tells."""
    ends = [(side_ends(garment, parts), parts) for parts in (join.first, join.second)]
    for (corners, parts), (others, other) in (ends, ends[::-1]):
        for corner, at, part in zip(corners, others, (other[0], other[-1]), strict=True):
            if on_fold(garment, corner) and not in_middle(garment, at):
                beside = next(edge.name for edge in edges_at(garment, at) if edge.name != part.edge)
                end = f"the end of `{part.piece}.{part.edge}` at `{beside}`"
                return [f"the fold of `{parts[0].piece}` would lie on {end}"]
    return []


def _join(garment: Garment, join: Join) -> Note | None:
    meetings = SewnCorners(garment, without=join)
    for parts in (join.first, join.second):
        if note := _order(join, parts, meetings):
            return note
    if not (len(join.first) == len(join.second) == 1 and is_turned_over(garment, join.first[0], join.second[0])):
        return None
    one, other = join.first[0].piece, join.second[0].piece
    fact = f"along `{join.name}` the right side of `{other}` would come to lie inside"
    if one == other:
        fact = f"along `{join.name}` the piece `{one}` would be twisted before it is sewn to itself"
    plainly = sentence("seam_is_turned", AGAIN, seam=join.name)
    return error(fact, join.span, *_way_round(garment, join), plainly=plainly)


def _way_round(garment: Garment, join: Join) -> list[str]:
    """How it is sewn with no piece turned over; where other joins leave no such way they are to be looked at first."""
    turned = replace(join, second=reversed_side(join.second))
    joins = tuple(turned if other is join else other for other in garment.joins)
    if not runs_opposite(replace(garment, joins=joins), turned):
        return [f"write `{side_words(turned.second)}`"]
    pieces = " and ".join(f"`{name}`" for name in sorted(join.pieces))
    return [f"sewn the other way round it ends where other joins of {pieces} do not: turn those about too"]


def _order(join: Join, parts: SideParts, meetings: SewnCorners) -> Note | None:
    """A note on a side whose parts do not follow one another."""
    if meetings.follow(parts):
        return None
    found = meetings.in_order(parts)
    if found:
        fact = f"`{side_words(parts)}` does not run on from edge to edge"
        missing = "or declare the seam at which those edges meet, if it is missing under `join`"
        return error(fact, join.span, f"write `{side_words(found)}`", missing)
    before, after = next(pair for pair in pairwise(parts) if not meetings.follow(pair))
    fact = f"nothing brings the end of `{_named(before)}` and the start of `{_named(after)}` together"
    return caution(fact, join.span, "declare the seam at which they meet, under `join`")


def _named(part: SidePart) -> str:
    return side_words((part,))
