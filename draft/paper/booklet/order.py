"""The order of sewing: as joins are declared, but a piece is closed before it is set on, an opening before that.

What is stitched onto a piece comes first, while that lies flat; hems come last.
"""

from __future__ import annotations

from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Patch, Piece, SidePart
from draft.paper.booklet.facts import BookletFacts, turned_up_edges


@dataclass(frozen=True)
class SewingStep:
    """One step: a piece stitched on, a join, or the hem of some edges of one name."""

    name: str
    patch: Patch | None = None
    join: Join | None = None
    hem: tuple[tuple[Piece, Edge], ...] = ()


def sewing_order(garment: Garment) -> list[SewingStep]:
    """All steps in their order."""
    rest, done = [join for join in garment.joins if not join.caught], list[Join]()
    while rest:
        ready = next((join for join in _going_on(done, rest) if not _waits(garment, join, rest)), rest[0])
        rest.remove(ready)
        done.append(ready)
    found = [SewingStep(patch.name, patch=patch) for patch in garment.patches]
    found += [SewingStep(join.name, join=join) for join in done]
    return found + [SewingStep(name, hem=tuple(edges)) for name, edges in turned_up_edges(garment).items()]


def _going_on(done: list[Join], rest: list[Join]) -> list[Join]:
    """What is left, beginning with seams that close the same piece as the last one did: they are sewn in one go."""
    last = done[-1].pieces if done else frozenset()
    return sorted(rest, key=lambda join: not (len(last) == 1 and join.pieces == last and not join.onto))


def _waits(garment: Garment, join: Join, rest: list[Join]) -> bool:
    """Whether another join must be sewn before."""
    return any(other is not join and _first(garment, other, join) for other in rest)


def _first(garment: Garment, other: Join, join: Join) -> bool:
    """Whether `other` closes a piece that `join` sets on, or the opening that it is set on."""
    if _before_lying(garment, other, join):
        return True
    if other.pieces == _set_on(join) and not other.is_lying:
        return True
    side = join.second if len(join.second) > 1 else join.first
    if len(side) < 2 or set(_parts(other)) & set(_parts(join)):
        return False
    return any(_between(garment, a, b, other) for a, b in zip(side, side[1:] + side[:1], strict=True))


def _before_lying(garment: Garment, other: Join, join: Join) -> bool:
    """Whether `other` is the seam on which `join` stitches down, or sews what `join` stitches down or catches."""
    if other.onto:
        return False
    if join.onto:
        return other.name == join.onto or bool(other.pieces & {part.piece for part in join.first})
    return bool(other.pieces) and other.pieces <= {part.piece for part in caught_in(garment, join)}


def caught_in(garment: Garment, join: Join) -> tuple[SidePart, ...]:
    """What lies between the two sides of a join."""
    return next((other.second for other in garment.joins if other.caught and other.name == join.name), ())


def _set_on(join: Join) -> set[str]:
    """The piece that a join sets on: one that is stretched to its opening, or one edge of it sewn to several."""
    if join.stretched:
        return {part.piece for part in join.first}
    sides = sorted((join.first, join.second), key=len)
    own, others = ({part.piece for part in one} for one in sides)
    return own - others if len(sides[0]) == 1 < len(sides[1]) else set()


def _parts(join: Join) -> list[tuple[str, str]]:
    return [(part.piece, part.edge) for part in (*join.first, *join.second)]


def _between(garment: Garment, a: SidePart, b: SidePart, other: Join) -> bool:
    """Whether a join sews the edges that follow one edge of an opening and come before the next."""
    if len(other.first) != 1 or len(other.second) != 1 or a.piece == b.piece:
        return False
    ends = {neighbour(garment, a, at_end=True), neighbour(garment, b, at_end=False)}
    return ends == set(_parts(other))


def neighbour(garment: Garment, part: SidePart, at_end: bool) -> tuple[str, str]:
    """The edge that meets an edge of a side at the side's end, or at its beginning: its piece and its name."""
    names = [edge.name for edge in garment.piece(part.piece).edges]
    step = 1 if at_end != part.reverse else -1
    return part.piece, names[(names.index(part.edge) + step) % len(names)]


def carries(join: Join, facts: BookletFacts) -> bool:
    """Whether a knit hangs from this seam: it begins or ends at an opening that a band is stretched to, at the neck."""
    if not facts.knit or len(join.first) != 1 or join.fit != "even":
        return False
    ends = [neighbour(facts.garment, join.first[0], at_end) for at_end in (False, True)]
    for other in facts.garment.joins:
        for piece, edge in ends:
            if other.stretched and (piece, edge) in {(part.piece, part.edge) for part in other.second}:
                start = [neighbour(facts.garment, SidePart(piece, edge), at_end) for at_end in (False, True)]
                return any(facts.garment.piece(p).edge(e).on_fold for p, e in start)
    return False
