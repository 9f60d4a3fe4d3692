"""Where and how a pattern is lengthened or shortened on paper, and which pieces are changed alike (common practice)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import product

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Mark, Piece, SidePart
from draft.paper.booklet.booklet_page import Book, Topic
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.set_blocks import Block, bullets
from draft.paper.drawing.wording import capitalised

_ALIKE = 1.0  # mm: sizes whose lengths differ by less are of one length
_LENGTH = 300.0  # mm: less is a depth, a width or how far one thing lies over another, which no body's height changes
_Place = tuple[str, str]
"""A piece and one of its lines, by their names."""


@dataclass(frozen=True)
class Alike:
    """Pieces that are changed by the same amount, at so many pairs of lines each."""

    pieces: tuple[str, ...]
    lines: int


def longer_section(book: Book, facts: BookletFacts) -> None:
    """The section; nothing where no piece has lines for it, as on what is made for somebody whose lengths are known."""
    alike = changed_alike(facts.garment, facts.middle)
    if not alike:
        return
    say = facts.wording.say
    said = [say("longer.text", line=say("piece.lengthen")), *_one_length(facts)]
    said += [say("longer.longer"), say("longer.shorter")]
    after = [say("longer.after"), *([say("longer.two")] if any(one.lines > 1 for one in alike) else [])]
    names = [capitalised(facts.pieces(one.pieces)) for one in alike]
    together: list[str | Block] = [say("longer.alike"), bullets(names, book.format.column)]
    topics: list[Topic] = [("", [*said, *after, *together, say("longer.cloth")])]
    book.section(say("longer.title"), book.height_of(topics))
    book.topics(topics)


def _one_length(facts: BookletFacts) -> list[str]:
    """The finished lengths that all sizes have in common: whoever is not of that height changes them in every size."""
    bodies = list(facts.bodies)
    if len(bodies) < 2:
        return []
    lengths = {
        one.name: float(one.values[bodies[0]])
        for one in facts.garment.finished
        if not one.around and one.values[bodies[0]] > _LENGTH and float(np.ptp(one.values[bodies])) < _ALIKE
    }
    said = [f"{facts.wording.named(name)} {facts.wording.length(mm)}" for name, mm in lengths.items()]
    return [facts.wording.say("longer.shared", lengths=facts.wording.listed(said))] if said else []


def changed_alike(garment: Garment, body: int) -> list[Alike]:
    """The pieces with lines to lengthen at, those together that are sewn to one another across these lines."""
    places = [(piece, mark) for piece in garment.pieces for mark in piece.marks if mark.line == "lengthen"]
    crossed = {(piece.name, mark.name): _crossed(piece, mark, body) for piece, mark in places}
    group = {place: place for place in crossed}
    for one, other in _sewn_across(garment, crossed):
        first, second = group[one], group[other]
        group = {place: first if head == second else head for place, head in group.items()}
    found: dict[_Place, list[str]] = {}
    for place, head in group.items():
        found.setdefault(head, []).append(place[0])
    counted: dict[tuple[str, ...], int] = {}
    for names in found.values():
        key = tuple(dict.fromkeys(names))
        counted[key] = counted.get(key, 0) + 1
    return [Alike(names, lines) for names, lines in counted.items()]


def _crossed(piece: Piece, mark: Mark, body: int) -> frozenset[str]:
    """The edges of a piece that a line through a mark, square to its grain, runs across."""
    grain = piece.grain[body]
    at = float(mark.points[body, 0] @ grain)

    def reach(line: Floats) -> tuple[float, float]:
        along = line[:, (0, 3)].reshape(-1, 2) @ grain
        return float(np.min(along)), float(np.max(along))

    spans = {edge.name: reach(edge.segments[body]) for edge in piece.edges}
    return frozenset(name for name, (low, high) in spans.items() if low < at < high)


def _sewn_across(garment: Garment, crossed: dict[_Place, frozenset[str]]) -> Iterator[tuple[_Place, _Place]]:
    """Pairs of lines of one name whose pieces are sewn to one another along edges that they run across."""
    for join in garment.joins:
        together = zip(join.first, join.second, strict=True) if len(join.first) == len(join.second) else None
        for first, second in together or product(join.first, join.second):
            yield from _lines_of(first, second, crossed)


def _lines_of(
    first: SidePart, second: SidePart, crossed: dict[_Place, frozenset[str]]
) -> Iterable[tuple[_Place, _Place]]:
    ones = [place for place, edges in crossed.items() if place[0] == first.piece and first.edge in edges]
    others = [place for place, edges in crossed.items() if place[0] == second.piece and second.edge in edges]
    return [(one, other) for one in ones for other in others if one[1] == other[1]]
