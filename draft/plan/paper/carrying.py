"""Paper cut into parts that lie elsewhere afterwards: how outline, lines and points of a state go with them.

Which part an edge or a corner belongs to is known by names. A point inside the outline goes with the part that it lies
on, one outside with the part that is nearest to it: both are values, and may differ from body to body.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.geometry.cubic import norm
from draft.geometry.flatten import sample
from draft.geometry.length import length, point_at
from draft.geometry.motion import moved
from draft.geometry.nearest import nearest_place
from draft.geometry.part import part_along
from draft.geometry.rejoined import Joint, rejoined
from draft.geometry.within import within
from draft.language import tree
from draft.plan.paper.combining import made_of
from draft.plan.paper.stage import Sheets, Stage
from draft.plan.plan import Value, constant

SEEN = 24  # places on each segment of an outline by which it is told what lies inside
TORN = "a move cut through this line, so that it is no line any more: draw it again, or name the piece that it is on"


@dataclass(frozen=True)
class Bit:
    """A stretch of an edge that stays in one part, from `begin` to `end` mm along it; None for the edge's own end."""

    part: int
    begin: Value | None = None
    end: Value | None = None


@dataclass(frozen=True)
class Parted:
    """How a state is cut up: for each edge number its bits and the joints between them, and each part's motion.

    An edge that is not named lies in the part that `whole` says. `pivot` is the point `(B, 2)` inside of the paper that
    every cut runs to; without one, cuts run from one edge straight to another.
    """

    span: Span
    bits: Mapping[int, Sequence[Bit]]
    joints: Mapping[int, Sequence[Joint]]
    whole: Mapping[int, int]
    motions: Sequence[Value | None]
    pivot: Value | None = None
    over: Value | None = None
    """For how many mm `(B,)` to either side of a joint an edge is faired."""

    def of(self, edge: int) -> Sequence[Bit]:
        """The bits of an edge."""
        return self.bits.get(edge) or (Bit(self.whole[edge]),)


class Carrying:
    """Declares, under the name of the next state, where everything of a state comes to lie."""

    def __init__(self, sheets: Sheets, before: Stage, name: str, parted: Parted) -> None:
        self.sheets, self.before, self.parted = sheets, before, parted
        outline = tuple(self._redrawn(k, edge) for k, edge in enumerate(before.outline))
        self.after = replace(before, name=name, outline=outline)

    def _redrawn(self, k: int, edge: tree.Edge) -> tree.Edge:
        """An edge that was cut is no longer drawn by the legs that were written, unless it is straight again."""
        joints = self.parted.joints.get(k, ())
        return replace(edge, legs=()) if joints and "straight" not in joints else edge

    def declare(self) -> Stage:
        """The next state, all of its names declared; it is not entered yet."""
        for k in range(len(self.parted.motions)):
            self._declare_part(k)
        corners = {edge.start.parts[0]: self.parted.of(k)[0].part for k, edge in enumerate(self.before.outline)}
        for name in self.before.points:
            self._point(name, corners.get(name))
        for k, edge in enumerate(self.before.outline):
            self._edge(k, edge)
        for line in self.before.lines:
            self._line(line)
        for name in self.before.values:
            self.sheets.same(self.after, name, self.before, self.parted.span)
        return self.after

    # ---- parts

    def _declare_part(self, k: int) -> None:
        span = self.parted.span
        self.sheets.declare(self.after.full(f"part {k}"), span, lambda: self._polygon(k))
        motion = self.parted.motions[k]
        if motion is not None:
            self.sheets.declare(self.after.full(f"way {k}"), span, lambda: motion)

    def _polygon(self, k: int) -> Value:
        """The outline of a part as it lies before the move: points `(B, N, 2)`."""
        stretches = [(n, bit) for n in range(len(self.before.outline)) for bit in self.parted.of(n) if bit.part == k]
        pivot = self.parted.pivot
        cut = [pivot is not None and bit.end is not None for _, bit in stretches]
        values = [self._stretch(n, bit) for n, bit in stretches] + ([pivot] if pivot else [])

        def find(*found: Floats) -> Floats:
            points = []
            for path, ends_at_cut in zip(found, cut, strict=False):
                points += [sample(path, SEEN), *([found[-1][:, None]] if ends_at_cut else [])]
            return np.concatenate(points, axis=1)

        return made_of(self.parted.span, Kind.POINT, values, find)

    def _stretch(self, n: int, bit: Bit) -> Value:
        path = self.sheets.found(self.before, self.before.outline[n].name, self.parted.span)
        return stretch(path, bit)

    def _found(self, name: str) -> Value:
        return self.sheets.values.found(self.parted.span, self.after.full(name))

    def _motions(self) -> list[tuple[int, Value]]:
        return [(k, self._found(f"way {k}")) for k, motion in enumerate(self.parted.motions) if motion is not None]

    # ---- what lies on them

    def _point(self, name: str, part: int | None) -> None:
        span, old = self.parted.span, self.sheets
        if part is not None:
            self.sheets.declare(
                self.after.full(name), span, lambda: self._moved(old.found(self.before, name, span), part)
            )
        else:
            edge = next((on for on in sorted(self.before.points[name]) if self._is_cut(on)), None)
            self.sheets.declare(
                self.after.full(name),
                span,
                lambda: self._kept_on(edge, self._gone_with(old.found(self.before, name, span))),
            )

    def _is_cut(self, edge: str) -> bool:
        number = self.before.place_in(edge)
        return number is not None and len(self.parted.of(number)) > 1

    def _kept_on(self, edge: str | None, value: Value) -> Value:
        """A point on an edge that was cut: it lies on the edge again, however that is drawn over the cut."""
        if edge is None or value.kind is not Kind.POINT:
            return value
        path = self.sheets.found(self.after, edge, value.span)
        return made_of(
            value.span, Kind.POINT, (path, value), lambda path, at: point_at(path, nearest_place(path, at)[0])
        )

    def _moved(self, value: Value, part: int) -> Value:
        if self.parted.motions[part] is None:
            return value
        return made_of(value.span, value.kind, (value, self._found(f"way {part}")), moved)

    def _gone_with(self, value: Value) -> Value:
        parts = [self._found(f"part {k}") for k in range(len(self.parted.motions))]
        motions = self._motions()

        def find(point: Floats, *found: Floats) -> Floats:
            polygons, ways = found[: len(parts)], found[len(parts) :]
            row = point.reshape(len(point), -1, 2)
            there = parts_of(polygons, row)
            for (k, _), way in zip(motions, ways, strict=True):
                row = np.where((there == k)[..., None], moved(row, way), row)
            return row.reshape(point.shape)

        return made_of(value.span, value.kind, (value, *parts, *(way for _, way in motions)), find)

    def _edge(self, k: int, edge: tree.Edge) -> None:
        bits, joints = self.parted.of(k), self.parted.joints.get(k, ())

        def make() -> Value:
            path = self.sheets.found(self.before, edge.name, edge.span)
            stretches = [self._moved(stretch(path, bit), bit.part) for bit in bits]
            if len(stretches) == 1:
                return stretches[0]
            over = self.parted.over or constant(edge.span, Kind.LENGTH, 0.0)
            return made_of(edge.span, Kind.EDGE, (over, *stretches), lambda over, *found: rejoined(found, joints, over))

        self.sheets.declare(self.after.full(edge.name), edge.span, make)

    def _line(self, line: tree.Edge) -> None:
        def make() -> Value:
            path = self.sheets.found(self.before, line.name, line.span)
            parts = [self._found(f"part {k}") for k in range(len(self.parted.motions))]
            motions = self._motions()

            def find(path: Floats, *found: Floats) -> object:
                polygons, ways = found[: len(parts)], found[len(parts) :]
                there = parts_of(polygons, sample(path, SEEN)[:, 2:-2])
                torn = np.any(there != there[:, :1], axis=1)
                for (k, _), way in zip(motions, ways, strict=True):
                    path = np.where((there[:, 0] == k)[:, None, None, None], moved(path, way), path)
                return path, [(torn, TORN)]

            return made_of(line.span, Kind.EDGE, (path, *parts, *(way for _, way in motions)), find)

        self.sheets.declare(self.after.full(line.name), line.span, make)

    def lying(self, value: Value, part: int) -> Value:
        """Where something of the state before comes to lie with one part."""
        return self._moved(value, part)


def _nearest(path: Floats, to: Floats) -> Floats:
    """The places of paths nearest to points, both `(B, 2)`."""
    return point_at(path, nearest_place(path, to)[0])


def stretch(path: Value, bit: Bit) -> Value:
    """A stretch of an edge's path."""
    if bit.begin is None and bit.end is None:
        return path
    ends = [end for end in (bit.begin, bit.end) if end is not None]

    def find(segments: Floats, *places: Floats) -> Floats:
        rest = list(places)
        begin = rest.pop(0) if bit.begin is not None else np.zeros(len(segments))
        end = rest.pop(0) if bit.end is not None else length(segments)
        return part_along(segments, begin, end)

    return made_of(path.span, Kind.EDGE, (path, *ends), find)


def parts_of(polygons: Sequence[Floats], points: Floats) -> Ints:
    """Which of several parts, polylines `(B, K, 2)`, points `(B, N, 2)` lie in, or lie nearest to: `(B, N)`."""
    found = np.full(points.shape[:2], -1)
    away = np.full(points.shape[:2], np.inf)
    nearest = np.zeros(points.shape[:2], dtype=int)
    for k, polygon in enumerate(polygons):
        found = np.where((found < 0) & within(polygon, points), k, found)
        off = norm(points[:, :, None] - polygon[:, None]).min(axis=-1)
        nearest = np.where(off < away, k, nearest)
        away = np.minimum(off, away)
    return np.asarray(np.where(found < 0, nearest, found))
