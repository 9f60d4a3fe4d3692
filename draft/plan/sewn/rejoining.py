"""Joins along a line that was cut: which pieces have an edge there, on which side, in which order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from draft.base.notes import Note, Span, error, nearest
from draft.base.record import dataclass
from draft.garment.garment import JoinOf, PieceOf, SidePart
from draft.language import tree
from draft.plan.paper.stage import Cut, Stage
from draft.plan.plan import Value


@dataclass(frozen=True)
class _Edge:
    """An edge that was cut along a line: its two ends in the line's own direction, and whether it runs that way."""

    piece: str
    edge: str
    start: str
    end: str
    forward: bool
    side: bool

    def part(self, span: Span) -> tree.SidePart:
        return tree.SidePart(span, tree.Ref(span, (self.piece, self.edge)), not self.forward)


def rejoined(
    joins: Sequence[tree.Join], stages: Mapping[str, Stage], pieces: Sequence[str], notes: list[Note]
) -> tuple[tree.Join, ...]:
    """The joins, those along a line with their sides found; one whose sides are not found is left out, with a note."""
    named = {part.edge.parts for join in joins for part in (*join.first, *join.second)}
    found = []
    for join in joins:
        made = _with_sides(join, stages, pieces, named, notes) if join.along else join
        found += [made] if made else []
    return tuple(found)


def are_parted(join: JoinOf[Value], stages: Mapping[str, Stage]) -> bool:
    """Whether the sides of a join lay on either side of one line before it was cut, whether or not it says so."""
    cuts = [[_cut_of(part, stages) for part in parts] for parts in (join.first, join.second)]
    known = [cut for side in cuts for cut in side if cut]
    if len(known) < len(join.first) + len(join.second) or len({(cut.draft, cut.line) for cut in known}) > 1:
        return False
    first, second = ({cut.side for cut in side if cut} for side in cuts)
    return not first & second


def with_cuts(pieces: Sequence[PieceOf[Value, Value]], stages: Mapping[str, Stage]) -> list[PieceOf[Value, Value]]:
    """The pieces with what each of their edges was cut along, where the other side of the line is a piece's too."""
    sides = {
        (cut.draft, cut.line, cut.side) for p in pieces if p.name in stages for cut in stages[p.name].cuts.values()
    }

    def said(cut: Cut | None) -> str:
        return f"{cut.draft}.{cut.line}" if cut and (cut.draft, cut.line, not cut.side) in sides else ""

    return [
        replace(p, edges=tuple(replace(e, cut_along=said(stages[p.name].cuts.get(e.name))) for e in p.edges))
        if p.name in stages
        else p
        for p in pieces
    ]


def _cut_of(part: SidePart, stages: Mapping[str, Stage]) -> Cut | None:
    stage = stages.get(part.piece)
    return stage.cuts.get(part.edge) if stage else None


def _with_sides(
    join: tree.Join,
    stages: Mapping[str, Stage],
    pieces: Sequence[str],
    named: set[tuple[str, ...]],
    notes: list[Note],
) -> tree.Join | None:
    asked = join.along
    assert asked
    cut = list(_cut_along(asked, stages, pieces, named))
    sides = [[edge for edge in cut if edge.side == side] for side in (True, False)]
    if not sides[0] or not sides[1]:
        notes.append(_one_sided(asked, cut, stages, pieces))
        return None
    first, second = (tuple(edge.part(asked.span) for edge in _in_order(side)) for side in sides)
    return replace(join, first=first, second=second)


def _cut_along(
    asked: tree.Ref, stages: Mapping[str, Stage], pieces: Sequence[str], named: set[tuple[str, ...]]
) -> Iterable[_Edge]:
    for piece in pieces:
        stage = stages[piece]
        for edge in stage.outline:
            cut = stage.cuts.get(edge.name)
            if cut and (cut.draft, cut.line) == asked.parts and (piece, edge.name) not in named:
                ends = (edge.start.text, edge.end.text)
                start, end = ends if cut.forward else ends[::-1]
                yield _Edge(piece, edge.name, start, end, cut.forward, cut.side)


def _in_order(side: list[_Edge]) -> list[_Edge]:
    """The edges of one side as they follow one another along the line, as far as their ends tell."""
    ends = {edge.end for edge in side}
    ordered = [edge for edge in side if edge.start not in ends][:1] or side[:1]
    while following := [edge for edge in side if edge.start == ordered[-1].end and edge not in ordered]:
        ordered.append(following[0])
    return [*ordered, *(edge for edge in side if edge not in ordered)]


def _one_sided(asked: tree.Ref, cut: list[_Edge], stages: Mapping[str, Stage], pieces: Sequence[str]) -> Note:
    if cut:
        names = " and ".join(dict.fromkeys(f"`{edge.piece}`" for edge in cut))
        if len(cut) > 1:
            fact = f"along `{asked.text}` {names} were cut from the same side, so there is nothing to sew them to"
            strip = "name the lines of a strip in the order in which they lie along the outline"
            return error(fact, asked.span, "trace a piece from the other side of the line too", strip)
        fact = f"along `{asked.text}` only {names} was cut, so there is nothing to sew it to"
        return error(fact, asked.span, "trace a piece from the other side of the line too")
    known = {f"{cut.draft}.{cut.line}" for piece in pieces for cut in stages[piece].cuts.values()}
    return error(f"no piece was cut along `{asked.text}`", asked.span, *nearest(asked.text, known))
