"""What the openings of a view show of the panel behind: its inside, and its bands."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Edge
from draft.geometry.cubic import lines_through, norm, reverse
from draft.geometry.flatten import polyline
from draft.paper.flat.bands import Band
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.limbs import Limb
from draft.paper.flat.lines_in_view import View, across, outward
from draft.paper.flat.similar import MIRROR
from draft.paper.flat.strips import INSIDE, OUTLINE, strip

_TOUCH = 0.5
"""A line that begins within so many mm of where another ends goes on from it."""


def openings(canvas: Canvas, view: View) -> None:
    """What the openings show of the other panel: its inside, and its bands."""
    if view.behind is None:
        return
    for edge in view.panel.piece.edges:
        own = across(view, view.panel, edge)
        other = _partner(view, edge)
        far = across(view, view.behind, other) if other else None
        if own is None or far is None or other is None:
            continue
        band = next((b for b in view.bands if any(part.edge == other.name for part in b.edges)), None)
        far = _carried_on(far, view.far_limbs, band)
        near = _carried_on(own, view.limbs, band)
        far = _between_ends(far, near)
        canvas.edge(view.behind.piece.name, other.name, far, mirrored=False)
        canvas.fill(lines_through(np.concatenate([polyline(near), polyline(far)[::-1]]), closed=True), INSIDE)
        if band and view.done.join(band.join.name):
            strip(canvas, far, band.width, outward(view.behind, view.body, far), INSIDE)
        else:
            canvas.line([far], OUTLINE)


def _between_ends(far: Floats, own: Floats) -> Floats:
    """The other panel's line made as wide as this one's and moved to the height of its ends: there they are sewn."""
    wide = own[-1, 3, 0] / far[-1, 3, 0] if far[-1, 3, 0] else 1.0
    return np.asarray(far * np.array([wide, 1.0]) + np.array([0.0, own[-1, 3, 1] - far[-1, 3, 1]]))


def _partner(view: View, edge: Edge) -> Edge | None:
    """The edge of the other panel that belongs to the same opening: by a common band, or by its name."""
    assert view.behind is not None
    for band in view.bands:
        names = {(part.piece, part.edge) for part in band.edges}
        if (view.panel.piece.name, edge.name) in names:
            return next((e for e in view.behind.piece.edges if (view.behind.piece.name, e.name) in names), None)
    joined = any(
        (part.piece, part.edge) == (view.panel.piece.name, edge.name)
        for join in view.garment.joins
        for part in (*join.first, *join.second)
    )
    return None if joined else next((e for e in view.behind.piece.edges if e.name == edge.name), None)


def _carried_on(line: Floats, limbs: Sequence[Limb], band: Band | None) -> Floats:
    """A line across the middle with what its band finishes beside it: of a sleeve that reaches to the neck."""
    names = {(part.piece, part.edge) for part in band.edges} if band else set()
    for limb in limbs:
        for name, run in limb.lines:
            if (limb.piece.name, name) in names:
                line = _joined_on(line, run)
    return line


def _joined_on(line: Floats, run: Floats) -> Floats:
    """The line with a run at its right end and its mirror image at its left one, if the run touches it there."""
    for one in (run, reverse(run)):
        if norm(one[0, 0] - line[-1, 3]) < _TOUCH:
            return np.concatenate([reverse(MIRROR.points(one)), line, one])
    return line
