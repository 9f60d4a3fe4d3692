"""What is laid: the outline of a part as it may lie in a strip of cloth, and the blocks of which some shape must lie.

A search knows only blocks; what folded cloth means for a part is said here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from draft.base.arrays import Floats
from draft.cloth.nofit import region, reversed_region
from draft.cloth.parts import Part, alike
from draft.cloth.simplified import counterclockwise, flipped, grown

FEW = 0.5
"""Outlines grow by at most about so many mm for the search: far below what a shop cuts, and a quarter of the points."""


@dataclass(frozen=True, eq=False)
class Shape:
    """One way in which a part may lie in a strip: its ring, grown a little for the search.

    `offset` takes the part's own ring, mirrored by `across` and `along`, to this one. `low` and `high` are the corners
    of the true outline, which alone must keep within the cloth. A shape on the fold is a half whose fold lies at 0.
    """

    part: Part
    across: int
    along: int
    on_fold: bool
    ring: Floats
    offset: Floats
    low: Floats
    high: Floats

    @property
    def width(self) -> float:
        """What it takes across, mm."""
        return float(self.high[0] - (0.0 if self.on_fold else self.low[0]))


@dataclass(frozen=True, eq=False)
class Block:
    """`count` places to find, each for any one of these shapes."""

    shapes: tuple[Shape, ...]
    count: int

    @property
    def area(self) -> float:
        """What one place takes of the strip at least, square mm."""
        return min(shape.part.area / (2 if shape.on_fold else 1) for shape in self.shapes)


class Shelf:
    """The shapes of a set of parts and their no-fit regions, each made once, when it is first asked for."""

    def __init__(self, tolerance: float = FEW) -> None:
        self._tolerance = tolerance
        self._rings: dict[tuple[int, bool], tuple[Part, Floats]] = {}
        self._shapes: dict[tuple[int, int, int, bool], Shape] = {}
        self._regions: dict[tuple[int, int], tuple[Shape, Shape, object]] = {}

    def shape(self, part: Part, across: int, along: int, on_fold: bool = False) -> Shape:
        """The part mirrored or not, across and along, lying anywhere or on the fold."""
        key = (id(part), across, along, on_fold)
        if key not in self._shapes:
            ring = flipped(self._ring(part, on_fold), across, along)
            edge = across * part.fold if on_fold and part.fold is not None else float(ring[:, 0].min())
            offset = -np.array([edge, ring[:, 1].min()])
            true = flipped(part.ring, across, along) + offset
            self._shapes[key] = Shape(
                part, across, along, on_fold, ring + offset, offset, true.min(axis=0), true.max(axis=0)
            )
        return self._shapes[key]

    def exact(self, part: Part, ring: Floats) -> Shape:
        """A shape that stands just where its ring is, for what no piece may lie on."""
        return Shape(part, 1, 1, False, counterclockwise(ring), np.zeros(2), ring.min(axis=0), ring.max(axis=0))

    def no_fit(self, fixed: Shape, moving: Shape) -> object:
        """The shapely region of moves that lay `moving` on `fixed`."""
        key, back = (id(fixed), id(moving)), (id(moving), id(fixed))
        if key not in self._regions:
            known = self._regions.get(back)
            found = reversed_region(known[2]) if known else region(fixed.ring, moving.ring)
            self._regions[key] = (fixed, moving, found)
        return self._regions[key][2]

    def _ring(self, part: Part, on_fold: bool) -> Floats:
        key = (id(part), on_fold)
        if key not in self._rings:
            ring = _right_half(part) if on_fold else part.ring
            self._rings[key] = (part, grown(ring, self._tolerance))
        return self._rings[key][1]


def open_blocks(parts: Sequence[Part], shelf: Shelf, one_way: bool) -> list[Block]:
    """Single cloth: every copy has its own place, and the other hand of a pair lies face down."""
    blocks = []
    for part in parts:
        if part.count > part.mirrored:
            blocks.append(Block(_ways(part, shelf, False, one_way), part.count - part.mirrored))
        if part.mirrored:
            blocks.append(Block(_ways(part, shelf, True, one_way), part.mirrored))
    return blocks


def folded_blocks(parts: Sequence[Part], shelf: Shelf, one_way: bool, width: float) -> list[Block] | None:
    """Doubled cloth: halves on the fold, two copies at a time anywhere else. None where it cannot give some part.

    A single copy that is alike on both sides may lie on the fold, or be cut from doubled cloth with one to spare; all
    must lie on the fold if they are wider than the strip. A half whose own fold runs across the grain fits no fold.
    """
    blocks = []
    for part in parts:
        halves = _halves(part, shelf, one_way) if part.fold is not None else ()
        free = () if part.width > width or part.folded else _both_hands(part, shelf, one_way)
        if not halves and not free:
            return None
        if not free:
            blocks.append(Block(halves, part.count))
            continue
        places = part.count // 2 if halves else max(part.count - part.mirrored, part.mirrored)
        blocks.append(Block(free, places))
        if halves and part.count % 2:
            blocks.append(Block((*free, *halves), 1))
    return [block for block in blocks if block.count]


def _ways(part: Part, shelf: Shelf, face_down: bool, one_way: bool) -> tuple[Shape, ...]:
    across = -1 if face_down else 1
    upright = shelf.shape(part, across, 1)
    turned = shelf.shape(part, -across, -1)
    return (upright,) if one_way or alike(upright.ring, turned.ring) else (upright, turned)


def _both_hands(part: Part, shelf: Shelf, one_way: bool) -> tuple[Shape, ...]:
    found: list[Shape] = []
    for face_down in (False, True):
        for shape in _ways(part, shelf, face_down, one_way):
            if not any(alike(shape.ring, other.ring) for other in found):
                found.append(shape)
    return tuple(found)


def _halves(part: Part, shelf: Shelf, one_way: bool) -> tuple[Shape, ...]:
    upright, turned = shelf.shape(part, 1, 1, True), shelf.shape(part, 1, -1, True)
    return (upright,) if one_way or alike(upright.ring, turned.ring) else (upright, turned)


def _right_half(part: Part) -> Floats:
    """The half of a part's ring right of its fold."""
    import shapely

    assert part.fold is not None
    side = shapely.box(part.fold, -1.0, part.width + 1.0, part.height + 1.0)
    halves = shapely.get_parts(shapely.Polygon(part.ring).intersection(side))
    widest = max(halves, key=lambda half: float(half.area))
    return counterclockwise(shapely.get_coordinates(widest.exterior)[:-1])
