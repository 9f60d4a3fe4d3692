"""Both sides of a seam carry the same allowance, so that their cut edges lie on one another while it is sewn."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from draft.base.notes import Note, caution
from draft.base.plainly import mm, sentence
from draft.garment.garment import Garment, Join
from draft.seams.sharing import both_sides
from draft.seams.sides import SideEdge

SAME = 0.05  # mm: 1/2 in and 1.27 cm are one width
LEAST = 0.02  # of the seam: edges that overlap by less only touch


def check(garment: Garment) -> list[Note]:
    """A caution for each join where edges of unlike allowance are sewn together."""
    return [note for join in garment.joins for note in _join(garment, join)]


def _join(garment: Garment, join: Join) -> list[Note]:
    unlike = [(a, b) for a, b in _together(garment, join) if abs(a.edge.allowance - b.edge.allowance) > SAME]
    return list(dict.fromkeys(_note(join, *pair) for pair in unlike))


def _note(join: Join, one: SideEdge, other: SideEdge) -> Note:
    wide, narrow = sorted((one, other), key=lambda side_edge: -side_edge.edge.allowance)
    names = [f"`{side_edge.piece.name}.{side_edge.edge.name}`" for side_edge in (wide, narrow)]
    widths = [f"{side_edge.edge.allowance:.4g} mm" for side_edge in (wide, narrow)]
    fact = f"along `{join.name}` the allowance of {names[0]} is {widths[0]}, and that of {names[1]} {widths[1]}"
    amounts = {"wide": mm(wide.edge.allowance), "narrow": mm(narrow.edge.allowance)}
    plainly = sentence("allowances_differ", seam=join.name, piece=wide.piece.name, other=narrow.piece.name, **amounts)
    return caution(fact, join.span, f"give both one width, as in `allowance {widths[0]}`", plainly=plainly)


def _together(garment: Garment, join: Join) -> list[tuple[SideEdge, SideEdge]]:
    """The edges of the first side with those of the second that come to lie on them."""
    first, second = both_sides(garment, join)
    one, other = _shares(first.edges), _shares(second.edges)
    if second.copies == 2 * first.copies:
        other = _opened_out(other)
    elif first.copies == 2 * second.copies:
        one = _opened_out(one)
    return [
        (a, b)
        for a, begins, ends in one
        for b, other_begins, other_ends in other
        if min(ends, other_ends) - max(begins, other_begins) > LEAST
    ]


_Placed = tuple[SideEdge, float, float]


def _shares(edges: tuple[SideEdge, ...]) -> list[_Placed]:
    """Each edge with the shares of its side at which it begins and ends, over all bodies alike."""
    lengths = np.array([float(np.mean(side_edge.length)) for side_edge in edges])
    ends = np.concatenate([[0.0], np.cumsum(lengths)]) / max(float(lengths.sum()), 1e-9)
    return [(side_edge, float(a), float(b)) for side_edge, (a, b) in zip(edges, pairwise(ends), strict=True)]


def _opened_out(placed: list[_Placed]) -> list[_Placed]:
    """A half side and its mirror image behind it, as one."""
    near = [(side_edge, a / 2, b / 2) for side_edge, a, b in placed]
    return near + [(side_edge, 1 - b, 1 - a) for side_edge, a, b in reversed(near)]
