"""Front and back of the finished garment: panels opened out, sleeves and bands in place, hems as stitch lines."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment
from draft.geometry.cubic import end_tangent, lines_through, reverse, start_tangent
from draft.geometry.flatten import polyline
from draft.geometry.ruler import Ruler, chord_length
from draft.geometry.spline import hobby
from draft.paper.drawing.drawing import Stroke
from draft.paper.flat.bands import Band, band_lines, bands, inside_line
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.done import ALL, Done
from draft.paper.flat.gathers import gathers
from draft.paper.flat.hoods import hood_lines, hoods
from draft.paper.flat.limbs import Limb, limb, meetings
from draft.paper.flat.panels import Panel, cut_up, front_and_back, outside, panels
from draft.paper.flat.similar import MIRROR
from draft.paper.flat.slits_and_zips import slits_and_zips

OUTLINE = Stroke(0.5, cap="round")
SEAM = Stroke(0.28, cap="round")
STITCH = Stroke(0.22, (1.1, 0.75))
PAPER = "#ffffff"
INSIDE = "#dedede"
"""The wrong side of the cloth, where an opening shows it."""
_ROW = 6.4
"""Two rows of a coverstitch lie a quarter of an inch apart."""
_NEAR_EDGE = 2.0
_TOUCH = 0.5
"""An edge whose end lies within so many mm of the middle meets its mirror image there."""


@dataclass(frozen=True)
class _View:
    """What one view needs to know: the panel that is seen, the one behind it, and the garment in one size."""

    garment: Garment
    body: int
    panel: Panel
    behind: Panel | None
    bands: tuple[Band, ...]
    limbs: tuple[Limb, ...]
    knit: bool
    done: Done


def views(garment: Garment, body: int, done: Done = ALL) -> dict[str, Canvas]:
    """The views `front` and `back`, as far as there is a panel for them, and as far as it is sewn.

    None of a garment whose panels are cut up.
    """
    found = panels(garment, body)
    if cut_up(garment, found):
        return {}
    front, back = front_and_back(found)
    pairs = {"front": (front, back), "back": (back, front)}
    return {key: _drawn(garment, body, one, other, done, key) for key, (one, other) in pairs.items() if one is not None}


# ---- one view -------------------------------------------------------------------------------------------------------


def _drawn(garment: Garment, body: int, panel: Panel, behind: Panel | None, done: Done, key: str) -> Canvas:
    found = tuple(bands(garment, body))
    banded = {band.piece.name for band in found}
    limbs = tuple(_limbs(garment, body, panel, banded, done))
    view = _View(garment, body, panel, behind, found, limbs, knit(garment), done)
    canvas = Canvas()
    _openings(canvas, view)
    for one in view.limbs:
        _limb(canvas, view, one)
    _panel(canvas, view)
    slits_and_zips(canvas, garment, body, panel, done, key == "back")
    _hoods(canvas, view, key == "back")
    gathers(canvas, garment, done)
    return canvas


def knit(garment: Garment) -> bool:
    """Whether the garment is made for cloth that stretches."""
    return any(join.stretched for join in garment.joins) or garment.cloth.get("stretch_across", 0.0) > 0


def _limbs(garment: Garment, body: int, panel: Panel, banded: set[str], done: Done) -> Iterable[Limb]:
    taken = {one.piece.name for one in panels(garment, body)} | banded
    for piece in garment.pieces:
        for join in garment.joins if piece.name not in taken else ():
            for meeting in meetings(garment, join, piece.name, body):
                if meeting.other.piece == panel.piece.name and done.join(join.name):
                    found = limb(garment, meeting, panel.piece, panel.move, body)
                    if found:
                        yield found


def _openings(canvas: Canvas, view: _View) -> None:
    """What the openings show of the other panel: its inside, and its bands."""
    if view.behind is None:
        return
    for edge in view.panel.piece.edges:
        own = _full(view, view.panel, edge)
        other = _partner(view, edge)
        far = _full(view, view.behind, other) if other else None
        if own is None or far is None or other is None:
            continue
        far = _between_ends(far, own)
        canvas.edge(view.behind.piece.name, other.name, far, mirrored=False)
        canvas.fill(lines_through(np.concatenate([polyline(own), polyline(far)[::-1]]), closed=True), INSIDE)
        band = next((b for b in view.bands if any(part.edge == other.name for part in b.edges)), None)
        if band and view.done.join(band.join.name):
            _strip(canvas, far, band.width, _side(view.behind, view.body, far), INSIDE)
        else:
            canvas.line([far], OUTLINE)


def _between_ends(far: Floats, own: Floats) -> Floats:
    """The other panel's line made as wide as this one's and moved to the height of its ends: there they are sewn."""
    wide = own[-1, 3, 0] / far[-1, 3, 0] if far[-1, 3, 0] else 1.0
    return np.asarray(far * np.array([wide, 1.0]) + np.array([0.0, own[-1, 3, 1] - far[-1, 3, 1]]))


def _partner(view: _View, edge: Edge) -> Edge | None:
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


def _line(view: _View, panel: Panel, edge: Edge) -> Floats:
    """An edge where it lies in the view; with its darts closed, as a fair line past them."""
    segments, body = edge.segments[view.body], view.body
    cuts = sorted(
        float(at)
        for takeup in panel.piece.takeups
        if takeup.edge == edge.name and takeup.to is not None and np.isfinite(takeup.at[body])
        for at in (takeup.at[body] - takeup.width[body] / 2, takeup.at[body] + takeup.width[body] / 2)
    )
    if not cuts:
        return panel.move.points(segments)
    ruler = Ruler(segments)
    ends = [0.0, *cuts, ruler.length]
    middles = [(ends[k] + ends[k + 1]) / 2 for k in range(0, len(ends), 2)]
    through = [ruler.place(at)[0] for at in (0.0, *middles, ruler.length)]
    ways: list[Floats | None] = [None] * len(through)
    ways[0], ways[-1] = start_tangent(segments[:1]), end_tangent(segments[-1:])
    return panel.move.points(hobby(np.array([through]), ways)[0])


def _full(view: _View, panel: Panel, edge: Edge) -> Floats | None:
    """An edge and its mirror image as one line from left to right, if it meets the middle; else None."""
    if edge.name == panel.middle:
        return None
    line = _line(view, panel, edge)
    if abs(line[-1, 3, 0]) < _TOUCH:
        line = reverse(line)
    if abs(line[0, 0, 0]) >= _TOUCH:
        return None
    return np.concatenate([reverse(MIRROR.points(line)), line])


def _side(panel: Panel, body: int, full: Floats) -> float:
    """1 if outside lies to the left of a line from left to right across the middle of a panel (above it), else -1."""
    points = np.concatenate([edge.segments[body, :, 0] for edge in panel.piece.edges])
    middle = float(panel.move.points(points)[:, 1].mean())
    return 1.0 if float(full[:, :, 1].mean()) > middle else -1.0


def _strip(canvas: Canvas, edge: Floats, width: float, side: float, colour: str, mirrored: bool = False) -> None:
    far, ring = band_lines(edge, width, side)
    ends = [lines_through([edge[0, 0], far[0, 0]]), lines_through([edge[-1, 3], far[-1, 3]])]
    for shape in (ring, MIRROR.points(ring))[: 2 if mirrored else 1]:
        canvas.fill(shape, colour)
    draw = canvas.both if mirrored else canvas.line
    draw([far, *ends], OUTLINE)
    draw([edge], SEAM)


def _limb(canvas: Canvas, view: _View, one: Limb) -> None:
    for ring in (one.outline, MIRROR.points(one.outline)):
        canvas.fill(ring, PAPER)
    canvas.both([line for _, line in one.lines], OUTLINE)
    for name, line in one.lines:
        canvas.edge(one.piece.name, name, line)
    for name, line in one.lines:
        if name:
            _finish(canvas, view, one.piece.edge(name), one.piece.name, line, one.side, mirrored=True)


def _panel(canvas: Canvas, view: _View) -> None:
    panel, body = view.panel, view.body
    at = next(k for k, edge in enumerate(panel.piece.edges) if edge.name == panel.middle)
    rest = [*panel.piece.edges[at + 1 :], *panel.piece.edges[:at]]
    half = np.concatenate([_line(view, panel, edge) for edge in rest])
    canvas.fill(np.concatenate([half, reverse(MIRROR.points(half))]), PAPER)
    if panel.sewn:
        middle = panel.move.points(panel.piece.edge(panel.middle).segments[body])
        canvas.line([middle], SEAM)
        canvas.edge(panel.piece.name, panel.middle, middle, mirrored=False)
    side = outside(panel.piece, body, panel.move.over)
    hung = {name for one in view.limbs for name in _meeting_edges(view, one)}
    for edge in rest:
        line, full = _line(view, panel, edge), _full(view, panel, edge)
        stroke = SEAM if edge.name in hung else OUTLINE
        canvas.both([line], stroke)
        canvas.edge(panel.piece.name, edge.name, line)
        if full is None:
            _finish(canvas, view, edge, panel.piece.name, line, side, mirrored=True)
        else:
            _finish(canvas, view, edge, panel.piece.name, full, _side(panel, body, full), mirrored=False)
    _takeups(canvas, view)
    _patches(canvas, view)


def _patches(canvas: Canvas, view: _View) -> None:
    """The lines that other pieces are stitched onto; on one half only where there are not enough for both."""
    piece = view.panel.piece
    for patch in view.garment.patches:
        if patch.onto == piece.name and view.done.patch(patch.name):
            line = next(mark for mark in piece.marks if mark.name == patch.line).points[view.body]
            stitched = view.garment.piece(patch.piece)
            folded = any(edge.on_fold for edge in stitched.edges)  # the line is that of half of it
            drawn = canvas.both if folded or stitched.cut > 1 else canvas.line
            drawn([lines_through(view.panel.move.points(line), closed=not folded)], SEAM)


def _meeting_edges(view: _View, one: Limb) -> set[str]:
    """The edges of the panel that a limb is sewn to."""
    found = set()
    for join in view.garment.joins:
        for meeting in meetings(view.garment, join, one.piece.name, view.body):
            if meeting.other.piece == view.panel.piece.name:
                found.add(meeting.other.edge)
    return found


def _finish(canvas: Canvas, view: _View, edge: Edge, piece: str, line: Floats, side: float, mirrored: bool) -> None:
    """The band on an edge, or the stitching of its hem."""
    for band in view.bands:
        if any((part.piece, part.edge) == (piece, edge.name) for part in band.edges):
            if view.done.join(band.join.name):
                _strip(canvas, line, band.width, side, PAPER, mirrored)
            return
    if edge.turned_up and edge.allowance > 0 and view.done.hem(piece, edge.name):
        rows = [edge.allowance - _NEAR_EDGE - _ROW * k for k in range(2 if view.knit else 1)]
        runs = [run for row in rows if row > 0 for run in inside_line(line, row, -side)]
        (canvas.both if mirrored else canvas.line)(runs, STITCH)


def _takeups(canvas: Canvas, view: _View) -> None:
    """Darts as the seam that closes them, pleats as the line that they are folded on."""
    panel, body = view.panel, view.body
    for takeup in panel.piece.takeups:
        if not (np.isfinite(takeup.at[body]) and takeup.width[body] > 0):
            continue
        edge = panel.piece.edge(takeup.edge)
        share = float(takeup.at[body]) / chord_length(edge.segments[body])
        ruler = Ruler(_line(view, panel, edge))
        start, way = ruler.place(share * ruler.length)
        if takeup.to is not None:
            end = panel.move.points(takeup.to[body])
        else:
            depth = float(takeup.length[body]) if takeup.length is not None else 20.0
            inward = outside(panel.piece, body, panel.move.over)
            end = start + depth * inward * np.array([way[1], -way[0]])
        canvas.both([lines_through([start, end])], SEAM)
    for dart in panel.piece.inner_darts:
        if np.isfinite(dart.at[body]).all() and dart.width[body] > 0:
            canvas.both([lines_through(panel.move.points(np.stack([dart.to[body], dart.other[body]])))], SEAM)


def _hoods(canvas: Canvas, view: _View, from_behind: bool) -> None:
    """Hoods, stood up on the neck that they are sewn to."""
    for hood in hoods(view.garment):
        for edge in view.panel.piece.edges if view.done.join(hood.join.name) else ():
            if (view.panel.piece.name, edge.name) in hood.neck:
                neck = _full(view, view.panel, edge)
                lines = hood_lines(hood, view.body, neck, from_behind) if neck is not None else None
                if lines is None or neck is None:
                    continue
                canvas.fill(lines.ring, PAPER)
                if lines.opening is not None:
                    canvas.fill(lines.opening, INSIDE)
                    canvas.line([lines.opening], OUTLINE)
                canvas.line([lines.outer], OUTLINE)
                canvas.line([neck, *lines.seams], SEAM)
                for name, run in lines.edges:
                    canvas.edge(hood.piece.name, name, run, mirrored=False)
