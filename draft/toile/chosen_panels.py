"""Which pieces of a garment are meshed, and how: halves on the fold, one of a pair, strips folded and halved.

What lies on another piece is no cloth of its own: a facing doubles its edge, a second layer its piece. What is sewn to
nothing is left out.
"""

from __future__ import annotations

import numpy as np

from draft.base.record import dataclass
from draft.garment.garment import Garment, Join, Piece
from draft.toile.folded_strips import crease_of, folded_strip, sewn_by
from draft.toile.outline_lines import OutlineLine
from draft.toile.panel import Panel, panel_of
from draft.toile.why_not import CannotDress


@dataclass(frozen=True, eq=False)
class Chosen:
    """The panels of a garment by their pieces' names, the joins that sew them, and what is left out."""

    panels: dict[str, Panel]
    joins: tuple[Join, ...]
    left_out: tuple[str, ...]
    halved: bool = True
    """Whether they are those of one half."""


def chosen(garment: Garment, body: int, halved: bool = True) -> Chosen:
    """The panels of half of a garment, for one body, or of all of it. Raises CannotDress where its halves differ."""
    facings = {part.piece for join in garment.joins if join.is_facing for part in join.first}
    joins = tuple(join for join in garment.joins if not join.is_lying and not join.pieces & facings)
    joined = {(part.piece, part.edge) for join in joins for part in (*join.first, *join.second)}
    stitched = {patch.piece for patch in garment.patches}
    worn = [p for p in garment.pieces if any(p.name == name for name, _ in joined) and p.name not in stitched]
    panels = {piece.name: _panel(garment, piece, joins, body, halved) for piece in worn}
    for join in garment.joins:
        if join.is_facing:
            _double(garment, panels, join, body)
    for join in joins:
        for part in (*join.first, *join.second):
            if on_middle(join, part.piece):
                panels[part.piece].middles.add(part.edge)
    left = tuple(p.title for p in garment.pieces if p.name not in panels and p.name not in facings and p.cut)
    return Chosen(panels, joins, tuple(dict.fromkeys(left)), halved)


def without(found: Chosen, names: frozenset[str]) -> Chosen:
    """The same, some panels and what sews them left out."""
    panels = {name: panel for name, panel in found.panels.items() if name not in names}
    left = (*(found.panels[name].piece.title for name in found.panels if name in names), *found.left_out)
    joins = tuple(join for join in found.joins if not join.pieces & names)
    return Chosen(panels, joins, tuple(dict.fromkeys(left)), found.halved)


def on_middle(join: Join, name: str) -> bool:
    """Whether a join sews an edge to itself, on the other half of the body."""
    return join.closes(name) and {p.edge for p in join.first} == {p.edge for p in join.second}


def _panel(garment: Garment, piece: Piece, joins: tuple[Join, ...], body: int, halved: bool) -> Panel:
    if not all(np.isfinite(edge.segments[body]).all() for edge in piece.edges):
        raise CannotDress("why_not_drafted", name_piece=piece.title)
    joined = {
        part.edge
        for join in joins
        if not join.closes(piece.name)
        for part in (*join.first, *join.second)
        if part.piece == piece.name
    }
    copies = piece.copies(piece.layers[0] if piece.layers else "") if halved else 2
    base = sewn_by(piece, joined, body) if crease_of(piece) else ""
    if base:
        if copies > 2:
            raise CannotDress("why_cut_often", name_piece=piece.title, count_times=copies)
        return folded_strip(piece, body, base, halved=copies == 1, far_half=False)
    if copies != 2:
        raise CannotDress("why_cut_often", name_piece=piece.title, count_times=copies)
    panel = panel_of(piece, body)
    panel.layers = float(max(len(piece.layers), 1))
    return panel


def _double(garment: Garment, panels: dict[str, Panel], join: Join, body: int) -> None:
    """Notes beside which lines of its piece a facing lies, and how wide that is."""
    widths = [_width(garment.piece(part.piece), body) for part in join.first]
    for part in join.second:
        panel = panels.get(part.piece)
        if panel is not None and part.edge in panel.parts:
            panel.doubled += [(name, max(widths)) for name in panel.parts[part.edge]]


def _width(piece: Piece, body: int) -> float:
    """How wide a facing is: that of a rectangle of its area and of its way round."""
    points = np.concatenate([OutlineLine.of(one.segments[body]).points[:-1] for one in piece.edges])
    after = np.roll(points, -1, axis=0)
    area = abs(float(np.sum(points[:, 0] * after[:, 1] - points[:, 1] * after[:, 0]))) / 2
    around = float(np.hypot(*(after - points).T).sum())
    return (around - float(np.sqrt(max(around**2 - 16 * area, 0.0)))) / 4
