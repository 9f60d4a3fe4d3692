"""Notches that a file sets itself on both sides of a seam pair off, and come together where both are even and flat."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import Sentence, of_sizes
from draft.base.worst import worst_of
from draft.garment.garment import Garment, Join
from draft.seams.following import side_words
from draft.seams.sections import matches, set_by_hand

APART = 1.0  # mm: the thickness of a notch as it is snipped


def check(garment: Garment) -> list[Note]:
    """A caution for each join whose own notches do not pair off, or do not come together."""
    return [note for join in garment.joins for note in _join(garment, join)]


def _join(garment: Garment, join: Join) -> list[Note]:
    first, second = set_by_hand(garment, join)
    if not first.strokes or not second.strokes:
        return []  # a notch on one side alone shows something else: a pocket, the end of a slit
    if first.strokes != second.strokes:
        counts = " and ".join(
            f"`{side_words(parts)}` {_told(strokes)}"
            for parts, strokes in ((join.first, first.strokes), (join.second, second.strokes))
        )
        fix = f"set them in the join, as in `notch at 30 %`, which marks both sides of `{join.name}` alike"
        fact, plainly = f"the notches along `{join.name}` do not pair off: {counts}", _plainly(garment, join)
        return [caution(fact, join.span, fix, plainly=plainly)]
    return _apart(garment, join) if join.fit == "even" and not _is_gathered(garment, join) else []


def _is_gathered(garment: Garment, join: Join) -> bool:
    """Whether a side is gathered: notches on it may say where the gathers lie, and then it is drawn up between them."""
    edges = [garment.piece(part.piece).edge(part.edge) for part in (*join.first, *join.second)]
    return any(edge.gathered is not None or edge.drawn_up is not None for edge in edges)


def _apart(garment: Garment, join: Join) -> list[Note]:
    pairs = [match for match in matches(garment, join)[1:-1] if match.is_notch and not match.by_share]
    off = np.max([np.abs(match.first - match.second) for match in pairs], axis=0)
    if not np.any(off > APART):
        return []
    worst = worst_of(off)
    match = max(pairs, key=lambda match: float(abs(match.first - match.second)[worst]))
    fact = f"notches along `{join.name}` do not come together, for {listed(garment.sizes, off > APART)}"
    figures = (
        f"at worst they lie {off[worst]:.1f} mm apart ({garment.sizes[worst]}): {match.first[worst]:.1f} mm along "
        f"`{side_words(join.first)}` and {match.second[worst]:.1f} mm along `{side_words(join.second)}`"
    )
    plainly = _plainly(garment, join, off > APART)
    return [caution(fact, join.span, figures, off=np.where(off > APART, off, 0.0), plainly=plainly)]


def _plainly(garment: Garment, join: Join, where: Bools | None = None) -> Sentence:
    there = np.zeros(len(garment.sizes), dtype=bool) if where is None else where
    return of_sizes("notches_apart", garment.sizes, there, "trust_the_ends", seam=join.name)


def _told(strokes: tuple[int, ...]) -> str:
    kinds = [f"{count} {kind}" for kind, count in (("single", strokes.count(1)), ("double", strokes.count(2))) if count]
    return f"has {' and '.join(kinds)}"
