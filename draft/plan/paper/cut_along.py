"""Cutting one state of the paper along a path: which of the two parts is kept, and the edges that bound it then.

What was cut keeps its name on both sides, and the line becomes an edge of its name on either. A line through darts is
drawn anew along the legs on the side of the part.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from draft.base.notes import Note, Span, error
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.garment.garment import Finish
from draft.geometry.cubic import reverse
from draft.geometry.length import point_at
from draft.language import tree
from draft.plan.edges.edge_steps import EdgeSteps
from draft.plan.paper.along_leg import along_leg
from draft.plan.paper.carrying import Bit, stretch
from draft.plan.paper.combining import made_of
from draft.plan.paper.kept_part import KeptPart
from draft.plan.paper.outline_places import OutlinePlace, along, leg_place, place_of
from draft.plan.paper.stage import Cut, Sheets, Stage, ref
from draft.plan.plan import Value
from draft.words.word import one


@dataclass(frozen=True)
class Path:
    """Lines that run on into one another across the paper, from one place of the outline to another."""

    lines: tuple[tuple[tree.Edge, bool], ...]
    """Each with whether it is run from its start to its end."""
    start: OutlinePlace
    end: OutlinePlace


@dataclass(frozen=True)
class Cutter:
    """Cuts one state along one path."""

    sheets: Sheets
    steps: EdgeSteps
    draft: Stage
    before: Stage
    name: str
    path: Path
    span: Span

    def stage(self, kept: Sequence[str], later: Sequence[Path]) -> Stage | Note:
        first, last = self.path.start, self.path.end
        outline = self.before.outline
        ahead = self._walked(first, last)
        back = self._walked(last, first)
        if first.edge == last.edge and not (first.corner or last.corner):
            line = self.path.lines[0][0]
            whole = outline[first.edge].name
            fact = f"both ends of `{line.name}` lie on `{whole}`, which would be parted into two of one name"
            return error(fact, line.span, "part that edge on a sheet before, each part with a name of its own")
        sides = [self._holds(side, kept, later) for side in (ahead, back)]
        if not any(sides) and self._is_strip(later):
            return self._made(*sorted((first, last), key=lambda place: place.edge))
        if sides[0] == sides[1]:
            names = " and ".join(f"`{line.name}`" for line, _ in self.path.lines)
            fact = f"it is not said on which side of {names} the part lies"
            inside = [outline[k].name for k in self._inside(ahead)] + [outline[k].name for k in self._inside(back)]
            fix = f"name an edge that lies on it whole, such as {' or '.join(f'`{name}`' for name in inside[:2])}"
            return error(fact, self.span, *([fix] if inside else []))
        return self._made(first, last) if sides[0] else self._made(last, first)

    def within(self) -> Stage:
        """The part within a path that closes on itself: nothing of the outline is left of it."""
        after = replace(self.before, name=self.name)
        edges = []
        for line, forward in self.path.lines:
            start, end = (line.start, line.end) if forward else (line.end, line.start)
            self._declare_line(after, line, forward, self.path.start)
            edges.append(replace(line, start=start, end=end, finish=Finish(), measuring=None))
        return self._kept.carried(after, tuple(edges), {edge.name for edge in self.before.outline}, {}, ())

    def _walked(self, first: OutlinePlace, last: OutlinePlace) -> list[int]:
        """The numbers of the edges from one place round to another, those that are cut included."""
        count = len(self.before.outline)
        stop = (last.edge - 1) % count if last.corner else last.edge
        numbers = [first.edge]
        while numbers[-1] != stop:
            numbers.append((numbers[-1] + 1) % count)
        return numbers

    def _inside(self, numbers: list[int]) -> list[int]:
        """Those that lie on one side whole."""
        cut = {place.edge for place in (self.path.start, self.path.end) if not place.corner}
        return [k for k in numbers if k not in cut]

    def _holds(self, numbers: list[int], kept: Sequence[str], later: Sequence[Path]) -> bool:
        inside = self._inside(numbers)
        names = {self.before.outline[k].name for k in inside}
        ends = [place for path in later for place in (path.start, path.end)]
        return bool(names & set(kept)) or any(place.edge in inside and not place.corner for place in ends)

    def _is_strip(self, later: Sequence[Path]) -> bool:
        """Whether the part lies between this path and one more, which runs across from the same edge to the same."""
        ends = [self.path, *later]
        return len(ends) == 2 and len({frozenset((path.start.edge, path.end.edge)) for path in ends}) == 1

    def _made(self, first: OutlinePlace, last: OutlinePlace) -> Stage:
        """The part that lies ahead of `first` as far as `last`, closed by the path back to it."""
        after = replace(self.before, name=self.name)
        numbers = self._walked(first, last)
        kept: list[tree.Edge] = []
        for count, k in enumerate(numbers):
            edge = self.before.outline[k]
            begin = first if count == 0 and not first.corner else None
            end = last if count == len(numbers) - 1 and not last.corner else None
            self._declare_edge(after, edge, begin, end)
            start = ref(edge.span, first.name) if begin else edge.start
            stop = ref(edge.span, last.name) if end else edge.end
            kept.append(replace(edge, start=start, end=stop))
        closing, cuts = self._closing(after, first, last)
        outline = _from_first((*kept, *closing), self.before.outline)
        gone = {edge.name for edge in self.before.outline} - {edge.name for edge in outline}
        for place in (first, last):
            if place.dart:
                self._declare_leg(after, place, first)
        return self._kept.carried(after, outline, gone, cuts, (first, last))

    def _declare_edge(
        self, after: Stage, edge: tree.Edge, begin: OutlinePlace | None, end: OutlinePlace | None
    ) -> None:
        def make() -> Value:
            path = self.sheets.found(self.before, edge.name, edge.span)
            places = [self._along(edge, place, begins) for place, begins in ((begin, True), (end, False))]
            return stretch(path, Bit(0, places[0], places[1]))

        self.sheets.declare(after.full(edge.name), edge.span, make)

    def _along(self, edge: tree.Edge, place: OutlinePlace | None, begins: bool) -> Value | None:
        """How far along an edge it is cut; at a dart, where the leg of the part that is kept meets it."""
        if place is None:
            return None
        if place.dart is None:
            point = self.sheets.values.compile(ref(edge.span, place.name), self.before.name, one(Kind.POINT))
            return along(
                self.sheets,
                self.before,
                edge.name,
                point,
                self._off(edge, place),
            )
        return leg_place(self.sheets, self.before, place.dart, last=begins)

    def _off(self, edge: tree.Edge, place: OutlinePlace) -> str:
        """What is wrong where a line ends beside the edge: beside what is left of it, where another was cut before."""
        if self.before is self.draft:
            return f"`{place.name}` does not lie on `{edge.name}`: at worst it lies {{by}} beside it"
        left = f"`{place.name}` lies {{by}} off what is left of `{edge.name}` beside the line that is named before"
        return f"{left}: name the lines in the order in which they lie along it"

    def _declare_leg(self, after: Stage, place: OutlinePlace, first: OutlinePlace) -> None:
        """Where the dart met the edge there is a corner now, called as the dart was."""
        dart = place.dart
        assert dart
        self.sheets.declare(after.full(place.name), dart.span, lambda: self.leg_point(dart, place is first))

    def leg_point(self, dart: tree.Takeup, last: bool) -> Value:
        """Where one leg of a dart meets its edge: the first or the last along it."""
        path = self.sheets.found(self.before, dart.edge.text, dart.span)
        return made_of(dart.span, Kind.POINT, (path, leg_place(self.sheets, self.before, dart, last)), point_at)

    # ---- the edges that close the part

    def _closing(self, after: Stage, first: OutlinePlace, last: OutlinePlace) -> tuple[list[tree.Edge], dict[str, Cut]]:
        """The lines as edges, run from the end of what is kept back to its start."""
        links = list(self.path.lines)
        back = self.path.end is not first  # else the path is written from `last` to `first` already
        run = [(line, not forward) for line, forward in links[::-1]] if back else links
        edges, cuts = [], {}
        for line, forward in run:
            start, end = (line.start, line.end) if forward else (line.end, line.start)
            self._declare_line(after, line, forward, first)
            edges.append(replace(line, start=start, end=end, finish=Finish(), measuring=None))
            cuts[line.name] = self.before.cuts.get(line.name) or Cut(self._origin_of(line), line.name, forward, forward)
        return edges, cuts

    def _origin_of(self, line: tree.Edge) -> str:
        return self.draft.name.split()[0]

    def _declare_line(self, after: Stage, line: tree.Edge, forward: bool, first: OutlinePlace) -> None:
        drawn = self._with_legs(after, line, first)

        def make() -> Value:
            if drawn is None:
                path = self.sheets.found(self.draft, line.name, line.span)
            else:
                path = self.sheets.values.found(line.span, drawn)
            return path if forward else made_of(line.span, Kind.EDGE, (path,), reverse)

        self.sheets.declare(after.full(line.name), line.span, make)

    def _with_legs(self, after: Stage, line: tree.Edge, first: OutlinePlace) -> str | None:
        """A line through darts, drawn anew along the legs on the side of the part; None for one through none."""
        refs = [line.start, *(leg.to for leg in line.legs if leg.to), line.end]
        darts = {
            at.text: dart for at in refs if (dart := self.before.takeup(at.text)) is not None and len(at.parts) == 1
        }
        if not darts:
            return None
        changes: dict[str, tree.Ref] = {}
        for name, dart in darts.items():
            leg = f"{name} leg"
            last = self._takes_last(dart, first)
            self.sheets.declare(after.full(leg), dart.span, _later(self.leg_point, dart, last))
            changes[name] = tree.Ref(dart.span, (after.name, leg))
        legs = tuple(replace(leg, to=changes.get(leg.to.text, leg.to) if leg.to else None) for leg in line.legs)
        start, end = (changes.get(at.text, at) for at in (line.start, line.end))
        name = f"{line.name} drawn"
        anew = replace(line, start=start, end=end, legs=legs)
        full = after.full(name)
        self.sheets.declare_step(full, line.span, self.steps.edge(self.draft.name, anew, full))
        for dart in (dart for dart in darts.values() if dart.bowed):
            full = self._with_bow(after, line, full, dart, self._takes_last(dart, first))
        return full

    def _with_bow(self, after: Stage, line: tree.Edge, drawn: str, dart: tree.Takeup, last: bool) -> str:
        """A line drawn anew, bowed as the leg of a dart is that it runs straight along."""
        full = after.full(f"{line.name} along {dart.name}")

        def make() -> Value:
            path = self.sheets.values.found(line.span, drawn)
            legs = self.leg_point(dart, last), self.leg_point(dart, not last)
            return along_leg(self.sheets.values, self.before.name, dart, path, legs, last)

        self.sheets.declare(full, line.span, make)
        return full

    def _takes_last(self, dart: tree.Takeup, first: OutlinePlace) -> bool:
        """Whether the part has the leg further along the dart's edge."""
        if dart.name in (self.path.start.name, self.path.end.name):
            return first.name == dart.name
        on = self.draft.edge(dart.edge.text)
        assert on
        last = self.path.end if first is self.path.start else self.path.start
        inside = set(self._inside(self._walked(first, last)))
        for at, is_end in ((on.start, False), (on.end, True)):
            place = place_of(self.before, at)
            if place is None:
                continue
            near = {place.edge, (place.edge - 1) % len(self.before.outline)} if place.corner else {place.edge}
            if near <= inside or (near & inside):
                return is_end
        fact = f"it is not said on which side of `{self.path.lines[0][0].name}` the two ends of `{on.name}` lie"
        self.sheets.notes.append(error(fact, dart.span, f"let `{on.name}` end on an edge of the outline"))
        return False

    @property
    def _kept(self) -> KeptPart:
        return KeptPart(self.sheets, self.before, self.path.lines, self.span)


def _from_first(outline: tuple[tree.Edge, ...], before: tuple[tree.Edge, ...]) -> tuple[tree.Edge, ...]:
    """The outline begun with the edge that came first before."""
    order = [edge.name for edge in before]
    numbers = [order.index(edge.name) if edge.name in order else len(order) for edge in outline]
    first = numbers.index(min(numbers))
    return (*outline[first:], *outline[:first])


def _later(make: Callable[[tree.Takeup, bool], Value], dart: tree.Takeup, last: bool) -> Callable[[], Value]:
    return lambda: make(dart, last)
