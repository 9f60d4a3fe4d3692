"""Tracing a part of a draft: the part that the named lines and edges bound.

Each line parts the outline in two; the side that is kept is the one with the other edges that were named. What was cut
keeps its name on both sides, and the line becomes an edge of its name on either.
"""

from __future__ import annotations

from dataclasses import replace

from draft.base.notes import Note, error, nearest
from draft.language import tree
from draft.plan.edges.edge_steps import EdgeSteps
from draft.plan.paper.cut_along import Cutter, Path
from draft.plan.paper.outline_places import OutlinePlace, first_named, place_of, unplaced
from draft.plan.paper.stage import Sheets, Stage, ref


class TraceBetween:
    """Makes the state that holds the part of a draft between some of its lines and edges."""

    def __init__(self, sheets: Sheets, steps: EdgeSteps, draft: Stage, name: str, origin: tree.Origin) -> None:
        self.sheets, self.steps, self.draft, self.name, self.origin = sheets, steps, draft, name, origin
        self.span = origin.span
        self.notes = sheets.notes

    def stage(self) -> Stage | None:
        named = [self.draft.edge(asked.text) for asked in self.origin.between]
        for edge, asked in zip(named, self.origin.between, strict=True):
            if edge is None:
                self._unknown(asked)
        edges = [self._by_first_names(edge) for edge in named if edge is not None]
        if len(edges) < len(named):
            return None
        outline = {edge.name for edge in self.draft.outline}
        lines = [edge for edge in edges if edge.name not in outline]
        kept = [edge.name for edge in edges if edge.name in outline]
        if not lines:
            fact = f"these are all edges of `{self._sheet}`: between them lies the whole of it"
            self.notes.append(error(fact, self.span, "name a line to cut along, or leave out `between ...`"))
            return None
        ring = None if kept else self._ring(lines)
        return ring or self._cut_along(self._paths(lines), kept)

    def _ring(self, lines: list[tree.Edge]) -> Stage | None:
        """The part within lines that run on into one another all the way round; None where they do not."""
        waiting = list(lines)
        chain = self._chain(waiting)
        if waiting or _start(*chain[0]) != _end(*chain[-1]):
            return None
        nowhere = OutlinePlace("", 0)
        path = Path(tuple(chain), nowhere, nowhere)
        cutter = Cutter(self.sheets, self.steps, self.draft, self.draft, self.name, path, self.span)
        return self.sheets.keep(cutter.within())

    @property
    def _sheet(self) -> str:
        return self.draft.name.split()[0]

    def _unknown(self, asked: tree.Ref) -> None:
        names = [edge.name for edge in self.draft.edges]
        fact = f"`{self._sheet}` has no edge or line called `{asked.text}`"
        self.notes.append(error(fact, asked.span, *nearest(asked.text, names)))

    # ---- lines into paths

    def _by_first_names(self, edge: tree.Edge) -> tree.Edge:
        """A line that ends at a corner by another name ends at the corner."""
        return replace(edge, start=first_named(self.draft, edge.start), end=first_named(self.draft, edge.end))

    def _paths(self, lines: list[tree.Edge]) -> list[Path] | None:
        """The lines, those that share an end put together, each path from outline to outline."""
        paths: list[Path] = []
        waiting = list(lines)
        while waiting:
            chain = self._chain(waiting)
            ends = [self._end(chain[0], first=True), self._end(chain[-1], first=False)]
            if ends[0] is None or ends[1] is None:
                return None
            paths.append(Path(tuple(chain), ends[0], ends[1]))
        return paths

    def _chain(self, waiting: list[tree.Edge]) -> list[tuple[tree.Edge, bool]]:
        chain = [(waiting.pop(0), True)]
        while True:
            first, last = _start(*chain[0]), _end(*chain[-1])
            for k, line in enumerate(waiting):
                ends = (line.start.text, line.end.text)
                if place_of(self.draft, ref(self.span, last)) is None and last in ends:
                    chain.append((waiting.pop(k), ends[0] == last))
                    break
                if place_of(self.draft, ref(self.span, first)) is None and first in ends:
                    chain.insert(0, (waiting.pop(k), ends[1] == first))
                    break
            else:
                return chain

    def _end(self, link: tuple[tree.Edge, bool], first: bool) -> OutlinePlace | None:
        line, forward = link
        at = line.start if first == forward else line.end
        place = place_of(self.draft, at)
        if place is None:
            self.notes.append(unplaced(self.draft, at, f"`{line.name}`"))
        return place

    # ---- cutting

    def _cut_along(self, paths: list[Path] | None, kept: list[str]) -> Stage | None:
        if paths is None:
            return None
        stage, number = self.draft, 0
        while paths:
            path, *later = paths
            number += 1
            name = f"{self.name} cut {number}" if later else self.name
            made = Cutter(self.sheets, self.steps, self.draft, stage, name, path, self.span).stage(kept, later)
            if isinstance(made, Note):
                self.notes.append(made)
                return None
            stage = self.sheets.keep(made)
            kept = [*kept, *(line.name for line, _ in path.lines)]
            paths = [self._again(stage, other) for other in later]
        return stage

    def _again(self, stage: Stage, path: Path) -> Path:
        """A path with its ends found on the outline as it is once another path is cut."""
        places = []
        for place in (path.start, path.end):
            found = place_of(stage, ref(self.span, place.name))
            places.append(found or place)
        return replace(path, start=places[0], end=places[1])


def _start(line: tree.Edge, forward: bool) -> str:
    return line.start.text if forward else line.end.text


def _end(line: tree.Edge, forward: bool) -> str:
    return line.end.text if forward else line.start.text
