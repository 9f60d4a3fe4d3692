"""The order in which joins are sewn: as they are declared, but a piece is closed before it is set on.

What closes an opening with a zip comes first, while the pieces still lie flat; an edge that another piece is set onto
is whole before that; the ends of a band are closed once it is set on. Each seam has a letter by this order, which
stands on the pieces and in the booklet.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from draft.garment.garment import Garment, Join, SidePart
from draft.seams.wedges import closes_a_wedge

_LETTERS = "ABCDEFGHJKNPRTUVWXYZ"
"""Without L, M and S: beside the sizes of a nest nobody could tell which of the two is meant. Without I, O and Q too
(common practice): turned along an edge, I is a dash, and the others are taken for one another."""
ZIPS = ("lapped zip", "invisible zip")


def joins_in_order(garment: Garment) -> list[Join]:
    """All joins in the order that they are sewn; what a join catches is sewn with it, and is not among them."""
    rest, done = [join for join in garment.joins if not join.caught], list[Join]()
    while rest:
        ready = next((join for join in _going_on(done, rest) if not _waits(garment, join, rest)), rest[0])
        rest.remove(ready)
        done.append(ready)
    return done


def seam_letters(garment: Garment) -> Mapping[str, str]:
    """The letter of each seam by its name: A to Z without some, then AA and so on, in the order of sewing."""
    return {join.name: letters(number) for number, join in enumerate(joins_in_order(garment))}


@lru_cache(maxsize=4)
def edge_letters(garment: Garment) -> Mapping[tuple[str, str], str]:
    """What stands along each edge that is sewn, by its piece and name: `A`, or `A, C` of an edge of two seams.

    What a seam is stitched down on bears only the letter of its own seam.
    """
    if garment.letters is not None:
        return garment.letters
    letter, found = seam_letters(garment), dict[tuple[str, str], set[str]]()
    for join in garment.joins:
        for part in join.first if join.onto else (*join.first, *join.second):
            found.setdefault((part.piece, part.edge), set()).add(letter[join.name])
    return {edge: ", ".join(sorted(some, key=lambda one: (len(one), one))) for edge, some in found.items()}


def letters(number: int) -> str:
    """`A` for 0, `K` for 9, `N` for 10, `Z` for 19, `AA` for 20."""
    first, last = divmod(number, len(_LETTERS))
    return (letters(first - 1) if first else "") + _LETTERS[last]


def has_zip(join: Join) -> bool:
    """Whether a zip goes into what is left open of a join."""
    return any(opening.use in ZIPS for opening in join.openings)


def _going_on(done: list[Join], rest: list[Join]) -> list[Join]:
    """What is left, beginning with seams that close the same piece as the last one did: they are sewn in one go.

    Then come those that a zip goes into.
    """
    last = done[-1].pieces if done else frozenset()
    in_one_go = {id(join) for join in rest if len(last) == 1 and join.pieces == last and not join.onto}
    return sorted(rest, key=lambda join: (id(join) not in in_one_go, not has_zip(join)))


def _waits(garment: Garment, join: Join, rest: list[Join]) -> bool:
    """Whether another join must be sewn before."""
    return any(other is not join and _first(garment, other, join) for other in rest)


def _first(garment: Garment, other: Join, join: Join) -> bool:
    """Whether `other` closes a piece that `join` sets on, or the opening that it is set on."""
    if _before_lying(garment, other, join) or _set_within(garment, other, join):
        return True
    if folds_an_end(garment, join):
        return join.pieces < other.pieces and not other.is_lying
    if other.pieces == _set_on(join) and not other.is_lying and not folds_an_end(garment, other):
        return True
    side = join.second if len(join.second) > 1 else join.first
    if len(side) < 2 or set(_parts(other)) & set(_parts(join)):
        return False
    return any(_between(garment, a, b, other) for a, b in zip(side, side[1:] + side[:1], strict=True))


def folds_an_end(garment: Garment, join: Join) -> bool:
    """Whether a join sews edges of one piece that follow one another: the end of a band that is folded there."""
    if len(join.pieces) != 1 or join.is_lying or closes_a_wedge(garment, join):
        return False
    names = [edge.name for edge in garment.piece(join.first[0].piece).edges]
    first, second = ({names.index(part.edge) for part in parts} for parts in (join.first, join.second))
    if first & second:
        return False
    own = first | second
    runs = [at for at in own if (at + 1) % len(names) not in own]
    return len(runs) == 1


def _set_within(garment: Garment, other: Join, join: Join) -> bool:
    """Whether `other` sets a piece on within an edge, as a pocket, of which `join` sews what lies beside that.

    It is done while the piece still lies flat. What is set in up to the edge's end, as a godet, comes after that seam.
    """
    within = _edges_set_on(garment, other)
    beside = {(part.piece, part.drawn) for part in (*join.first, *join.second) if part.drawn != part.edge}
    return bool(within & beside) and not _edges_set_on(garment, join)


def _edges_set_on(garment: Garment, join: Join) -> set[tuple[str, str]]:
    """The edges within which a join sets whole edges on: clear of both ends."""
    for parts, others in ((join.first, join.second), (join.second, join.first)):
        if all(_is_within(garment, part) for part in parts) and all(part.drawn == part.edge for part in others):
            return {(part.piece, part.drawn) for part in parts}
    return set()


def _is_within(garment: Garment, part: SidePart) -> bool:
    beside = (neighbour(garment, part, at_end)[1] for at_end in (True, False))
    return part.drawn != part.edge and all(name.startswith(f"{part.drawn} from ") for name in beside)


def _before_lying(garment: Garment, other: Join, join: Join) -> bool:
    """Whether `other` is the seam on which `join` stitches down, sews what `join` stitches down or catches, or stitches
    a layer down of what `join` takes as one."""
    if other.onto:
        return _takes_as_one(join, other)
    if join.onto:
        sews_it = bool(other.pieces & {part.piece for part in join.first})
        return other.name == join.onto or (sews_it and not _takes_as_one(other, join))
    return bool(other.pieces) and other.pieces <= {part.piece for part in caught_in(garment, join)}


def _takes_as_one(join: Join, lying: Join) -> bool:
    """Whether a join sews all layers of a piece as one, of which `lying` stitches one down: it comes after that."""
    sides = {part.piece for part in lying.first if part.layer}
    parts = (*join.first, *join.second)
    return not join.onto and any(part.piece in sides and not part.layer for part in parts)


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
    if len(other.first) != 1 or len(other.second) != 1:
        return False
    ends = {neighbour(garment, a, at_end=True), neighbour(garment, b, at_end=False)}
    return ends == set(_parts(other)) if a.piece != b.piece else False


def neighbour(garment: Garment, part: SidePart, at_end: bool) -> tuple[str, str]:
    """The edge that meets an edge of a side at the side's end, or at its beginning: its piece and its name."""
    names = [edge.name for edge in garment.piece(part.piece).edges]
    step = 1 if at_end != part.reverse else -1
    return part.piece, names[(names.index(part.edge) + step) % len(names)]
