"""The strokes of a view, and bands drawn with them as strips along the edges that they finish."""

from __future__ import annotations

from draft.base.arrays import Floats
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Stroke
from draft.paper.flat.bands import band_lines
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.similar import MIRROR

OUTLINE = Stroke(0.5, cap="round")
SEAM = Stroke(0.28, cap="round")
STITCH = Stroke(0.22, (1.1, 0.75))
PAPER = "#ffffff"
INSIDE = "#dedede"
"""The wrong side of the cloth, where an opening shows it."""


def strip(canvas: Canvas, edge: Floats, width: float, side: float, colour: str, mirrored: bool = False) -> None:
    """A band of a finished width along an edge `(n, 4, 2)`, on its left if `side` is 1, else on its right."""
    far, ring = band_lines(edge, width, side)
    ends = [lines_through([edge[0, 0], far[0, 0]]), lines_through([edge[-1, 3], far[-1, 3]])]
    for shape in (ring, MIRROR.points(ring))[: 2 if mirrored else 1]:
        canvas.fill(shape, colour)
    draw = canvas.both if mirrored else canvas.line
    draw([far, *ends], OUTLINE)
    draw([edge], SEAM)
