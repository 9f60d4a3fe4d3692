"""`lay`: another draft is laid onto this one, so that an edge of it meets an edge here, or a point a point.

What was laid is called by the word that it was laid as, `front_neck`, so that no name means two things. Edges that met
are no outline any more, but stay as lines.
"""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TypeVar

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import error, nearest
from draft.base.units import Kind
from draft.garment.garment import Finish
from draft.geometry.cubic import norm, reverse
from draft.geometry.motion import laying, moved
from draft.geometry.rejoined import reaching
from draft.language import tree
from draft.plan.paper.combining import made_of
from draft.plan.paper.stage import Cut, Sheets, Stage, ref
from draft.plan.plan import Value

APART = 0.5  # mm: how far the far ends of two edges laid together may lie apart: more would be a seam of two lengths


Line = TypeVar("Line", tree.Takeup, tree.Notch, tree.Mark)


class LayOn:
    """Makes the state after one `lay`; None, with a note, where that cannot be."""

    def __init__(self, sheets: Sheets, before: Stage, name: str, move: tree.Lay, laid: Stage) -> None:
        self.sheets, self.before, self.name, self.move, self.laid = sheets, before, name, move, laid
        self.span = move.span
        self.notes = sheets.notes

    def stage(self) -> Stage | None:
        return self._on_edge() if self.move.onto_edge else self._on_point()

    # ---- an edge on an edge

    def _on_edge(self) -> Stage | None:
        theirs = self._found(self.laid, self.move.first)
        ours = self._found(self.before, self.move.onto)
        if theirs is None or ours is None:
            return None
        start, end = ours.start.text, ours.end.text
        meets = {theirs.start.text: start, theirs.end.text: end}
        if not self.move.mirrored:
            meets = {theirs.start.text: end, theirs.end.text: start}
        crossed = {theirs.start.text, theirs.end.text} == {start, end} and theirs.start.text != meets[theirs.start.text]
        if crossed:
            fact = f"laid so, `{theirs.start.text}` would come to lie on `{meets[theirs.start.text]}`"
            word = "" if self.move.mirrored else "mirrored "
            hint = f"try `lay {self.move.draft.text} {word}as {self.move.word}`"
            self.notes.append(error(fact, self.span, hint))
            return None
        pairs = tuple(meets.items())
        self._declare_motion(pairs[0], pairs[1])
        renames = {**self._renames(meets), theirs.name: ours.name}
        after = self._with_laid(renames, gone=theirs.name)
        outline = self._merged(ours, theirs, renames)
        met = replace(ours, finish=Finish())
        self._snap(outline, renames, theirs)
        return replace(after, outline=outline, lines=(*after.lines, met))

    def _found(self, stage: Stage, asked: tree.Ref) -> tree.Edge | None:
        number = stage.place_in(asked.text)
        if number is None:
            names = [edge.name for edge in stage.outline]
            fact = f"no edge of `{stage.name.split()[0]}` is called `{asked.text}`"
            self.notes.append(error(fact, asked.span, *nearest(asked.text, names)))
            return None
        return stage.outline[number]

    def _merged(self, ours: tree.Edge, theirs: tree.Edge, renames: dict[str, str]) -> tuple[tree.Edge, ...]:
        """The outline round both: here as far as the edge that met, then round what was laid, then on."""
        here = self.before.place_in(ours.name)
        there = self.laid.place_in(theirs.name)
        assert here is not None and there is not None
        round_it = [*self.laid.outline[there + 1 :], *self.laid.outline[:there]]
        laid = [self._renamed(edge, renames) for edge in round_it]
        if self.move.mirrored:
            laid = [replace(edge, start=edge.end, end=edge.start) for edge in laid[::-1]]
        return (*self.before.outline[:here], *laid, *self.before.outline[here + 1 :])

    def _renamed(self, edge: tree.Edge, renames: dict[str, str]) -> tree.Edge:
        name = f"{self.move.word}_{edge.name}"
        start, end = (ref(self.span, renames[at.text]) for at in (edge.start, edge.end))
        return replace(edge, name=name, start=start, end=end, finish=replace(edge.finish, on_fold=False))

    def _renames(self, meets: dict[str, str]) -> dict[str, str]:
        """What each name of the laid draft is called here: a point that met one of ours has its name."""
        names = {at.text for edge in self.laid.edges for at in (edge.start, edge.end)} | set(self.laid.points)
        return {name: meets.get(name) or f"{self.move.word}_{name}" for name in names}

    # ---- a point on a point

    def _on_point(self) -> Stage | None:
        asked = self.move.towards
        if asked is None:
            fact = "a point laid on a point leaves it open which way the draft lies"
            fix = f"say it: `{self.move.first.text} on {self.move.onto.text}, POINT towards POINT`"
            self.notes.append(error(fact, self.span, fix))
            return None
        pairs = ((self.move.first.text, self.move.onto.text), (asked[0].text, asked[1].text))
        self._declare_motion(*pairs)
        renames = self._renames({self.move.first.text: self.move.onto.text})
        after = self._with_laid(renames, gone="")
        spare = tuple(self._renamed(edge, renames) for edge in self.laid.outline)
        names = after.spare | {edge.name for edge in spare}
        return replace(after, lines=(*after.lines, *spare), spare=names)

    # ---- where it comes to lie

    def _declare_motion(self, first: tuple[str, str], second: tuple[str, str]) -> None:
        on_edge = self.move.onto_edge

        def make() -> Value:
            theirs = [self._point(self.laid, pair[0]) for pair in (first, second)]
            ours = [self._point(self.before, pair[1]) for pair in (first, second)]

            def find(first: Floats, towards: Floats, onto: Floats, facing: Floats) -> object:
                apart = np.abs(norm(towards - first) - norm(facing - onto))
                wrong = (apart > APART) & on_edge
                fact = (
                    f"the two edges do not fit one another: their ends lie up to {apart.max():.1f} mm differently apart"
                )
                return laying(first, towards, onto, facing, self.move.mirrored), [(wrong, fact)]

            return made_of(self.span, Kind.STEP, (*theirs, *ours), find)

        self.sheets.declare(f"{self.name}.{self.move.word} way", self.span, make)

    def _point(self, stage: Stage, name: str) -> Value:
        value = self.sheets.values.compile(ref(self.span, name), stage.name)
        if not value.broken and value.kind is not Kind.POINT:
            self.notes.append(error(f"`{name}` is no point of `{stage.name.split()[0]}`", self.span))
        return value

    def _moved(self, name: str, kind: Kind, turn: bool = False) -> Value:
        old = self.sheets.found(self.laid, name, self.span)
        way = self.sheets.values.found(self.span, f"{self.name}.{self.move.word} way")

        def find(found: Floats, way: Floats) -> Floats:
            there = moved(found, way)
            return reverse(there) if turn else there

        return made_of(self.span, kind, (old, way), find)

    def _with_laid(self, renames: dict[str, str], gone: str) -> Stage:
        """The state with everything of both drafts declared; its outline is settled by whoever asked."""
        after = replace(self.before, name=self.name)
        for name in (*(edge.name for edge in self.before.edges), *self.before.points, *self.before.values):
            self.sheets.same(after, name, self.before, self.span)
        turned = self.move.mirrored and self.move.onto_edge
        for edge in self.laid.edges:
            inner = edge in self.laid.outline and turned
            self._declare_edge(after, edge.name, inner)
        points = dict(self.before.points)
        for old, new in renames.items():
            if new not in points and new.startswith(f"{self.move.word}_"):
                self._declare_point(after, old, new)
                points[new] = frozenset(f"{self.move.word}_{on}" for on in self.laid.points.get(old, ()))
        lines = [self._renamed(line, renames) for line in self.laid.lines if line.name != gone]
        cuts = {f"{self.move.word}_{name}": self._cut(cut) for name, cut in self.laid.cuts.items()}
        return replace(
            after,
            lines=(*after.lines, *lines),
            points=points,
            takeups=(*after.takeups, *(self._called(line, renames) for line in self.laid.takeups)),
            notches=(*after.notches, *(self._called(line, renames) for line in self.laid.notches)),
            marks=(*after.marks, *(self._called(line, renames) for line in self.laid.marks)),
            values=(*self.before.values, *self._declare_values(after)),
            cuts={**self.before.cuts, **cuts},
        )

    def _cut(self, cut: Cut) -> Cut:
        return replace(cut, forward=not cut.forward) if self.move.mirrored and self.move.onto_edge else cut

    def _declare_edge(self, after: Stage, name: str, turn: bool) -> None:
        full = after.full(f"{self.move.word}_{name}")
        self.sheets.declare(full, self.span, lambda: self._moved(name, Kind.EDGE, turn))

    def _declare_point(self, after: Stage, old: str, new: str) -> None:
        self.sheets.declare(after.full(new), self.span, lambda: self._moved(old, Kind.POINT))

    def _declare_values(self, after: Stage) -> tuple[str, ...]:
        names = []
        for name in self.laid.values:
            names.append(f"{self.move.word}_{name}")
            self.sheets.same(after, names[-1], self.laid, self.span, name)
        return tuple(names)

    def _called(self, line: Line, renames: dict[str, str]) -> Line:
        """A dart, notch, mark or corner of the laid draft, with everything in it called as it is here."""

        def anew(said: object) -> object:
            if isinstance(said, tuple):
                return tuple(anew(part) for part in said)
            if not isinstance(said, tree.Ref) or len(said.parts) != 1:
                return said
            return ref(self.span, renames.get(said.text) or f"{self.move.word}_{said.text}")

        changes = {part.name: anew(getattr(line, part.name)) for part in fields(line) if part.name != "span"}
        if isinstance(line, tree.Named):
            changes["name"] = f"{self.move.word}_{line.name}"
        return replace(line, **changes)  # type: ignore[arg-type]

    def _snap(self, outline: tuple[tree.Edge, ...], renames: dict[str, str], theirs: tree.Edge) -> None:
        """Edges of what was laid that now end at a point of ours end there to the last digit."""
        word = self.move.word
        entries = self.sheets.values.names.entries
        for edge in outline:
            if not edge.name.startswith(f"{word}_") or edge.name[len(word) + 1 :] == theirs.name:
                continue
            ours = [at.text in self.before.points or self._is_corner(at.text) for at in (edge.start, edge.end)]
            if any(ours):
                full = f"{self.name}.{edge.name}"
                entries.pop(full, None)
                self.sheets.declare(full, self.span, self._snapped(edge, ours))

    def _is_corner(self, name: str) -> bool:
        return any(edge.start.text == name for edge in self.before.outline)

    def _snapped(self, edge: tree.Edge, ours: list[bool]):  # type: ignore[no-untyped-def]
        name, turn = edge.name[len(self.move.word) + 1 :], self.move.mirrored

        def make() -> Value:
            path = self._moved(name, Kind.EDGE, turn)
            ends = [
                self._point(self.before, at.text) for at, own in zip((edge.start, edge.end), ours, strict=True) if own
            ]

            def find(path: Floats, *at: Floats) -> Floats:
                rest = list(at)
                if ours[0]:
                    path = reverse(reaching(reverse(path), rest.pop(0)))
                return reaching(path, rest.pop(0)) if ours[1] else path

            return made_of(self.span, Kind.EDGE, (path, *ends), find)

        return make
