"""Pieces as a machine cuts them: the whole outline, and where they are asked for its notches and the lines inside."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Literal, TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.exchange.polylines import PiecePolylines, polylines_of
from draft.garment.garment import Garment, Piece
from draft.geometry.cubic import bounds, lines_through, unit
from draft.paper.drawing.drawing import Turn
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.seams.allowance import opened_out
from draft.seams.hem_corner import folded_over

Notched: TypeAlias = Literal["none", "slit", "vee"]
"""How notches are cut: not at all, as a cut into the edge, or as a V that falls out of it."""

_VEE = 0.5
"""Half of a V's mouth for its depth: one as wide as deep (common practice)."""
_CROSS = 2.0
"""Half of the cross at a drill hole, mm."""


@dataclass(frozen=True)
class BarePiece:
    """One copy of a piece: its closed outline and other runs of segments `(n, 4, 2)`, in mm with y down."""

    name: str
    outline: Floats
    notches: tuple[Floats, ...] = ()
    inner: tuple[Floats, ...] = ()

    @property
    def box(self) -> Floats:
        """Lowest and highest corner `(2, 2)` of the outline."""
        return bounds(self.outline)

    def changed(self, move: Callable[[Floats], Floats], name: str = "") -> BarePiece:
        """The piece with all of its points `(..., 2)` moved, and perhaps another name."""
        notches, inner = (tuple(map(move, runs)) for runs in (self.notches, self.inner))
        return BarePiece(name or self.name, move(self.outline), notches, inner)

    def turned(self) -> BarePiece:
        """A quarter turn of it."""
        return self.changed(Turn(1, 0.0, 0.0).points)


def bare_piece(garment: Garment, piece: Piece, body: int, notched: Notched, inner: bool) -> BarePiece:
    """One piece of a garment, opened out where it was drafted as a half."""
    outline = opened_out(Outlines.of(garment, piece, body).cutting * FLIP, piece, body) * FLIP
    found = BarePiece(piece.name, outline)
    if notched == "none" and not inner:
        return found
    lines = polylines_of(garment, piece, body)
    snips = _both(_snips(lines, notched), lines) if notched != "none" else ()
    return replace(found, notches=snips, inner=_both(_inside(lines), lines) if inner else ())


def _snips(lines: PiecePolylines, notched: Notched) -> list[Floats]:
    """Each notch as a run from the outline and back, y up."""
    found = []
    for at, (depth, angle) in zip(lines.notches, lines.snips, strict=True):
        way = np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])
        aside = np.array([-way[1], way[0]]) * depth * _VEE
        tip = at + way * depth
        found.append(lines_through([at, tip] if notched == "slit" else [at - aside, tip, at + aside]))
    return found


def _inside(lines: PiecePolylines) -> list[Floats]:
    """Darts, pleats, lines of placement, and a cross at each drill hole, y up."""
    along = np.array([[-_CROSS, 0.0], [_CROSS, 0.0]])
    crosses = [line + hole for hole in lines.drills for line in (along, along[:, ::-1])]
    return [lines_through(line) for line in (*lines.inner, *crosses)]


def _both(runs: list[Floats], lines: PiecePolylines) -> tuple[Floats, ...]:
    """The runs, and their like on the other half of a piece on a fold; y down."""
    if lines.fold is not None:
        start, way = lines.fold[0], unit(lines.fold[1] - lines.fold[0])
        runs = [*runs, *(folded_over(run, start, way) for run in runs)]
    return tuple(run * FLIP for run in runs)
