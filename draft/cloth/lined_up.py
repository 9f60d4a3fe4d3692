"""Free places of a shape that must lie on the lines of striped or checked cloth: where those cross what is free."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Any

from draft.cloth.batches import Shape
from draft.cloth.repeats import first_move

_HAIR = 1e-6
"""Lines are looked at so many mm beside where they run: on the very edge of what is free, rounding would lose them."""
_MOST_ROWS = 2_000
_AT_ONCE = 16
_MORE_ROWS = 3
"""Levels looked at above the lowest that has a place."""


def on_lines(free: Any, shape: Shape, below: float, most: int) -> list[tuple[float, float]]:
    """At most so many moves `(x, y)` in a free region, the lowest first, that bring a shape onto its lines."""
    on = shape.cut_piece.repeat
    assert on is not None
    (x, y), (across, along) = first_move(shape, on).tolist(), on.every.tolist()
    found = _on_rows(free, (x, y), (across, along), below) if along else _columns(free, x, across, below)
    return sorted(found, key=lambda at: (round(at[1], 3), round(at[0], 3)))[:most]


def _on_rows(
    free: Any, first: tuple[float, float], every: tuple[float, float], below: float
) -> list[tuple[float, float]]:
    """The places on the lowest level that has any, and on a few above it."""
    left, _, right, _ = free.bounds
    if not _on_row([(left, right)], 0.0, first[0], every[0]):
        return []  # no line across runs through it anywhere
    found: list[tuple[float, float]] = []
    levels, rows = 0, _rows(free, first[1], every[1], below)
    while some := list(islice(rows, _AT_ONCE)):
        for row, spans in zip(some, _along_rows(free, some), strict=True):
            found += _on_row(spans, row, first[0], every[0])
            levels += bool(found)
            if levels > _MORE_ROWS:
                return found
    return found


def _rows(free: Any, first: float, every: float, below: float) -> Iterator[float]:
    """The levels at which a free region may have places, from the lowest."""
    low, high = float(free.bounds[1]), min(float(free.bounds[3]), below)
    number = math.ceil((low - first - _HAIR) / every)
    for k in range(_MOST_ROWS):
        row = first + (number + k) * every
        if row > high + _HAIR:
            return
        yield row + _HAIR


def _along_rows(free: Any, rows: Sequence[float]) -> list[list[tuple[float, float]]]:
    """From where to where each level runs through a free region."""
    import shapely

    left, _, right, _ = free.bounds
    lines = shapely.linestrings([[(left - 1.0, row), (right + 1.0, row)] for row in rows])
    parts, of = shapely.get_parts(shapely.intersection(free, lines), return_index=True)
    spans: list[list[tuple[float, float]]] = [[] for _ in rows]
    for (low, _, high, _), row in zip(shapely.bounds(parts).tolist(), of.tolist(), strict=True):
        if low == low:  # an empty part has no bounds
            spans[row].append((low, high))
    return [sorted(each) for each in spans]


def _on_row(spans: list[tuple[float, float]], row: float, x: float, every: float) -> list[tuple[float, float]]:
    """Both ends of what is free at a level, or the first and the last line across within it."""
    found = []
    for left, right in spans:
        if every:
            left = x + math.ceil((left - x - _HAIR) / every) * every
            right = x + math.floor((right - x + _HAIR) / every) * every
        if left <= right + _HAIR:
            found += [(left, row)] if right - left < 1.0 else [(left, row), (right, row)]
    return found


def _columns(free: Any, x: float, every: float, below: float) -> list[tuple[float, float]]:
    """The lowest place on each line across that crosses a free region."""
    import shapely

    left, low, right, high = free.bounds
    found = []
    for k in range(math.ceil((left - x - _HAIR) / every), math.floor((right - x + _HAIR) / every) + 1):
        line = shapely.LineString([(x + k * every, low - 1.0), (x + k * every, high + 1.0)])
        crossed = shapely.intersection(free, line)
        found += [(x + k * every, part.bounds[1]) for part in shapely.get_parts(crossed) if part.bounds[1] <= below]
    return found
