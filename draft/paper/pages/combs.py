"""Curvature combs: teeth square to every curved edge, longer where it turns more tightly, to judge its fairness by eye.

A fair line has combs whose ends run on evenly; a step is where two curves of unlike bend join, and teeth that change
sides are where the line begins to turn the other way.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Edge, Piece
from draft.geometry import cubic
from draft.geometry.cubic import lines_through
from draft.geometry.length import length, locate
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Path, Stroke
from draft.paper.pages.sheet import PatternDrawing
from draft.paper.piece.piece_drawing import PieceDrawing
from draft.paper.piece.piece_lines import FLIP

APART = 4.0  # mm from tooth to tooth: dense enough to show a bend of a centimetre
TALL = 1500.0  # mm2: a tooth is so much over the radius, 15 mm for one of 10 cm and 4 mm for one of 40 cm
TALLEST = 45.0  # mm: a bend tighter than 33 mm runs out of the comb
FLAT = 0.15  # mm: an edge with no longer teeth is straight to the eye, and has no comb
_TOOTH, _TIPS = 0.1, 0.2  # mm


def combed(pattern: PatternDrawing) -> PatternDrawing:
    """The pieces of a set with a comb on every curved edge of every size, and the room for it."""
    pairs = zip(pattern.garment.pieces, pattern.pieces, strict=True)
    return replace(pattern, pieces=tuple(_combed(piece, drawing, pattern) for piece, drawing in pairs))


def _combed(piece: Piece, drawing: PieceDrawing, pattern: PatternDrawing) -> PieceDrawing:
    found = [_of_size(piece, body, k, pattern) for k, body in enumerate(pattern.bodies)]
    boxes = [item.box() for items in found for item in items]
    sized = tuple((*items, *combs) for items, combs in zip(drawing.sized, found, strict=True))
    footprint = replace(drawing.footprint, rings=(*drawing.footprint.rings, *boxes))
    return replace(drawing, sized=sized, footprint=footprint)


def _of_size(piece: Piece, body: int, index: int, pattern: PatternDrawing) -> list[Path]:
    size = pattern.garment.sizes[body]
    colour = line_styles.BLUE if len(pattern.bodies) == 1 else line_styles.cutting_stroke(index).colour
    found: list[Path] = []
    for edge in piece.edges:
        teeth = comb(edge, body)
        if teeth is not None:
            data = (("piece", piece.name), ("edge", edge.name), ("size", size))
            name = f"{piece.name}.{edge.name}.comb" + (f".{size}" if len(pattern.bodies) > 1 else "")
            tips = lines_through(teeth[:, 1])
            found.append(
                Path(tuple(lines_through(tooth) for tooth in teeth), Stroke(_TOOTH, colour=colour), id=name, data=data)
            )
            found.append(Path((tips,), Stroke(_TIPS, colour=colour), id=f"{name}.tips", data=data))
    return found


def comb(edge: Edge, body: int) -> Floats | None:
    """The teeth of an edge, root and tip `(n, 2, 2)` with y down, in order along it; None for a straight edge.

    They stand on the outer side of the bend, evenly spaced on each segment, with one at each of its ends.
    """
    found = [_segment_teeth(seg) for seg in edge.segments[body] if cubic.norm(np.diff(seg, axis=0)).sum() > FLAT]
    teeth = np.concatenate(found) if found else np.zeros((0, 2, 2))
    tall = cubic.norm(teeth[:, 1] - teeth[:, 0])
    return teeth * FLIP if np.any(tall > FLAT) else None


def _segment_teeth(seg: Floats) -> Floats:
    steps = max(1, math.ceil(float(cubic.norm(np.diff(seg, axis=0)).sum()) / APART))
    path = np.broadcast_to(seg, (steps + 1, 1, 4, 2))
    t = _evenly(path, steps)
    bend = np.clip(TALL * cubic.curvature(path[:, 0], t), -TALLEST, TALLEST)
    roots = cubic.point(path[:, 0], t)
    outward = cubic.right_of(cubic.unit(cubic.derivative(path[:, 0], t)))
    return np.stack([roots, roots + bend[:, None] * outward], axis=1)


def _evenly(path: Floats, steps: int) -> Floats:
    """Parameters `(steps + 1,)` at equal distances along one segment, given once for each."""
    return locate(path, np.linspace(0.0, 1.0, steps + 1) * length(path))[1]
