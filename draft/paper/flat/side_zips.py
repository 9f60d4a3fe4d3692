"""A zip in a side seam: its pull hangs beside the seam, or a row of stitches is in front; a stroke is at its end."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Join
from draft.geometry.cubic import lines_through, reverse
from draft.geometry.ruler import Ruler
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.lines_in_view import View, line_of
from draft.paper.flat.panels import outside
from draft.paper.flat.similar import MIRROR
from draft.paper.flat.slits_and_zips import EDGE, ROW, ROW_OF_STITCHES
from draft.seams.openings import Gap, gaps

_PULL = ((0.0, 0.0), (28.0, 7.0), (24.0, 16.0))
"""The corners of a pull: along the seam from where the zip begins, and away from the seam, mm."""
_ACROSS = 7.0
"""The stroke at the end of a zip reaches so far to both sides of the seam, mm."""
_POINTS = 17


@dataclass(frozen=True)
class _Place:
    """A stretch of an edge: points `(n, 2)` from where the zip begins, and the way `(n, 2)` into the panel at each."""

    points: Floats
    inward: Floats


def side_zips(canvas: Canvas, view: View, from_behind: bool) -> None:
    """The zips in seams by which the panel of a view is sewn to another, on the side of the wearer that has them."""
    for join in view.garment.joins:
        edge = _own_edge(view, join)
        for gap in gaps(view.garment, join) if edge and view.done.opening(join.name) else ():
            if edge and gap.opening.use.endswith("zip"):
                _drawn(canvas, gap, _stretch(view, join, edge, gap), from_behind)


def _own_edge(view: View, join: Join) -> Edge | None:
    """The edge of the panel, other than its middle, that is one side of a join; None if it is not by itself."""
    piece = view.panel.piece
    if join.is_lying or len(join.first) != 1 or len(join.second) != 1:
        return None
    names = [part.edge for part in (*join.first, *join.second) if part.piece == piece.name]
    return piece.edge(names[0]) if names and view.panel.middle not in names else None


def _stretch(view: View, join: Join, edge: Edge, gap: Gap) -> _Place:
    """Where a zip lies, from its upper end."""
    own = (view.panel.piece.name, edge.name)
    part = next(one for one in (*join.first, *join.second) if (one.piece, one.edge) == own)
    line = line_of(view, view.panel, edge)
    inward = outside(view.panel.piece, view.body, view.panel.move.over) * (-1.0 if part.reverse else 1.0)
    ruler = Ruler(reverse(line) if part.reverse else line)
    first, last = (float(at[view.body] / gap.length[view.body]) * ruler.length for at in (gap.begins, gap.ends))
    found = [ruler.place(at) for at in np.linspace(first, last, _POINTS)]
    points = np.array([point for point, _ in found])
    into = np.array([[way[1], -way[0]] for _, way in found]) * inward
    return _Place(points, into) if points[0, 1] > points[-1, 1] else _Place(points[::-1], into[::-1])


def _drawn(canvas: Canvas, gap: Gap, at: _Place, from_behind: bool) -> None:
    """The zip on the wearer's left, which is the right of who looks at the front, on the other side, or on both."""
    lapped = gap.opening.use == "lapped zip"
    rows = [at.points + ROW * at.inward, at.points[-1:]]
    stitched = [lines_through(np.concatenate(rows))] if lapped and not from_behind else []
    end = np.array([at.points[-1] + k * _ACROSS * at.inward[-1] for k in (-1.0, 1.0)])
    strokes = [lines_through(end)] if lapped else [lines_through(end), _pull(at)]
    left, right = (gap.opening.on_side in ("", side) for side in ("left", "right"))
    on_right_of_view = {"left": not from_behind, "right": from_behind}
    for side, there in (("left", left), ("right", right)):
        for runs, stroke in ((stitched, ROW_OF_STITCHES), (strokes, EDGE)):
            if there and runs:
                canvas.line(runs if on_right_of_view[side] else [MIRROR.points(run) for run in runs], stroke)


def _pull(at: _Place) -> Floats:
    """What is seen of an invisible zip."""
    down = np.array([at.inward[0][1], -at.inward[0][0]])
    down = down if down @ (at.points[-1] - at.points[0]) > 0 else -down
    return lines_through([at.points[0] + along * down + off * at.inward[0] for along, off in _PULL], closed=True)
