"""What is left open of a middle seam: a slit stands a little apart, a zip and a fly show their rows of stitches."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Join, Piece
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Stroke
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.done import Done
from draft.paper.flat.panels import Panel
from draft.seams.middles import behind_a_slit
from draft.seams.openings import gaps

_APART = 9.0
"""Half of how far a slit stands open at the hem, in mm of the cloth."""
ROW = 10.0
"""How far from the seam line the row of stitches of a lapped zip is sewn."""
_PULL = 12.0
_FACING = 8.0
"""So much less wide than the facing of a fly are the stitches that hold it."""
_MIDDLE = 0.5
"""An edge that lies no further from the middle, mm, is its upper part."""
EDGE = Stroke(0.5, cap="round")
ROW_OF_STITCHES = Stroke(0.22, (1.1, 0.75))
_INSIDE = "#dedede"


def slits_and_zips(canvas: Canvas, garment: Garment, body: int, panel: Panel, done: Done, from_behind: bool) -> None:
    """The openings along the middle of a panel."""
    for join in garment.joins if panel.sewn else ():
        if {part.edge for part in join.first if part.piece == panel.piece.name} != {panel.middle}:
            continue
        for gap in gaps(garment, join):
            start, end = _ends(panel, body, *(float(at[body] / gap.length[body]) for at in (gap.begins, gap.ends)))
            if gap.opening.use == "slit" and done.join(join.name):
                _slit(canvas, start, end)
            elif gap.opening.use == "lapped zip" and done.opening(join.name):
                _lapped(canvas, start, end, -1.0 if from_behind else 1.0)
            elif gap.opening.use == "invisible zip" and done.opening(join.name):
                _pull(canvas, max(start[1], end[1]))


def fly(canvas: Canvas, garment: Garment, body: int, panel: Panel, done: Done) -> None:
    """The stitches that hold the facing of a fly, on the wearer's left: beside the slit, then round to its end."""
    behind = [(name, join) for name, join in behind_a_slit(garment).items() if done.join(join)]
    if not behind or not _middle_closed(garment, panel, done):
        return
    widths = [float(np.ptp(_across(garment.piece(name), body))) for name, _ in behind]
    wide = min(widths) - _FACING
    for edge in panel.piece.edges:
        line = panel.move.along(edge.segments[body])
        if edge.name != panel.middle and np.abs(line[..., 0]).max() < _MIDDLE:
            low, top = float(line[..., 1].min()), float(line[..., 1].max())
            turn = np.linspace(0.0, np.pi / 2, 12)
            round_it = np.stack([wide * np.cos(turn), low + wide * (1 - np.sin(turn))], axis=-1)
            canvas.line([lines_through(np.concatenate([[[wide, top]], round_it]))], ROW_OF_STITCHES)


def _middle_closed(garment: Garment, panel: Panel, done: Done) -> bool:
    """Whether the seam below a fly is sewn: before, nothing is stitched through both of its sides."""
    own = [one for one in garment.joins if one.pieces == {panel.piece.name} and panel.middle in _edges_of(one)]
    return all(done.join(one.name) for one in own)


def _edges_of(join: Join) -> set[str]:
    return {part.edge for part in (*join.first, *join.second)}


def _across(piece: Piece, body: int) -> Floats:
    """How far across its grain the corners of a piece lie."""
    corners = np.concatenate([edge.segments[body, :, 0] for edge in piece.edges])
    return np.asarray(corners @ np.array([piece.grain[body][1], -piece.grain[body][0]]))


def _ends(panel: Panel, body: int, first: float, last: float) -> tuple[Floats, Floats]:
    """Where an opening begins and ends on the middle, which is drawn upright, by shares of its length."""
    line = panel.move.points(panel.piece.edge(panel.middle).segments[body])
    start, end = line[0, 0], line[-1, 3]
    return start + (end - start) * first, start + (end - start) * last


def _slit(canvas: Canvas, start: Floats, end: Floats) -> None:
    """Both its edges, from its top to the hem, and what is seen between them."""
    top, low = (start, end) if start[1] > end[1] else (end, start)
    aside = np.array([_APART, 0.0])
    left, right = low - aside, low + aside
    canvas.fill(lines_through([top, left, right], closed=True), _INSIDE)
    canvas.line([lines_through([left, top]), lines_through([right, top])], EDGE)


def _lapped(canvas: Canvas, start: Floats, end: Floats, left: float) -> None:
    """The row of stitches on the side that lies on top, the wearer's left, and across below the zip."""
    top, low = (start, end) if start[1] > end[1] else (end, start)
    aside = np.array([left * ROW, 0.0])
    canvas.line([lines_through([top + aside, low + aside, low])], ROW_OF_STITCHES)


def _pull(canvas: Canvas, top: float) -> None:
    """Of an invisible zip only its pull is seen."""
    low = top - _PULL
    canvas.line([lines_through([(0.0, top), (-2.0, low), (2.0, low)], closed=True)], EDGE)
