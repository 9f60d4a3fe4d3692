"""Both sides of every seam divided at the same shares of their sewn length, and the pairs of places that makes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Join, SidePart
from draft.toile.outline_lines import OutlineLine
from draft.toile.panel import Panel
from draft.toile.why_not import CannotDress

Place: TypeAlias = tuple[str, str, int]
"""A piece, one of its lines, and the number of a vertex along that."""
Along: TypeAlias = list[tuple[str, str, bool]]
"""A side as lines of pieces, each with whether the side runs along it from last point to first."""

_SAME = 1e-7  # of a side


def divided(
    panels: Mapping[str, Panel], joins: Iterable[Join], edge_length: float, halved: bool = True
) -> list[tuple[Place, Place]]:
    """Divides the lines of all seams, and gives which places of them are sewn to one another."""
    pairs: list[tuple[Place, Place]] = []
    for panel in panels.values():
        for one, other in panel.shut:
            pairs += _divide(panels, [(panel.name, one, False)], [(panel.name, other, True)], edge_length)
    for join in joins:
        sides = _sides(panels, join, halved)
        if sides is not None:
            pairs += _divide(panels, *sides, edge_length)
    for panel in panels.values():
        if panel.band:
            _divide_crease(panel)
    return pairs


def _sides(panels: Mapping[str, Panel], join: Join, halved: bool) -> tuple[Along, Along] | None:
    """Both sides as lines; None where there is nothing to sew: on the middle, or where a strip is folded on itself."""
    parts = (*join.first, *join.second)
    there = [part.piece in panels and part.edge in panels[part.piece].parts for part in parts]
    if all(there):
        if halved and all(part.edge in panels[part.piece].middles for part in parts):
            return None
        return _along(panels, join.first), _along(panels, join.second)
    if len(join.pieces) == 1:
        return None
    missing = next(part for part, has in zip(parts, there, strict=True) if not has)
    raise CannotDress("why_folded_in", name_seam=join.name, name_piece=missing.piece)


def _along(panels: Mapping[str, Panel], parts: tuple[SidePart, ...]) -> Along:
    found: Along = []
    for part in parts:
        names = panels[part.piece].parts[part.edge]
        found += [(part.piece, name, part.reverse) for name in (names[::-1] if part.reverse else names)]
    return found


def _divide(panels: Mapping[str, Panel], first: Along, second: Along, edge_length: float) -> list[tuple[Place, Place]]:
    sides = [[panels[piece].lines[name] for piece, name, _ in side] for side in (first, second)]
    if any(line.cuts is not None for side in sides for line in side):
        raise CannotDress("why_two_seams", name_piece=panels[first[0][0]].piece.title)
    lengths = [np.array([line.length for line in side]) for side in sides]
    ends = [np.concatenate([[0.0], np.cumsum(long)]) / long.sum() for long in lengths]
    shares = _shares(ends, max(long.sum() for long in lengths), edge_length)
    one, other = (_places(panels, *each, shares) for each in zip((first, second), ends, strict=True))
    return [(p, q) for here, there in zip(one, other, strict=True) for p in here for q in there]


def _shares(ends: list[Floats], long: float, edge_length: float) -> Floats:
    """Shares at which both sides are divided: where a line of either ends, and evenly between."""
    marks = np.unique(np.round(np.concatenate(ends), 9))
    found = [np.array([0.0])]
    for start, end in pairwise(marks.tolist()):
        if (end - start) * long > 1e-3:
            count = max(1, round((end - start) * long / edge_length))
            found.append(start + (end - start) * np.arange(1, count + 1) / count)
    return np.concatenate(found)


def _places(panels: Mapping[str, Panel], side: Along, ends: Floats, shares: Floats) -> list[list[Place]]:
    """The places at each share: two where a line ends and the next begins. Settles the cuts of the lines."""
    found: list[list[Place]] = [[] for _ in shares]
    for (piece, name, reverse), start, end in zip(side, ends[:-1], ends[1:], strict=True):
        here = np.flatnonzero((shares >= start - _SAME) & (shares <= end + _SAME))
        cuts = np.clip((shares[here] - start) / (end - start), 0.0, 1.0)
        line: OutlineLine = panels[piece].lines[name]
        line.cuts = 1.0 - cuts[::-1] if reverse else cuts
        for order, share in enumerate(here):
            found[share].append((piece, name, len(here) - 1 - order if reverse else order))
    return found


def _divide_crease(panel: Panel) -> None:
    """The crease of a strip is divided as the edge that is sewn, and its ends are not where it is narrow."""
    crease, base = panel.lines["crease"], panel.lines[panel.base]
    if base.cuts is not None and crease.cuts is None:
        crease.cuts = 1.0 - base.cuts[::-1]
