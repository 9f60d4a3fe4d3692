"""What is seen within a front or back that was put together: its seams, and the placket with its buttons."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import lines_through, reverse
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.panels import Panel
from draft.paper.flat.put_together import Closing, Whole
from draft.paper.flat.similar import MIRROR
from draft.paper.flat.strips import OUTLINE, PAPER, SEAM

_BUTTON = 5.0
"""Half of a shirt's button across, in mm (common practice: 10 or 11 mm)."""


def within(canvas: Canvas, whole: Whole, panel: Panel) -> None:
    """The seams inside a panel, each on both sides."""
    for run in whole.seams.get(panel.piece.name, ()):
        line = panel.move.along(run.path)
        canvas.both([line], SEAM)
        canvas.edge(run.piece, run.edge, line)


def closed_with_buttons(canvas: Canvas, whole: Whole, panel: Panel) -> None:
    """The placket that lies on top: the edge of the wearer's right front, on the viewer's right, and its buttons."""
    closing = whole.closings.get(panel.piece.name)
    if closing is None:
        return
    edge = _beyond_the_middle(panel, closing)
    canvas.fill(_between(edge), PAPER)
    canvas.line([edge], OUTLINE)
    canvas.line([MIRROR.points(edge)], SEAM)
    canvas.edge(closing.placket, closing.edge[0], edge, mirrored=False)
    for point in panel.move.points(closing.buttons):
        ring = _circle(point)
        canvas.fill(ring, PAPER)
        canvas.line([ring], SEAM)


def _beyond_the_middle(panel: Panel, closing: Closing) -> Floats:
    """The front edge of the placket where it lies on the other front, from its lower end."""
    line = panel.move.along(closing.edge[1])
    line = line if float(line[..., 0].mean()) > 0 else MIRROR.points(line)
    return line if line[0, 0, 1] < line[-1, 3, 1] else reverse(line)


def _between(edge: Floats) -> Floats:
    """What lies between a line and its mirror image."""
    other = MIRROR.points(edge)
    return lines_through([edge[0, 0], edge[-1, 3], other[-1, 3], other[0, 0]], closed=True)


def _circle(point: Floats) -> Floats:
    turn = np.linspace(0.0, 2 * np.pi, 25)[:-1]
    return lines_through(point + _BUTTON * np.stack([np.cos(turn), np.sin(turn)], axis=-1), closed=True)
