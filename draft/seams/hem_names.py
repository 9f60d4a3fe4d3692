"""What a hem is called where it is of several edges that run on into one another: one name for all of them."""

from __future__ import annotations

from draft.garment.garment import Edge, Piece
from draft.seams.walk import goes_on_along

_SIDES = ("left_", "right_")


def called_on_paper(piece: Piece, edge: Edge) -> str:
    """The name that stands along an edge: the shortest of those of a hem that goes on straight over several edges.

    A front that was opened out has its `hem` and the mirrored `right_hem`, which a maker turns up as one. Of which side
    a hem is the piece says already: its `right_cuff` is its cuff, unless it has another.
    """
    if not (edge.turned_up and edge.allowance > 0):
        return edge.name
    name, plain = _of_all(piece, edge), _without_side(_of_all(piece, edge))
    others = {_of_all(piece, one) for one in piece.edges if one.turned_up} - {name}
    return name if plain in {_without_side(other) for other in others} else plain


def _without_side(name: str) -> str:
    for side in _SIDES:
        name = name.removeprefix(side)
    return name


def _of_all(piece: Piece, edge: Edge) -> str:
    names = [edge.name]
    for one in names:
        names += [other for other in _next_to(piece, one) if other not in names]
    return min(names, key=lambda name: (len(name), [each.name for each in piece.edges].index(name)))


def _next_to(piece: Piece, name: str) -> list[str]:
    """The hems on either side of one that go on along it with the same allowance."""
    edges = piece.edges
    at = next(k for k, edge in enumerate(edges) if edge.name == name)
    own, beside = edges[at], (edges[at - 1], edges[(at + 1) % len(edges)])
    alike = [other for other in beside if other.turned_up and abs(other.allowance - own.allowance) < 0.1]
    return [other.name for other in alike if other.name != name and goes_on_along(piece, name, other.name)]
