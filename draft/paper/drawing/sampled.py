"""Lines as points: sampling cubic segments, places along them, and the polygons that searches for room need."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from draft.base.arrays import Floats
from draft.geometry import cubic

SAMPLES = 16
"""Points taken on a curved segment: on a 300 mm curve of a garment the chords stay within 0.1 mm of it."""
_SMOOTH = np.radians(3)
"""A turn of less is a joint of a smooth line, not a corner."""
_FINE = 64  # for places along an edge: a notch within 0.01 mm
ON_LINE = 0.01
"""A segment within this many mm of the fold lies on it."""


def points(segments: Floats, samples: int = SAMPLES) -> Floats:
    """Points `(m, 2)` along segments `(n, 4, 2)`, both ends included; straight segments give their ends only."""
    t = np.linspace(0.0, 1.0, samples + 1)[:-1]
    along = cubic.point(segments[:, None], t)
    keep = np.ones(along.shape[:2], dtype=bool)
    keep[cubic.is_straight(segments), 1:] = False
    return np.concatenate([along[keep], segments[-1:, 3]])


def polygon(segments: Floats) -> Any:
    """A closed outline `(n, 4, 2)` as a shapely polygon, mended if it touches itself."""
    import shapely

    shape = shapely.Polygon(points(segments))
    return shape if shape.is_valid else shapely.make_valid(shape)


def signed_area(segments: Floats) -> float:
    """Area inside a closed outline, positive when it runs counterclockwise (y up)."""
    ring = points(segments)
    return float(np.sum(cubic.cross(ring[:-1], ring[1:])) / 2)


class Ruler:
    """Places along a chain of segments `(n, 4, 2)`, by the distance from its first point."""

    def __init__(self, segments: Floats) -> None:
        t = np.linspace(0.0, 1.0, _FINE + 1)
        along = cubic.point(segments[:, None], t[:-1]).reshape(-1, 2)
        self._points = np.concatenate([along, segments[-1:, 3]])
        self._ends = np.concatenate([[0.0], np.cumsum(cubic.norm(np.diff(self._points, axis=0)))])
        self._segments = segments

    @property
    def length(self) -> float:
        """Arc length of the chain."""
        return float(self._ends[-1])

    def place(self, at: float) -> tuple[Floats, Floats]:
        """The point `(2,)` at distance `at` and the unit direction there."""
        index = int(np.clip(np.searchsorted(self._ends, at, side="right") - 1, 0, len(self._ends) - 2))
        step = self._ends[index + 1] - self._ends[index]
        part = (at - self._ends[index]) / step if step > 0 else 0.0
        segment, before = divmod(index, _FINE)
        u = np.clip((before + part) / _FINE, 0.0, 1.0)
        one = self._segments[segment]
        return cubic.point(one, u), cubic.unit(cubic.derivative(one, u))

    def places(self, at: Floats) -> tuple[Floats, Floats]:
        """Points `(n, 2)` and unit directions at distances `(n,)`, between samples: for words, not cuts."""
        index = np.clip(np.searchsorted(self._ends, at, side="right") - 1, 0, len(self._ends) - 2)
        chords = self._points[index + 1] - self._points[index]
        points = np.stack([np.interp(at, self._ends, self._points[:, axis]) for axis in (0, 1)], axis=-1)
        return points, cubic.unit(chords)


def on_line(segments: Floats, start: Floats, end: Floats) -> NDArray[np.bool_]:
    """Which segments `(n,)` lie along the straight line through two points, past its ends too."""
    across = cubic.cross(cubic.unit(end - start), segments - start)
    return np.asarray(np.max(np.abs(across), axis=-1) < ON_LINE)


def runs(segments: Floats, keep: NDArray[np.bool_]) -> tuple[Floats, ...]:
    """The kept segments of a closed outline as unbroken chains; all of it when everything is kept."""
    if keep.all() or not keep.any():
        return (segments,) if keep.all() else ()
    first = int(np.flatnonzero(keep & ~np.roll(keep, 1))[0])
    turned, kept = np.roll(segments, -first, axis=0), np.roll(keep, -first)
    starts = np.flatnonzero(kept & ~np.concatenate([[False], kept[:-1]]))
    ends = np.flatnonzero(kept & ~np.concatenate([kept[1:], [False]]))
    return tuple(turned[a : b + 1] for a, b in zip(starts, ends, strict=True))


def at_corners(segments: Floats, corners: Floats, reach: float) -> tuple[Floats, ...] | None:
    """A closed outline `(n, 4, 2)` cut into chains, one from each corner `(k, 2)` of the outline within it to the next.

    The outline is cut where it turns most sharply within `reach` mm of a corner. None if that finds no chain for some
    corner, or not in their order.
    """
    starts = [_sharpest(segments, corner, reach) for corner in corners]
    if None in starts:
        return None
    first = [int(start) for start in starts if start is not None]
    steps = np.mod(np.diff([*first, first[0]]), len(segments))
    if len(first) > 1 and (np.any(steps == 0) or steps.sum() != len(segments)):
        return None
    turned = [np.roll(segments, -start, axis=0) for start in first]
    return tuple(chain[: step or len(segments)] for chain, step in zip(turned, steps, strict=True))


def _sharpest(segments: Floats, corner: Floats, reach: float) -> int | None:
    """The segment that begins at the sharpest turn near a corner; the nearest one where all are smooth."""
    distance = cubic.norm(segments[:, 0] - corner)
    arriving, leaving = np.roll(cubic.end_tangent(segments), 1, axis=0), cubic.start_tangent(segments)
    turn = np.abs(np.arctan2(cubic.cross(arriving, leaving), cubic.dot(arriving, leaving)))
    near = distance <= reach
    score = np.where(turn > _SMOOTH, turn, 0.0) - distance * 1e-6
    return int(np.argmax(np.where(near, score, -np.inf))) if near.any() else None


def length(segments: Floats) -> float:
    """Arc length of a chain `(n, 4, 2)`."""
    return Ruler(segments).length
