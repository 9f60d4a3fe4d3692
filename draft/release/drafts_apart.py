"""What a maker has to know of two versions of a garment: which pieces differ, in which sizes, how far, and in what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Source, Span
from draft.base.record import dataclass
from draft.garment.changes import Changes, changes
from draft.garment.garment import Garment, Piece

TOLD = 0.5
"""A line that has moved by less mm was not cut more truly before: about the width of a pencil's line."""
_NEAR = 0.05
"""Places inside a piece nearer than this, mm, are the same."""
_DIRECTIONS = {"grain", "stretch", "way", "from_fold", "to_fold"}
_ASKED: Mapping[str, tuple[str, ...]] = {
    "notches": ("notches",),
    "darts": ("takeups", "inner_darts"),
    "marks": ("marks",),
    "grain": ("grain",),
    "cut": ("cut", "cut_as", "cuts"),
}
"""What else of a piece a maker sees, and the fields of its record that it stands in."""


_ON_EDGES = {"notches", "darts", "marks"}


@dataclass(frozen=True)
class PieceChange:
    """One piece that both have: by how many mm its sewing lines move in each size `(sizes,)`, and what else differs.

    `kinds` are among `outline`, `edges` (it has others), `allowance`, `notches`, `darts`, `marks`, `grain` and `cut`.
    """

    piece: str
    moved: Floats
    kinds: tuple[str, ...]


@dataclass(frozen=True)
class GarmentChange:
    """All that differs, for the sizes that both have; pieces by their names in the new one, missing ones in the old."""

    sizes: tuple[str, ...]
    changed: tuple[PieceChange, ...]
    same: tuple[str, ...]
    new: tuple[str, ...]
    missing: tuple[str, ...]
    new_sizes: tuple[str, ...] = ()
    missing_sizes: tuple[str, ...] = ()

    @property
    def is_nothing(self) -> bool:
        """Whether a maker of the old one has to do nothing."""
        return not (self.changed or self.new or self.missing)

    @property
    def again(self) -> frozenset[str]:
        """The pieces that are to be printed again, or for the first time."""
        return frozenset((*(one.piece for one in self.changed), *self.new))


def drafts_apart(old: Garment, new: Garment) -> GarmentChange:
    """Two drafts for the same sizes, in their order. Raises ValueError for unlike numbers of them."""
    found = changes(old, new)
    before = {piece.name: piece for piece in old.pieces}
    both = [piece for piece in new.pieces if piece.name in before]
    told = [_piece(before[piece.name], piece, found) for piece in both]
    return GarmentChange(
        new.sizes,
        tuple(one for one in told if one.kinds),
        tuple(one.piece for one in told if not one.kinds),
        found.new_pieces,
        found.missing_pieces,
    )


def _piece(one: Piece, other: Piece, found: Changes) -> PieceChange:
    edges = [edge for edge in found.edges if edge.piece == other.name]
    moved = np.max([np.maximum(edge.moved, np.abs(edge.longer)) for edge in edges], axis=0) if edges else np.zeros(1)
    kinds = ["outline"] if float(np.max(moved)) >= TOLD else []
    kinds += ["edges"] if [edge.name for edge in one.edges] != [edge.name for edge in other.edges] else []
    kinds += ["allowance"] if _allowances(one) != _allowances(other) else []
    moved_on = "outline" in kinds or "edges" in kinds  # then what lies on the edges moves with them
    origin = tuple(piece.edges[0].segments[:, 0, 0] for piece in (one, other))
    for kind, names in _ASKED.items():
        pairs = [(getattr(one, name), getattr(other, name), name) for name in names]
        if moved_on and kind in _ON_EDGES:
            alike = all(_called(first) == _called(second) for first, second, _ in pairs)
        else:
            alike = all(_same(first, second, name, origin) for first, second, name in pairs)
        kinds += [] if alike else [kind]
    return PieceChange(other.name, moved, tuple(kinds))


def _called(things: Sequence[Any]) -> list[tuple[str, int]]:
    """What lies on a piece, by names and strokes: not where."""
    return sorted((getattr(one, "name", "") or one.edge, getattr(one, "strokes", 1)) for one in things)


def _allowances(piece: Piece) -> dict[str, float]:
    return {edge.name: 0.0 if edge.on_fold else round(float(edge.allowance), 1) for edge in piece.edges}


def _same(one: Any, other: Any, name: str, origin: Any) -> bool:
    """Whether two values of a record say the same, but for where they are written; points are taken from `origin`."""
    if isinstance(one, Span | Source) and isinstance(other, Span | Source):
        return True
    if isinstance(one, np.ndarray) and isinstance(other, np.ndarray):
        return _near(one, other, name, origin)
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(_same(a, b, name, origin) for a, b in zip(one, other, strict=True))
    if is_dataclass(one) and type(one) is type(other):
        parts = [field.name for field in fields(one) if field.compare]
        return all(_same(getattr(one, part), getattr(other, part), part, origin) for part in parts)
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= _NEAR
    return bool(one == other)


def _near(one: Floats, other: Floats, name: str, origin: Any) -> bool:
    if one.shape != other.shape:
        return False
    if isinstance(origin, tuple) and one.ndim > 1 and one.shape[-1] == 2 and name not in _DIRECTIONS:
        start, end = (at.reshape(len(at), *([1] * (one.ndim - 2)), 2) for at in origin)
        one, other = one - start, other - end
    return bool(np.allclose(one, other, rtol=0.0, atol=1e-3 if name in _DIRECTIONS else _NEAR, equal_nan=True))
