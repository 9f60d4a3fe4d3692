"""`close`: a dart is pivoted about its own point, and what it took up opens elsewhere, or is let out there.

The outline from the dart to the place that opens turns by the dart's angle, and the other part of the paper rests. No
length of an edge and no area beside the darts is changed.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, error, nearest
from draft.base.units import Kind
from draft.geometry.cubic import cross, dot, norm
from draft.geometry.length import length, point_at
from draft.geometry.motion import turning
from draft.geometry.rejoined import Joint
from draft.language import tree
from draft.plan.edges.taking_up import fold_at, is_let_in
from draft.plan.edges.true_over import trued_over
from draft.plan.paper.carrying import Bit, Carrying, Parted
from draft.plan.paper.combining import made_of
from draft.plan.paper.outline_places import along, leg_place
from draft.plan.paper.resting import between, rests_ahead
from draft.plan.paper.stage import Sheets, Stage, ref
from draft.plan.plan import Value, constant
from draft.words.word import one

FAIRED = 2.0  # widths of a dart to either side: about what a French curve bridges there (common practice)
AT_ONE_POINT = 0.05  # mm: darts that run to points nearer than this run to one point


class CloseDart:
    """Makes the state after one `close`; None, with a note, where that cannot be."""

    def __init__(self, sheets: Sheets, before: Stage, name: str, move: tree.Close, hold: tree.Hold | None) -> None:
        self.sheets, self.before, self.name, self.move, self.hold = sheets, before, name, move, hold
        self.span = move.span

    def stage(self) -> Stage | None:
        dart = self._dart(self.move.dart)
        opened = self._opened_edge(dart) if dart else None
        if dart is None or opened is None:
            return None
        first = self.before.place_in(dart.edge.text)
        second = self.before.place_in(opened.name)
        if first is None or second is None:
            missing = dart.edge if first is None else self._edge_ref()
            fact = f"`{missing.text}` is a line inside of `{self._sheet}`, and a dart is closed towards its outline"
            self.sheets.notes.append(error(fact, missing.span))
            return None
        if first == second:
            fact = f"`{dart.name}` lies on `{opened.name}` itself, so closing it there would move nothing"
            full = f"or leave the cloth in: `without {dart.name}` under `darts`, and `gathered` behind `{opened.name}`"
            self.sheets.notes.append(error(fact, self.span, "open it on another edge", full))
            return None
        rests = rests_ahead(self.before, first, second, self.hold, self.move)
        if isinstance(rests, Note):
            self.sheets.notes.append(rests)
            return None
        return self._turned(dart, first, second, not rests)

    def _shut(self, dart: tree.Takeup) -> Joint:
        """How its edge is drawn once it is closed: as it would be trued, or as the paper lies."""
        alone = sum(other.edge.text == dart.edge.text for other in self.before.takeups) == 1
        edges = {edge.name: edge for edge in self.before.edges}
        edge = edges[dart.edge.text]
        folded = any(fold_at(edge.name, end, edges) for end in (edge.start, edge.end))
        if alone and not folded and is_let_in(edge.name, dart, edges):
            return "straight"
        return "faired" if dart.trued else "closed"

    # ---- names

    @property
    def _sheet(self) -> str:
        return self.before.name.split()[0]

    def _dart(self, asked: tree.Ref) -> tree.Takeup | None:
        dart = self.before.takeup(asked.text)
        darts = [takeup.name for takeup in self.before.takeups if takeup.to is not None]
        if dart is None or dart.to is None:
            fact = f"`{self._sheet}` has no dart called `{asked.text}`"
            self.sheets.notes.append(error(fact, asked.span, *nearest(asked.text, darts)))
            return None
        if dart.other is not None:
            fact = f"`{asked.text}` lies inside with two points: about neither of them could the paper be turned"
            self.sheets.notes.append(
                error(fact, asked.span, "leave it to be sewn; or part the piece along a line in it")
            )
            return None
        return dart

    def _edge_ref(self) -> tree.Ref:
        into = self.move.into
        if isinstance(into, tree.Merged):
            other = self.before.takeup(into.dart.text)
            assert other
            return other.edge
        return into.edge

    def _opened_edge(self, dart: tree.Takeup) -> tree.Edge | None:
        into = self.move.into
        if isinstance(into, tree.Merged) and self._dart(into.dart) is None:
            return None
        asked = self._edge_ref()
        edge = self.before.edge(asked.text)
        if edge is None:
            names = [edge.name for edge in self.before.outline]
            fact = f"no edge of `{self._sheet}` is called `{asked.text}`, so nothing can open there"
            self.sheets.notes.append(error(fact, asked.span, *nearest(asked.text, names)))
        return edge

    # ---- the turn

    def _turned(self, dart: tree.Takeup, first: int, second: int, ahead: bool) -> Stage:
        into = self.move.into
        pivot = self._value(dart.to)
        legs = self._legs(dart)
        places = self._places(self.before.outline[second], into)
        turn = self._turn(dart, pivot, ahead)
        turned = between(self.before, first, second) if ahead else between(self.before, second, first)
        whole = {k: int(k in turned) for k in range(len(self.before.outline))}
        near, far = (0, 1) if ahead else (1, 0)
        bits = {
            first: (Bit(near, None, legs[0]), Bit(far, legs[1], None)),
            second: (Bit(far, None, places[0]), Bit(near, places[1], None)),
        }
        joint: Joint = "faired" if isinstance(into, tree.LetOut) else "open"
        shut: Joint = "open" if self.move.share is not None else self._shut(dart)
        parted = Parted(
            self.span, bits, {first: (shut,), second: (joint,)}, whole, (None, turn), pivot, self._over(dart)
        )
        carrying = Carrying(self.sheets, self.before, self.name, parted)
        after = carrying.declare()
        gap = self._gap(carrying, self.before.outline[second], places, far, near)
        after = self._with_opened(after, gap, dart)
        if self.move.share is None:
            return replace(after, takeups=tuple(one for one in after.takeups if one.name != dart.name))
        left = self._gap(carrying, self.before.outline[first], legs, near, far)
        return self._resized(after, dart, left)

    def _value(self, at: tree.Expr | None) -> Value:
        assert at is not None
        return self.sheets.values.compile(at, self.before.name, one(Kind.POINT))

    def _legs(self, dart: tree.Takeup) -> tuple[Value, Value]:
        first, last = (leg_place(self.sheets, self.before, dart, last) for last in (False, True))
        return first, last

    def _places(self, edge: tree.Edge, into: tree.Opened | tree.LetOut | tree.Merged) -> tuple[Value, Value]:
        """Where the edge that opens is cut, from its start and from its end."""
        if isinstance(into, tree.Merged):
            other = self.before.takeup(into.dart.text)
            assert other
            return self._legs(other)
        if into.at is None:
            path = self.sheets.found(self.before, edge.name, into.span)
            middle = made_of(into.span, Kind.LENGTH, (path,), lambda path: length(path) / 2)
            return middle, middle
        point = self._value(into.at)
        off = f"`{into.at.span.text}` lies beyond `{edge.name}`, so nothing can open there: at worst by {{by}}"
        at = along(self.sheets, self.before, edge.name, point, off)
        return at, at

    def _turn(self, dart: tree.Takeup, pivot: Value, ahead: bool) -> Value:
        path = self.sheets.found(self.before, dart.edge.text, self.span)
        share = self.move.share
        part = self.sheets.values.compile(share, self.before.name, one(Kind.NUMBER)) if share else None
        parts = [path, pivot, *self._legs(dart), part or constant(self.span, Kind.NUMBER, 1.0)]
        parts += [self._value(other.to)] if (other := self._merged()) else []

        def find(path: Floats, pivot: Floats, first: Floats, last: Floats, share: Floats, *to: Floats) -> object:
            leg, other = point_at(path, first) - pivot, point_at(path, last) - pivot
            angle = np.arctan2(cross(other, leg), dot(other, leg)) * share
            faults = [(np.abs(share - 0.5) > 0.5, "a dart is closed by a share between 0 % and 100 %")]
            if to:
                fact = f"`{dart.name}` and `{self.move.into.span.text}` do not run to one point"
                faults.append((norm(to[0] - pivot) > AT_ONE_POINT, fact))
            return turning(pivot, angle if ahead else -angle), faults

        return made_of(self.span, Kind.STEP, parts, find)

    def _over(self, dart: tree.Takeup) -> Value:
        """How far edges are faired: as far as the dart is trued, or a few times its width."""
        over = trued_over(self.sheets.values, self.before.name, dart) if dart.trued_over else None
        if over is not None:
            return over
        width = self.sheets.values.compile(dart.width, self.before.name, one(Kind.LENGTH))
        return made_of(self.span, Kind.LENGTH, (width,), lambda width: FAIRED * width)

    def _merged(self) -> tree.Takeup | None:
        into = self.move.into
        return self.before.takeup(into.dart.text) if isinstance(into, tree.Merged) else None

    # ---- what is open afterwards

    def _gap(
        self, carrying: Carrying, edge: tree.Edge, places: tuple[Value, Value], low: int, high: int
    ) -> tuple[Value, Value]:
        """The two sides of an opening, as they lie afterwards."""
        path = self.sheets.found(self.before, edge.name, self.span)
        one_side, other = (made_of(self.span, Kind.POINT, (path, at), point_at) for at in places)
        return carrying.lying(one_side, low), carrying.lying(other, high)

    def _with_opened(self, after: Stage, gap: tuple[Value, Value], dart: tree.Takeup) -> Stage:
        into = self.move.into
        if isinstance(into, tree.LetOut):
            return drawn_up(self.sheets, self.before, after, into.edge.text) if into.into == "gathers" else after
        if isinstance(into, tree.Merged):
            other = self._merged()
            assert other
            return self._resized(after, other, gap)
        opened = replace(
            dart,
            span=into.span,
            name=into.name,
            name_span=into.name_span,
            edge=into.edge,
            trued=into.trued or (dart.trued and not into.pressed),
            trued_over=into.trued_over,
            pressed=into.pressed,
            short=into.short,
        )
        self.sheets.declare(after.full(f"{into.name} to"), into.span, lambda: self._value(dart.to))
        points = {**after.points, f"{into.name} to": frozenset[str]()}
        for part, said in (("over", into.trued_over), ("short", into.short)):
            if said is not None:
                opened = self._measured(after, opened, part, said)
                after = replace(after, values=(*after.values, f"{into.name} {part}"))
        opened = replace(opened, to=ref(into.span, f"{into.name} to"))
        with_it = replace(after, takeups=(*after.takeups, opened), points=points)
        return self._resized(with_it, opened, gap)

    def _measured(self, after: Stage, opened: tree.Takeup, part: str, said: tree.Expr) -> tree.Takeup:
        """The dart with a length that was said of it, which is found on the paper as it was."""
        name = f"{opened.name} {part}"
        self.sheets.declare(
            after.full(name),
            said.span,
            lambda: self.sheets.values.compile(said, self.before.name, one(Kind.LENGTH)),
        )
        found = ref(said.span, name)
        return replace(opened, trued_over=found) if part == "over" else replace(opened, short=found)

    def _resized(self, after: Stage, dart: tree.Takeup, gap: tuple[Value, Value]) -> Stage:
        """The state with a dart's mouth where two sides lie now."""
        span, (width, at) = dart.span, (f"{dart.name} opened", f"{dart.name} middle")
        self.sheets.declare(after.full(width), span, lambda: made_of(span, Kind.LENGTH, gap, lambda a, b: norm(b - a)))
        self.sheets.declare(after.full(at), span, lambda: made_of(span, Kind.POINT, gap, lambda a, b: (a + b) / 2))
        changed = replace(dart, width=ref(span, width), at=ref(span, at))
        takeups = tuple(changed if takeup.name == dart.name else takeup for takeup in after.takeups)
        points = {**after.points, at: frozenset({dart.edge.text})}
        return replace(after, takeups=takeups, points=points, values=(*after.values, width))


def drawn_up(sheets: Sheets, before: Stage, after: Stage, edge: str) -> Stage:
    """The state with one edge gathered to the length that it had before."""
    number = after.place_in(edge)
    assert number is not None
    written = after.outline[number]
    name = f"{edge} drawn up"

    def make() -> Value:
        paths = (sheets.found(stage, edge, written.span) for stage in (before, after))
        return made_of(written.span, Kind.NUMBER, tuple(paths), lambda old, new: length(old) / length(new))

    sheets.declare(after.full(name), written.span, make)
    changed = replace(written, finish=replace(written.finish, gathered=ref(written.span, name)))
    outline = (*after.outline[:number], changed, *after.outline[number + 1 :])
    return replace(after, outline=outline, values=(*after.values, name))
