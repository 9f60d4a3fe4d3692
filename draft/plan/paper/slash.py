"""`slash`: paper is cut along lines from one edge to another and spread, from one end of the cut or from both.

One part rests; each part beyond moves by its own gap and by those of all before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import accumulate

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, error, nearest
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.geometry.cubic import dot, norm, right_of, unit
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.motion import after as one_after
from draft.geometry.motion import parting
from draft.geometry.rejoined import Joint
from draft.language import tree
from draft.plan.paper.carrying import Bit, Carrying, Parted
from draft.plan.paper.close_dart import drawn_up
from draft.plan.paper.combining import made_of
from draft.plan.paper.outline_places import OutlinePlace, along, place_of, unplaced
from draft.plan.paper.resting import between, rests_ahead
from draft.plan.paper.stage import Sheets, Stage, ref
from draft.plan.plan import Value, constant
from draft.words.word import one

MOST_SLASHES = 60
FAIRED = 3.0  # gaps to either side of a cut are drawn anew (common practice)
FOLDED = 40.0  # mm: how far a pleat is folded down where nothing is said (common practice)


@dataclass(frozen=True)
class _Side:
    """One edge that the cuts end at: its number, the places of the cuts along it, and the gap there or None."""

    number: int
    places: tuple[Value, ...]
    gap: Value | None


class Slash:
    """Makes the state after one `slash`; None, with a note, where that cannot be."""

    def __init__(self, sheets: Sheets, before: Stage, name: str, move: tree.Slash, hold: tree.Hold | None) -> None:
        self.sheets, self.before, self.name, self.move, self.hold = sheets, before, name, move, hold
        self.span = move.span
        self.notes = sheets.notes

    def stage(self) -> Stage | None:
        sides = self._along() if self.move.line else self._rows()
        if sides is None:
            return None
        first, second = sides
        count = len(first.places)
        motions = self._motions(first, second)
        faired: Joint = "open" if self.move.into == "pleat" else "faired"
        bits = {
            first.number: _bits(first.places, range(count + 1)),
            second.number: _bits(second.places[::-1], range(count, -1, -1)),
        }
        joints: dict[int, Sequence[Joint]] = {
            side.number: [faired if side.gap and faired == "open" else self._joint(side)] * count
            for side in (first, second)
        }
        moved = between(self.before, first.number, second.number)
        whole = {k: count if k in moved else 0 for k in range(len(self.before.outline))}
        parted = Parted(self.span, bits, joints, whole, (None, *motions), over=self._over(first, second))
        carrying = Carrying(self.sheets, self.before, self.name, parted)
        after = carrying.declare()
        after = replace(after, lines=tuple(line for line in after.lines if line.name != self._line_name))
        for side in (first, second):
            if side.gap and self.move.into == "gathers":
                after = drawn_up(self.sheets, self.before, after, self.before.outline[side.number].name)
            if side.gap and self.move.into == "pleat":
                after = self._pleats(carrying, after, side)
        return after

    def _joint(self, side: _Side) -> Joint:
        """Several cuts of a straight edge fan it out into one curve; any other is drawn anew at each cut."""
        legs = [leg.sort for leg in self.before.outline[side.number].legs]
        return "fanned" if legs == ["straight"] and len(side.places) > 1 else "faired"

    @property
    def _sheet(self) -> str:
        return self.before.name.split()[0]

    @property
    def _line_name(self) -> str:
        return self.move.line.text if self.move.line else ""

    # ---- where it is cut

    def _along(self) -> tuple[_Side, _Side] | None:
        asked = self.move.line
        assert asked
        line = next((line for line in self.before.lines if line.name == asked.text), None)
        if line is None:
            fact = f"`{self._sheet}` has no line called `{asked.text}` to slash along"
            self.notes.append(error(fact, asked.span, *nearest(asked.text, [line.name for line in self.before.lines])))
            return None
        ends = [self._end(line, at) for at in (line.start, line.end)]
        if ends[0] is None or ends[1] is None:
            return None
        return self._sides(ends[0].edge, ends[1].edge, [(self._at(line.start, ends[0]), self._at(line.end, ends[1]))])

    def _end(self, line: tree.Edge, at: tree.Ref) -> OutlinePlace | None:
        place = place_of(self.before, at)
        if place is None:
            self.notes.append(unplaced(self.before, at, f"`{line.name}`"))
            return None
        if place.corner or place.dart:
            fact = (
                f"`{line.name}` ends in a {'corner' if place.corner else 'dart'}, and a slash is cut from edge to edge"
            )
            self.notes.append(error(fact, at.span, "let it end on an edge"))
            return None
        return place

    def _at(self, at: tree.Ref, place: OutlinePlace) -> Value:
        point = self.sheets.values.compile(at, self.before.name, one(Kind.POINT))
        return along(self.sheets, self.before, self.before.outline[place.edge].name, point)

    def _rows(self) -> tuple[_Side, _Side] | None:
        assert self.move.start and self.move.end
        numbers = []
        for asked in (self.move.start, self.move.end):
            number = self.before.place_in(asked.text)
            if number is None:
                fact = f"no edge of `{self._sheet}` is called `{asked.text}`"
                names = [edge.name for edge in self.before.outline]
                self.notes.append(error(fact, asked.span, *nearest(asked.text, names)))
                return None
            numbers.append(number)
        count = self.move.times
        if count != int(count) or not 1 <= count <= MOST_SLASHES:
            self.notes.append(error(f"paper is slashed from once to {MOST_SLASHES} times", self.move.times_span))
            return None
        places = []
        for k in range(1, int(count) + 1):
            share = k / (int(count) + 1)
            places.append((self._share(numbers[0], share), self._share(numbers[1], 1 - share)))
        return self._sides(numbers[0], numbers[1], places)

    def _share(self, number: int, share: float) -> Value:
        path = self.sheets.found(self.before, self.before.outline[number].name, self.span)
        return made_of(self.span, Kind.LENGTH, (path,), lambda path: length(path) * share)

    def _sides(self, first: int, second: int, places: list[tuple[Value, Value]]) -> tuple[_Side, _Side] | None:
        if first == second:
            fact = "a slash is cut from one edge to another, and both of its ends lie on one"
            self.notes.append(error(fact, self.span))
            return None
        gaps = self._gaps(first, second)
        if gaps is None:
            return None
        sides = [_Side(number, tuple(pair[k] for pair in places), gaps[k]) for k, number in enumerate((first, second))]
        rests = rests_ahead(self.before, first, second, self.hold, self.move)
        if isinstance(rests, Note):
            self.notes.append(rests)
            return None
        if rests:  # what lies ahead of the first side moves, and places rise along that side
            sides = [replace(side, places=side.places[::-1]) for side in sides[::-1]]
        return sides[0], sides[1]

    def _gaps(self, first: int, second: int) -> tuple[Value | None, Value | None] | None:
        """How far the cuts open at both edges; None where they are hinged."""
        named = {self.before.outline[number].name: k for k, number in enumerate((first, second))}
        found: list[Value | None] = [None, None]
        for amount, edge in self.move.spreads:
            value = self.sheets.values.compile(amount, self.before.name, one(Kind.LENGTH))
            if edge is None:
                return value, value
            if edge.text not in named:
                fact = f"the slash does not reach `{edge.text}`"
                self.notes.append(error(fact, edge.span, "it opens at " + " or ".join(f"`{name}`" for name in named)))
                return None
            found[named[edge.text]] = value
        return found[0], found[1]

    # ---- how far it opens

    def _motions(self, first: _Side, second: _Side) -> list[Value]:
        """The motion of each part beyond the first."""
        edges = [self.before.outline[side.number].name for side in (first, second)]
        paths = [self.sheets.found(self.before, name, self.span) for name in edges]
        nothing = constant(self.span, Kind.LENGTH, 0.0)
        gaps = [side.gap or nothing for side in (first, second)]

        def find(path: Floats, other: Floats, near: Floats, far: Floats, at: Floats, to: Floats) -> object:
            start, end = point_at(path, at), point_at(other, to)
            side = right_of(unit(end - start))
            ahead = dot(side, tangent_at(path, at)) >= 0
            wide = np.abs(near - far) > norm(end - start)
            faults = [(wide, "this opens further than the cut is long")]
            return parting(start, end, near, far, np.where(ahead[:, None], side, -side)), faults

        singles = [
            made_of(self.span, Kind.STEP, (*paths, *gaps, at, to), find)
            for at, to in zip(first.places, second.places, strict=True)
        ]
        return list(
            accumulate(singles, lambda all_before, last: made_of(self.span, Kind.STEP, (all_before, last), one_after))
        )

    def _over(self, *sides: _Side) -> Value:
        gaps = [side.gap for side in sides if side.gap] or [constant(self.span, Kind.LENGTH, 0.0)]
        return made_of(self.span, Kind.LENGTH, gaps, lambda *gaps: FAIRED * np.max(np.abs(np.stack(gaps)), axis=0))

    def _pleats(self, carrying: Carrying, after: Stage, side: _Side) -> Stage:
        """The state with a pleat in each gap at one edge."""
        edge = self.before.outline[side.number]
        path = self.sheets.found(self.before, edge.name, self.span)
        count = len(side.places)
        made = []
        names: list[str] = []
        for k, at in enumerate(side.places):
            here = made_of(self.span, Kind.POINT, (path, at), point_at)
            gap = carrying.lying(here, k), carrying.lying(here, k + 1)
            name = self.move.pleat if count == 1 else f"{self.move.pleat} {k + 1}"
            width, middle, folded = f"{name} opened", f"{name} middle", f"{name} folded"
            self._declare(after, width, Kind.LENGTH, gap, lambda a, b: norm(b - a))
            self._declare(after, middle, Kind.POINT, gap, lambda a, b: (a + b) / 2)
            asked = self.move.folded
            length = (
                self.sheets.values.compile(asked, self.before.name, one(Kind.LENGTH))
                if asked
                else constant(self.span, Kind.LENGTH, FOLDED)
            )
            self._declare(after, folded, Kind.LENGTH, (length,), lambda found: found)
            names += [width, folded]
            refs = (ref(self.span, part) for part in (edge.name, width, middle, folded))
            made.append(_pleat(self.move, name, *refs))
        points = {**after.points, **{f"{pleat.name} middle": frozenset({edge.name}) for pleat in made}}
        return replace(after, takeups=(*after.takeups, *made), points=points, values=(*after.values, *names))

    def _declare(self, after: Stage, name: str, kind: Kind, parts: Sequence[Value], make: object) -> None:
        self.sheets.declare(after.full(name), self.span, lambda: made_of(self.span, kind, parts, make))  # type: ignore[arg-type]


def _pleat(move: tree.Slash, name: str, edge: tree.Ref, width: tree.Ref, at: tree.Ref, folded: tree.Ref) -> tree.Takeup:
    return tree.Takeup(move.span, name, move.span, edge, width, at, None, folded)


def _bits(places: Sequence[Value], parts: Sequence[int]) -> tuple[Bit, ...]:
    """The bits of an edge cut at places in order."""
    begins, ends = (None, *places), (*places, None)
    return tuple(Bit(part, begin, end) for part, begin, end in zip(parts, begins, ends, strict=True))
