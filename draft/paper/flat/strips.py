"""The strokes of a view, and bands drawn with them as strips along the edges that they finish."""

from __future__ import annotations

from draft.base.arrays import Floats
from draft.geometry.cubic import end_tangent, lines_through, start_tangent
from draft.paper.drawing.drawing import Stroke
from draft.paper.flat.bands import band_lines
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.similar import MIRROR

OUTLINE = Stroke(0.5, cap="round")
SEAM = Stroke(0.28, cap="round")
STITCH = Stroke(0.22, (1.1, 0.75))
PAPER = "#ffffff"
_MIDDLE = 0.5
_POINTED = 0.8
"""Cosine: where an edge turns by more than some 37 degrees its band has a seam."""
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
    mitre = [] if mirrored else _mitre(edge, far)
    if mitre:
        canvas.line(mitre, SEAM)


def _mitre(edge: Floats, far: Floats) -> list[Floats]:
    """The seam of a band `(1, 4, 2)` at a point of its edge in the middle of a view, as of a V neck; none elsewhere."""
    near = [k for k in range(1, len(edge)) if abs(edge[k, 0, 0]) < _MIDDLE]
    corners = [k for k in near if end_tangent(edge[k - 1]) @ start_tangent(edge[k]) < _POINTED]
    beyond = min(far[1:, 0], key=lambda at: abs(float(at[0])), default=None)
    return [lines_through([edge[corners[0], 0], beyond])] if corners and beyond is not None else []
