"""Bands and waistbands: strips folded along their length, half as wide as they are cut and of two layers.

One that goes round both halves of the garment is meshed for half of its length, from its ends to its middle.
"""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Mark, Piece
from draft.toile.outline_lines import OutlineLine
from draft.toile.panel import Panel

CREASE = "crease"
MIDDLE = "middle"
_UNEVEN = 0.25  # of its width, by which the parts of a folded strip differ at most
_ALIKE = 0.95  # cosine: the crease runs along the edge that is sewn


def crease_of(piece: Piece) -> Mark | None:
    """The line that a strip is folded along."""
    folds = [mark for mark in piece.marks if mark.line == "fold" and mark.points.shape[1] == 2]
    return folds[0] if len(folds) == 1 and not piece.on_fold else None


def folded_strip(piece: Piece, body: int, base: str, halved: bool, far_half: bool) -> Panel:
    """A strip as far as its crease, sewn on by an edge `base`; only the half at its start, or the far one."""
    crease = crease_of(piece)
    assert crease is not None
    edge = OutlineLine.of(piece.edge(base).segments[body])
    fold = crease.points[body]
    start, end = edge.points[0], edge.points[-1]
    if (fold[1] - fold[0]) @ (end - start) < 0:
        fold = fold[::-1]
    fold = _within(fold, start, end, _slants(piece, base, body))
    names = [other.name for other in piece.edges]
    before, after = (names[(names.index(base) + k) % len(names)] for k in (-1, 1))
    ring = _ring(edge, fold, base, before, after, (halved, far_half))
    panel = Panel(piece, ring, {name: [name] for name in ring}, layers=2.0, band=True, base=base)
    panel.middles = {before, after, MIDDLE} & set(ring) if halved else set()
    return panel


def _ring(
    edge: OutlineLine, fold: Floats, base: str, before: str, after: str, half: tuple[bool, bool]
) -> dict[str, OutlineLine]:
    """The four lines of the strip, or of one of its halves."""
    halved, far = half
    begin, stop = (0.5 if halved and far else 0.0), (0.5 if halved and not far else 1.0)
    low = edge.between(begin * edge.length, stop * edge.length)
    high = fold[0] + np.array([begin, stop])[:, None] * (fold[1] - fold[0])
    return {
        base: low,
        MIDDLE if halved and not far else after: _straight(low.points[-1], high[1]),
        CREASE: _straight(high[1], high[0]),
        MIDDLE if halved and far else before: _straight(high[0], low.points[0]),
    }


def _straight(start: Floats, end: Floats) -> OutlineLine:
    return OutlineLine(np.stack([start, end]))


def _slants(piece: Piece, base: str, body: int) -> bool:
    """Whether its ends are cut on the slant, so that the crease is not as long as the edge."""
    names = [edge.name for edge in piece.edges]
    at = names.index(base)
    way = piece.edge(base).segments[body]
    along = (way[-1, 3] - way[0, 0]) / float(np.hypot(*(way[-1, 3] - way[0, 0])))
    ends = [piece.edges[(at + k) % len(names)].segments[body] for k in (-1, 1)]
    return any(0.05 < abs(float(_unit(end[-1, 3] - end[0, 0]) @ along)) < _ALIKE for end in ends)


def _within(fold: Floats, start: Floats, end: Floats, slants: bool) -> Floats:
    """The crease between the ends of the edge: what laps over beyond them is left out."""
    along = _unit(end - start)
    if slants:
        return fold
    off = fold[0] - start - along * float((fold[0] - start) @ along)
    return np.stack([start + off, end + off])


def _unit(way: Floats) -> Floats:
    return np.asarray(way / max(float(np.hypot(*way)), 1e-9))


def sewn_by(piece: Piece, joined: Collection[str], body: int) -> str:
    """The edge of a strip by which it is sewn on: of those that are, the longest along its crease; empty where none.

    A fold far from the middle, as of a front that is its own facing, makes no strip.
    """
    crease = crease_of(piece)
    if crease is None or not _in_the_middle(piece, crease, body):
        return ""
    along = _unit(crease.points[body, 1] - crease.points[body, 0])
    found = []
    for edge in piece.edges:
        way = edge.segments[body, -1, 3] - edge.segments[body, 0, 0]
        if edge.name in joined and abs(float(_unit(way) @ along)) > _ALIKE:
            found.append((float(np.hypot(*way)), edge.name))
    return max(found)[1] if found else ""


def _in_the_middle(piece: Piece, crease: Mark, body: int) -> bool:
    way = _unit(crease.points[body, 1] - crease.points[body, 0])
    points = np.concatenate([edge.segments[body].reshape(-1, 2) for edge in piece.edges])
    off = (points - crease.points[body, 0]) @ np.array([way[1], -way[0]])
    return abs(float(off.max() + off.min())) < _UNEVEN * float(np.ptp(off))
