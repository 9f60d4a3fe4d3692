"""The order of a piece's edges round its outline."""

from __future__ import annotations

from dataclasses import replace

from draft.base.notes import Note, error
from draft.language import tree

MOST_WAYS = 1_000  # tried along lines to where an outline goes on


def in_order(piece: tree.Piece, body: tree.Contents, notes: list[Note]) -> list[tree.Edge]:
    """The edges as they follow one another, from the first written; a note and nothing where they do not close."""
    if not body.edges:
        notes.append(error(f"`{piece.name}` has no outline", piece.name_span, "add an `outline` block"))
        return []
    starts: dict[tuple[str, ...], tree.Edge] = {}
    for edge in body.edges:
        twin = starts.get(edge.start.parts)
        if twin and twin is not edge:
            fact = f"`{twin.name}` and `{edge.name}` both begin at `{edge.start.text}`"
            turned = twin if _fits_turned(twin, body) and not _fits_turned(edge, body) else edge
            fix = f"write one of them the other way: `{turned.name} {turned.end.text} to {turned.start.text}`"
            notes.append(error(fact, edge.start.span, fix))
            return []
        starts[edge.start.parts] = edge
    return _walk(piece, body, starts, notes)


def _fits_turned(edge: tree.Edge, body: tree.Contents) -> bool:
    """Whether another edge arrives where this one would begin if it ran the other way."""
    return any(other is not edge and other.end.parts == edge.end.parts for other in body.edges)


def _walk(
    piece: tree.Piece, body: tree.Contents, starts: dict[tuple[str, ...], tree.Edge], notes: list[Note]
) -> list[tree.Edge]:
    ordered = [body.edges[0]]
    while ordered[-1].end.parts != body.edges[0].start.parts:
        following = starts.get(ordered[-1].end.parts)
        if following is None or following in ordered:
            end = ordered[-1].end
            others = [edge.start.text for edge in body.edges if edge not in ordered]
            fix = f"add an edge from `{end.text}` to `{others[0] if others else body.edges[0].start.text}`"
            notes.append(error(f"the outline of `{piece.name}` is open: no edge begins at `{end.text}`", end.span, fix))
            return []
        ordered.append(following)
    for edge in body.edges:
        if edge not in ordered:
            fact = f"`{edge.name}` is not part of the outline of `{piece.name}`, which closes without it"
            notes.append(error(fact, edge.span, "take it out, or let another edge lead to it"))
    return ordered


def completed(edges: tuple[tree.Edge, ...], lines: tuple[tree.Edge, ...]) -> tuple[tree.Edge, ...]:
    """The edges with those lines between them that close the outline where edges alone leave it open.

    Lines may be run either way: one that is run backwards comes with its ends changed. Where none lead on, nothing is
    added.
    """
    starts = {edge.start.parts for edge in edges}
    found: list[tree.Edge] = []
    for edge in edges:
        if edge.end.parts in starts:
            continue
        way = _way_on(edge.end.parts, starts, [line for line in lines if line not in edges])
        found += way or []
        starts |= {line.start.parts for line in way or []}
    return (*edges, *found)


def _way_on(at: tuple[str, ...], goals: set[tuple[str, ...]], lines: list[tree.Edge]) -> list[tree.Edge] | None:
    """The shortest way along lines from a point to where an edge begins."""
    ways: list[tuple[tuple[str, ...], list[tree.Edge], list[tree.Edge]]] = [(at, [], lines)]
    for here, way, left in ways:
        for line in left:
            ends = line.start, line.end
            if here not in (ends[0].parts, ends[1].parts):
                continue
            turned = line if ends[0].parts == here else replace(line, start=line.end, end=line.start)
            if turned.end.parts in goals:
                return [*way, turned]
            if len(ways) < MOST_WAYS:
                ways.append((turned.end.parts, [*way, turned], [other for other in left if other is not line]))
    return None
