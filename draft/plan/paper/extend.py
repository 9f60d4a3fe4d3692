"""`extend`: an edge is moved outwards and its neighbours are carried on to it: a button stand, a wrap, a fold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import error, nearest
from draft.base.units import Kind
from draft.garment.garment import Finish
from draft.geometry.area import outline_areas
from draft.geometry.cubic import reverse
from draft.geometry.outwards import beside, carried_to
from draft.language import tree
from draft.plan.paper.combining import made_of
from draft.plan.paper.stage import Sheets, Stage, ref
from draft.plan.plan import Value
from draft.words.word import one

APART = "the edges beside it, carried on, do not meet it there"


class Extend:
    """Makes the state after one `extend`; None, with a note, where that cannot be."""

    def __init__(self, sheets: Sheets, before: Stage, name: str, move: tree.Extend) -> None:
        self.sheets, self.before, self.name, self.move = sheets, before, name, move
        self.span = move.span

    def stage(self) -> Stage | None:
        number = self.before.place_in(self.move.edge.text)
        names = [edge.name for edge in self.before.outline]
        if number is None:
            fact = f"no edge of `{self.before.name.split()[0]}` is called `{self.move.edge.text}`"
            self.sheets.notes.append(error(fact, self.move.edge.span, *nearest(self.move.edge.text, names)))
            return None
        if self.before.edge(self.move.name):
            fact = f"there is an edge or a line called `{self.move.name}` already"
            self.sheets.notes.append(error(fact, self.move.name_span, "give the new edge another name"))
            return None
        return self._extended(number)

    def _extended(self, number: int) -> Stage:
        outline = self.before.outline
        old = outline[number]
        before, behind = outline[number - 1], outline[(number + 1) % len(outline)]
        starts, ends = (f"{self.move.name}_{at.text}" for at in (old.start, old.end))
        after = replace(self.before, name=self.name)
        made = self._made(old, before, behind)
        made_name = f"{self.move.name} drawn"
        self.sheets.declare(after.full(made_name), self.span, lambda: made)
        counts = self._pieces(made_name, after)
        for name, part in (
            (self.move.name, 0),
            (before.name, 1),
            (behind.name, 2),
        ):
            self.sheets.declare(after.full(name), self.span, counts(part))
        for name, edge, last in ((starts, self.move.name, False), (ends, self.move.name, True)):
            self.sheets.declare(after.full(name), self.span, self._end(after, edge, last))
        self._same(after, {self.move.name, before.name, behind.name})
        new = replace(
            old,
            name=self.move.name,
            name_span=self.move.name_span,
            start=ref(self.span, starts),
            end=ref(self.span, ends),
            finish=replace(old.finish, on_fold=False),
            measuring=None,
        )
        changed = {
            before.name: replace(before, end=ref(self.span, starts)),
            behind.name: replace(behind, start=ref(self.span, ends)),
            old.name: new,
        }
        if before is behind:
            changed[before.name] = replace(before, end=ref(self.span, starts), start=ref(self.span, ends))
        points = {
            **self.before.points,
            starts: frozenset({self.move.name}),
            ends: frozenset({self.move.name}),
            old.start.text: self.before.points.get(old.start.text, frozenset()) | {before.name, old.name},
            old.end.text: self.before.points.get(old.end.text, frozenset()) | {behind.name, old.name},
        }
        return replace(
            after,
            outline=tuple(changed.get(edge.name, edge) for edge in outline),
            lines=(*after.lines, replace(old, finish=Finish())),
            points=points,
            cuts={name: cut for name, cut in self.before.cuts.items() if name != old.name},
        )

    def _made(self, old: tree.Edge, before: tree.Edge, behind: tree.Edge) -> Value:
        """The new edge and both neighbours, one after another in one array `(B, N, 4, 2)`."""
        amount = self.sheets.values.compile(self.move.amount, self.before.name, one(Kind.LENGTH))
        everything = [self.sheets.found(self.before, edge.name, self.span) for edge in self.before.outline]
        named = [self.sheets.found(self.before, edge.name, self.span) for edge in (old, before, behind)]

        def find(amount: Floats, path: Floats, first: Floats, last: Floats, *outline: Floats) -> object:
            runs_left = outline_areas(np.concatenate(outline, axis=1)) > 0
            right = beside(path, amount, amount)
            left = reverse(beside(reverse(path), amount, amount))
            moved = np.where(runs_left[:, None, None, None], right, left)
            kept, grown, grown_too, met = carried_to(moved, first, last)
            faults = [(~met, APART), (amount <= 0, "an edge is extended outwards, by more than nothing")]
            return np.concatenate([kept, grown, grown_too], axis=1), faults

        return made_of(self.span, Kind.EDGE, (amount, *named, *everything), find)

    def _pieces(self, made: str, after: Stage):  # type: ignore[no-untyped-def]
        """How one of the three edges is taken out of the array again."""
        _, before, behind = self._three()
        sizes = [self.sheets.found(self.before, edge.name, self.span) for edge in (before, behind)]

        def part(number: int):  # type: ignore[no-untyped-def]
            def make() -> Value:
                drawn = self.sheets.found(after, made, self.span)

                def find(drawn: Floats, first: Floats, last: Floats) -> Floats:
                    behind, before = last.shape[1] + 1, first.shape[1] + 1
                    cuts = [0, drawn.shape[1] - before - behind, drawn.shape[1] - behind, drawn.shape[1]]
                    return np.asarray(drawn[:, cuts[number] : cuts[number + 1]])

                return made_of(self.span, Kind.EDGE, (drawn, *sizes), find)

            return make

        return part

    def _three(self) -> tuple[tree.Edge, tree.Edge, tree.Edge]:
        outline = self.before.outline
        number = self.before.place_in(self.move.edge.text)
        assert number is not None
        return outline[number], outline[number - 1], outline[(number + 1) % len(outline)]

    def _end(self, after: Stage, edge: str, last: bool):  # type: ignore[no-untyped-def]
        def make() -> Value:
            path = self.sheets.found(after, edge, self.span)
            return made_of(self.span, Kind.POINT, (path,), lambda path: path[:, -1, 3] if last else path[:, 0, 0])

        return make

    def _same(self, after: Stage, changed: set[str]) -> None:
        kept = [edge.name for edge in self.before.edges if edge.name not in changed]
        for name in (*kept, *self.before.points, *self.before.values):
            self.sheets.same(after, name, self.before, self.span)
