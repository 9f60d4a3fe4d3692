"""The pieces as one sewn mesh: flat at rest, each in its own plane, with the pairs of vertices that seams join."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, TypeAlias

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass

Role: TypeAlias = Literal["front", "back", "sleeve", "band"]
"""Where a piece goes: before or behind the body, round an arm, or beyond the edge that it is sewn to."""


@dataclass(frozen=True, eq=False)
class Sewn:
    """Half of a garment (x >= 0 on the body) as a mesh, or all of it where its sides differ.

    `rest` are the vertices as they were cut, mm `(n, 2)`, each in the plane of its piece; `triangles` `(t, 3)` run
    counterclockwise. `pairs` `(p, 2)` are vertices sewn to one another; sewn together they are one of the `count`
    vertices that move, whose number each has in `merged` `(n,)`.
    """

    rest: Floats
    triangles: Ints
    pieces: tuple[str, ...]
    """The names of the pieces that are in it, as `piece_of_vertex` and `piece_of_triangle` count them."""
    piece_of_vertex: Ints
    piece_of_triangle: Ints
    pairs: Ints
    merged: Ints
    on_middle: Bools
    """Whether a vertex `(n,)` lies where left and right meet: on a fold, or a seam of both halves of a piece."""
    grain: Floats
    """Unit vectors `(t, 2)` along the lengthwise grain; `across` lies square to them."""
    across: Floats
    """Unit vectors `(t, 2)` along the greatest stretch."""
    layers: Floats
    """How many layers of cloth lie there, `(t,)`."""
    edges: Mapping[tuple[str, str], Ints]
    """The vertices along each edge by piece and name, in the edge's own order."""
    roles: tuple[Role, ...]
    """Where each of the `pieces` goes."""
    hems: tuple[tuple[str, str], ...]
    """The edges that hang free at the bottom of the trunk, as `edges` names them."""
    edge_length: float
    sides: tuple[int, ...] = ()
    """On which side each of the `pieces` lies where both halves are there: 1 left, -1 right, 0 on either; else none."""
    hangs_open: bool = False
    """Whether nothing sews the parts of its front to one another."""
    halved: bool = True
    """Whether it is one half, on the plane between left and right."""
    left_out: tuple[str, ...] = ()
    """Pieces that are not in it, by their titles: ties, pockets, bindings."""

    @property
    def count(self) -> int:
        """How many vertices move once all seams are sewn."""
        return int(self.merged.max()) + 1
