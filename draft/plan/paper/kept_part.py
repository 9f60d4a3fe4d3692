"""What lies on the paper beside its outline goes to the part that it lies on: darts, pleats, notches, marks and lines.

Whether something lies there is a value, found for each body.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeAlias, TypeVar

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.geometry.cubic import norm
from draft.geometry.flatten import sample
from draft.geometry.nearest import ON_EDGE, nearest_place
from draft.geometry.within import within
from draft.language import tree
from draft.plan.paper.carrying import SEEN
from draft.plan.paper.combining import made_of
from draft.plan.paper.outline_places import OutlinePlace
from draft.plan.paper.stage import Cut, Sheets, Stage, ref
from draft.plan.plan import Value
from draft.words.word import one

_AT = frozenset({Kind.POINT, Kind.ROW})
Placed = TypeVar("Placed", tree.Takeup, tree.Notch)
_Lies: TypeAlias = Callable[[Floats, Floats, Floats], Floats]
"""Whether a point lies on what is kept of an edge, and on that as it was before: 1 or 0 for each body."""


@dataclass(frozen=True)
class KeptPart:
    """The part that is kept of a state which was cut along some lines, each with whether it runs forward."""

    sheets: Sheets
    before: Stage
    lines: tuple[tuple[tree.Edge, bool], ...]
    span: Span

    def carried(
        self,
        after: Stage,
        outline: tuple[tree.Edge, ...],
        gone: set[str],
        cuts: dict[str, Cut],
        ends: tuple[OutlinePlace, ...],
    ) -> Stage:
        """The state of the part, with what of it lies there; `gone` are edges that do not, `cuts` the new ones."""
        through = {at.text for line, _ in self.lines for leg in line.legs if (at := leg.to)}
        eaten = through | {place.name for place in ends if place.dart}
        lines = tuple(line for line in self.before.lines if line.name not in {edge.name for edge in outline})
        takeups = []
        for takeup in self.before.takeups:
            if takeup.name in eaten or takeup.edge.text in gone:
                continue
            kept = self._pressed(takeup, gone)
            inside = kept.other is not None
            takeups.append(
                self._dart(after, kept, outline) if inside else self._there(after, kept, kept.name, kept.edge, kept.at)
            )
        notches, marks = self._notches(after, gone), self._marks(after, outline)
        placed: tuple[tree.Takeup | tree.Notch | tree.Mark, ...] = (*takeups, *notches, *marks)
        for name in (*(line.name for line in lines), *self.before.points, *self.before.values):
            self.sheets.same(after, name, self.before, self.span)
        points = dict(self.before.points)
        for place in ends:
            points.setdefault(place.name, frozenset())
        return replace(
            after,
            outline=outline,
            lines=lines,
            points=points,
            takeups=tuple(takeups),
            notches=notches,
            marks=marks,
            corners=tuple(corner for corner in self.before.corners if _is_corner(corner, outline)),
            values=(*self.before.values, *(one.there.text for one in placed if isinstance(one.there, tree.Ref))),
            cuts={**{name: cut for name, cut in self.before.cuts.items() if name not in gone}, **cuts},
        )

    def _pressed(self, takeup: tree.Takeup, gone: set[str]) -> tree.Takeup:
        """A dart pressed or bowed towards an edge that was cut off is so towards the line in its stead."""
        bowed = takeup.bowed and replace(takeup.bowed, towards=self._instead(takeup.bowed.towards, gone))
        return replace(takeup, pressed=self._instead(takeup.pressed, gone), bowed=bowed)

    def _instead(self, towards: tree.Ref | None, gone: set[str]) -> tree.Ref | None:
        if towards is None or towards.text not in gone:
            return towards
        edge = next(edge for edge in self.before.outline if edge.name == towards.text)
        return ref(towards.span, self.lines[0][0].name if len(self.lines) == 1 else edge.start.text)

    def _notches(self, after: Stage, gone: set[str]) -> tuple[tree.Notch, ...]:
        kept = [notch for notch in self.before.notches if notch.edge.text not in gone]
        return tuple(self._there(after, notch, notch.near.text, notch.edge, notch.near, _within) for notch in kept)

    def _there(
        self, after: Stage, mark: Placed, called: str, edge: tree.Ref, at: tree.Expr, lies: _Lies | None = None
    ) -> Placed:
        """A dart, pleat or notch on an edge that may have been cut: it is there if it lies on what is kept."""
        name, lies = f"{called} there", lies or _on

        def make() -> Value:
            kept, before = (self.sheets.found(state, edge.text, mark.span) for state in (after, self.before))
            point = self.sheets.values.compile(at, self.before.name, one(Kind.POINT))
            return made_of(mark.span, Kind.NUMBER, (kept, before, point), lies)

        self.sheets.declare(after.full(name), mark.span, make)
        return replace(mark, there=ref(mark.span, name))

    def _dart(self, after: Stage, dart: tree.Takeup, outline: tuple[tree.Edge, ...]) -> tree.Takeup:
        """A dart on a line goes to the part that its middle lies on."""
        return replace(dart, there=self._where_inside(after, dart.name, dart.span, outline, [dart.at]))

    def _marks(self, after: Stage, outline: tuple[tree.Edge, ...]) -> tuple[tree.Mark, ...]:
        """The marks, each there if all of it lies inside of the part."""
        return tuple(self._mark(after, mark, outline) for mark in self.before.marks)

    def _mark(self, after: Stage, mark: tree.Mark, outline: tuple[tree.Edge, ...]) -> tree.Mark:
        return replace(mark, there=self._where_inside(after, mark.name, mark.span, outline, mark.at))

    def _where_inside(
        self, after: Stage, called: str, span: Span, outline: tuple[tree.Edge, ...], at: Sequence[tree.Expr]
    ) -> tree.Ref:
        """Whether places lie inside of the part, by a name that is declared for it."""
        name = f"{called} there"

        def make() -> Value:
            paths = [self.sheets.found(after, edge.name, span) for edge in outline]
            points = [self.sheets.values.compile(place, self.before.name, _AT) for place in at]
            return made_of(span, Kind.NUMBER, (*paths, *points), lambda *found: _inside(found, len(paths)))

        self.sheets.declare(after.full(name), span, make)
        return ref(span, name)


def _on(path: Floats, _: Floats, point: Floats) -> Floats:
    return np.where(nearest_place(path, point)[1] <= ON_EDGE, 1.0, 0.0)


def _within(path: Floats, before: Floats, point: Floats) -> Floats:
    """Whether a notch lies on what is kept of an edge, and not where that was cut: there the corner tells."""
    ends, were = ([each[..., 0, 0, :], each[..., -1, 3, :]] for each in (path, before))
    cut = [np.min([norm(end - old) for old in were], axis=0) > ON_EDGE for end in ends]
    at_cut = [new & (norm(end - point) <= ON_EDGE) for new, end in zip(cut, ends, strict=True)]
    return np.where(np.any(at_cut, axis=0), 0.0, _on(path, before, point))


def _inside(found: Sequence[Floats], edges: int) -> Floats:
    """Whether points lie inside of an outline: its edges first, then the points."""
    points = np.concatenate([at.reshape(len(at), -1, 2) for at in found[edges:]], axis=1)
    polygon = np.concatenate([sample(path, SEEN) for path in found[:edges]], axis=1)
    return np.where(within(polygon, points).all(axis=1), 1.0, 0.0)


def _is_corner(corner: tree.Corner, outline: tuple[tree.Edge, ...]) -> bool:
    return any(edge.end.parts == corner.at.parts for edge in outline)
