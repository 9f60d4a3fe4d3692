"""What one view of the finished garment needs to know, and where the lines of its panels lie in it."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment
from draft.geometry.cubic import end_tangent, reverse, start_tangent
from draft.geometry.ruler import Ruler
from draft.geometry.spline import hobby
from draft.paper.flat.bands import Band
from draft.paper.flat.done import Done
from draft.paper.flat.limbs import Limb
from draft.paper.flat.panels import Panel
from draft.paper.flat.similar import MIRROR

_TOUCH = 0.5
"""An edge whose end lies within so many mm of the middle meets its mirror image there."""


@dataclass(frozen=True)
class View:
    """What one view needs to know: the panel that is seen, the one behind it, and the garment in one size."""

    garment: Garment
    body: int
    panel: Panel
    behind: Panel | None
    bands: tuple[Band, ...]
    limbs: tuple[Limb, ...]
    far_limbs: tuple[Limb, ...]
    knit: bool
    done: Done


def line_of(view: View, panel: Panel, edge: Edge) -> Floats:
    """An edge where it lies in the view, as a path `(n, 4, 2)`; with its darts closed, as a fair line past them."""
    segments, body = edge.segments[view.body], view.body
    cuts = sorted(
        float(at)
        for takeup in panel.piece.takeups
        if takeup.edge == edge.name and takeup.to is not None and np.isfinite(takeup.at[body])
        for at in (takeup.at[body] - takeup.width[body] / 2, takeup.at[body] + takeup.width[body] / 2)
    )
    if not cuts:
        return panel.move.along(segments)
    ruler = Ruler(segments)
    ends = [0.0, *cuts, ruler.length]
    middles = [(ends[k] + ends[k + 1]) / 2 for k in range(0, len(ends), 2)]
    through = [ruler.place(at)[0] for at in (0.0, *middles, ruler.length)]
    ways: list[Floats | None] = [None] * len(through)
    ways[0], ways[-1] = start_tangent(segments[:1]), end_tangent(segments[-1:])
    return panel.move.along(hobby(np.array([through]), ways)[0])


def in_middle(line: Floats) -> bool:
    """Whether a path `(n, 4, 2)` lies on the middle from end to end: the upper part of it, left open as a fly."""
    return bool(np.abs(line[..., 0]).max() < _TOUCH)


def across(view: View, panel: Panel, edge: Edge) -> Floats | None:
    """An edge and its mirror image as one path `(n, 4, 2)` from left to right, if it meets the middle; else None."""
    if edge.name == panel.middle:
        return None
    line = line_of(view, panel, edge)
    if abs(line[-1, 3, 0]) < _TOUCH:
        line = reverse(line)
    if abs(line[0, 0, 0]) >= _TOUCH:
        return None
    return np.concatenate([reverse(MIRROR.points(line)), line])


def outward(panel: Panel, body: int, full: Floats) -> float:
    """1 if outside lies to the left of (above) a path `(n, 4, 2)`, from left to right across a middle; else -1."""
    points = np.concatenate([edge.segments[body, :, 0] for edge in panel.piece.edges])
    middle = float(panel.move.points(points)[:, 1].mean())
    return 1.0 if float(full[:, :, 1].mean()) > middle else -1.0
