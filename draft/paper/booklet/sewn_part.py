"""Which part of each edge is sewn in a join, and which is left open: what a drawing shows thick."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Join, Opening, SidePart
from draft.geometry.cubic import lines_through
from draft.geometry.length import length
from draft.geometry.part import part_along
from draft.geometry.ruler import Ruler
from draft.seams.openings import gaps
from draft.seams.sides import Side, side

_LEAST = 1.0  # mm: less of an edge than this is not drawn
_STROKE = 0.02
"""Half of a notch's stroke, of the longer side of its piece: the drawing is small."""
_APART = 0.9
Runs = dict[tuple[str, str], list[Floats]]
"""For each edge, by piece and name, parts of its line `(n, 4, 2)` as it is drafted."""


def sewn_runs(garment: Garment, join: Join, body: int) -> Runs:
    """What is sewn of each edge; an opening on one side of the body alone is sewn on the other, and drawn so."""
    opened = [gap for gap in gaps(garment, join) if not gap.opening.on_side]
    shares = [(float(gap.begins[body] / gap.length[body]), float(gap.ends[body] / gap.length[body])) for gap in opened]
    return _runs(garment, join, body, _others(shares))


def notch_strokes(garment: Garment, join: Join, body: int) -> Runs:
    """A short stroke across each edge of a join at each of its notches, two where they are double."""
    found: Runs = {}
    for part in (*join.first, *join.second):
        piece = garment.piece(part.piece)
        ruler = Ruler(piece.edge(part.edge).segments[body])
        half = _STROKE * float(np.ptp(np.concatenate([one.segments[body, :, 0] for one in piece.edges]), axis=0).max())
        for notch in piece.notches:
            if notch.edge == part.edge and np.isfinite(notch.at[body]):
                point, way = ruler.place(float(notch.at[body]))
                across = np.array([-way[1], way[0]]) * half
                asides = [0.0] if notch.strokes == 1 else [-_APART * half, _APART * half]
                strokes = [lines_through([point + s * way - across, point + s * way + across]) for s in asides]
                found.setdefault((part.piece, part.edge), []).extend(strokes)
    return found


def open_runs(garment: Garment, join: Join, opening: Opening, body: int) -> Runs:
    """What one opening leaves open of each edge."""
    gap = next(gap for gap in gaps(garment, join) if gap.opening is opening)
    return _runs(garment, join, body, [tuple(float(at[body] / gap.length[body]) for at in (gap.begins, gap.ends))])


def _others(shares: list[tuple[float, float]]) -> list[tuple[float, ...]]:
    """What lies between some shares of a line, and at its ends."""
    found, at = list[tuple[float, ...]](), 0.0
    for begin, end in sorted(shares):
        found.append((at, begin))
        at = max(at, end)
    return [*found, (at, 1.0)]


def _runs(garment: Garment, join: Join, body: int, shares: list[tuple[float, ...]]) -> Runs:
    found: Runs = {}
    for parts in (join.first, join.second):
        whole = side(garment, parts)
        for part, begin, end in _within(whole, body, shares):
            path = garment.piece(part.piece).edge(part.edge).segments
            low, high = (np.asarray(length(path) * share) for share in (begin, end))
            if float((high - low)[body]) > _LEAST:
                found.setdefault((part.piece, part.edge), []).append(part_along(path, low, high)[body])
    return found


def _within(whole: Side, body: int, shares: list[tuple[float, ...]]) -> list[tuple[SidePart, float, float]]:
    """The shares of a side as shares of each of its edges, in the direction in which that is drafted."""
    found, before = [], 0.0
    total = float(whole.length[body])
    for edge in whole.edges:
        own = float(edge.length[body])
        for begin, end in shares:
            low = np.clip((begin * total - before) / own, 0.0, 1.0)
            high = np.clip((end * total - before) / own, 0.0, 1.0)
            found.append((edge.part, 1 - high, 1 - low) if edge.part.reverse else (edge.part, low, high))
        before += own
    return [(part, float(low), float(high)) for part, low, high in found]
