"""Front and back of the finished garment: panels opened out, sleeves and bands in place, hems as stitch lines."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Edge, Garment
from draft.geometry.cubic import lines_through, reverse
from draft.geometry.ruler import Ruler, chord_length
from draft.paper.flat.bands import bands, inside_line
from draft.paper.flat.behind import openings
from draft.paper.flat.buttoned_bands import buttoned_bands
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.cuffed import slits_and_pleats
from draft.paper.flat.done import ALL, Done
from draft.paper.flat.gathers import gathers
from draft.paper.flat.hoods import hood_lines, hoods
from draft.paper.flat.inner_lines import closed_with_buttons, within
from draft.paper.flat.limbs import Limb, limb, meetings
from draft.paper.flat.lines_in_view import View, across, in_middle, line_of, outward
from draft.paper.flat.panels import Panel, cut_up, front_and_back, outside, panels
from draft.paper.flat.put_together import Whole, together
from draft.paper.flat.round_the_neck import goes_on, is_drawn_across
from draft.paper.flat.shirt_collar import collar_of, draw_collar
from draft.paper.flat.side_zips import side_zips
from draft.paper.flat.similar import MIRROR
from draft.paper.flat.slits_and_zips import fly, slits_and_zips
from draft.paper.flat.strips import INSIDE, OUTLINE, PAPER, SEAM, STITCH, strip
from draft.paper.flat.ties import draw_ties, ties_of
from draft.paper.flat.wrapped import wrap_fronts, wrapped_view
from draft.seams.middles import behind_a_slit

_ROW = 6.4
"""Two rows of a coverstitch lie a quarter of an inch apart."""
_NEAR_EDGE = 2.0


def views(garment: Garment, body: int, done: Done = ALL) -> Mapping[str, Canvas]:
    """The views `front` and `back`, as far as there is a panel for them, and as far as it is sewn.

    None of a garment whose panels are cut up. They are drawn once: one step ends where the next begins.
    """
    return _views(garment, body, done)


@lru_cache(maxsize=32)
def _views(garment: Garment, body: int, done: Done) -> dict[str, Canvas]:
    whole = together(garment, body, done)
    found = panels(whole.garment, body)
    if cut_up(whole.garment, found):
        return _wrapped(whole, body, found, done)
    front, back = front_and_back(found)
    pairs = {"front": (front, back), "back": (back, front)}
    return {key: _drawn(whole, body, one, other, done, key) for key, (one, other) in pairs.items() if one is not None}


def _wrapped(whole: Whole, body: int, found: Sequence[Panel], done: Done) -> dict[str, Canvas]:
    """Both views of a garment of two fronts that differ; none where it is another that is cut up."""
    back = next((panel for panel in found if "back" in panel.piece.name and not panel.sewn), None)
    fronts = wrap_fronts(whole.garment, body, back, done) if back else []
    if not (back and fronts):
        return {}
    front = wrapped_view(whole.garment, body, back, fronts, done)
    ties = ties_of(whole.garment, body, fronts) if done.everything else None
    if ties:
        draw_ties(front, ties)
    return {"front": front, "back": _drawn(whole, body, back, None, done, "back")}


# ---- one view -------------------------------------------------------------------------------------------------------


def _drawn(whole: Whole, body: int, panel: Panel, behind: Panel | None, done: Done, key: str) -> Canvas:
    garment = whole.garment
    found = tuple(bands(garment, body))
    banded = {band.piece.name for band in found}
    limbs = tuple(_limbs(garment, body, panel, banded, done))
    beyond = tuple(_limbs(garment, body, behind, banded, done)) if behind else ()
    view = View(garment, body, panel, behind, found, limbs, beyond, knit(garment), done)
    canvas = Canvas()
    openings(canvas, view)
    for one in view.limbs:
        _limb(canvas, view, one)
    _panel(canvas, view)
    within(canvas, whole, panel)
    slits_and_zips(canvas, garment, body, panel, done, key == "back")
    side_zips(canvas, view, key == "back")
    fly(canvas, garment, body, panel, done)
    buttoned_bands(canvas, view, key == "back")
    _hoods(canvas, view, key == "back")
    canvas.lead_back(whole.origins)
    gathers(canvas, whole.drafted, done)
    closed_with_buttons(canvas, whole, panel)
    collar = collar_of(garment, body)
    if collar and done.join(collar[1].name):
        draw_collar(canvas, collar[0], panel, behind, body, key == "back")
    return canvas


def knit(garment: Garment) -> bool:
    """Whether the garment is made for cloth that stretches."""
    return any(join.stretched for join in garment.joins) or garment.cloth.get("stretch_across", 0.0) > 0


def _limbs(garment: Garment, body: int, panel: Panel, banded: set[str], done: Done) -> Iterable[Limb]:
    taken = {one.piece.name for one in panels(garment, body)} | banded | behind_a_slit(garment).keys()
    taken |= {piece.name for piece in garment.pieces if "front" in piece.name}  # of a wrap: they are no half
    for piece in garment.pieces:
        for join in garment.joins if piece.name not in taken else ():
            for meeting in meetings(garment, join, piece.name, body):
                if meeting.others[0].piece == panel.piece.name and done.join(join.name):
                    found = limb(garment, meeting, panel.piece, panel.move, body)
                    if found:
                        yield found


def _limb(canvas: Canvas, view: View, one: Limb) -> None:
    for ring in (one.outline, MIRROR.points(one.outline)):
        canvas.fill(ring, PAPER)
    canvas.both([line for _, line in one.lines], OUTLINE)
    for name, line in one.lines:
        canvas.edge(one.piece.name, name, line)
    for name, line in one.lines:
        if name and not is_drawn_across(view, one, name, line):
            _finish(canvas, view, one.piece.edge(name), one.piece.name, line, one.side, mirrored=True)
    slits_and_pleats(canvas, view, one)


def _panel(canvas: Canvas, view: View) -> None:
    panel, body = view.panel, view.body
    at = next(k for k, edge in enumerate(panel.piece.edges) if edge.name == panel.middle)
    rest = [*panel.piece.edges[at + 1 :], *panel.piece.edges[:at]]
    half = np.concatenate([line_of(view, panel, edge) for edge in rest])
    canvas.fill(np.concatenate([half, reverse(MIRROR.points(half))]), PAPER)
    if panel.sewn:
        middle = panel.move.along(panel.piece.edge(panel.middle).segments[body])
        canvas.line([middle], SEAM)
        canvas.edge(panel.piece.name, panel.middle, middle, mirrored=False)
    side = outside(panel.piece, body, panel.move.over)
    hung = {name for one in view.limbs for name in _meeting_edges(view, one)}
    for edge in rest:
        line, full = line_of(view, panel, edge), across(view, panel, edge)
        if in_middle(line):
            canvas.line([line], SEAM)
            canvas.edge(panel.piece.name, edge.name, line, mirrored=False)
            continue
        stroke = SEAM if edge.name in hung else OUTLINE
        canvas.both([line], stroke)
        canvas.edge(panel.piece.name, edge.name, line)
        if full is None:
            _finish(canvas, view, edge, panel.piece.name, line, side, mirrored=True)
        else:
            _finish(canvas, view, edge, panel.piece.name, full, outward(panel, body, full), mirrored=False)
    _takeups(canvas, view)
    _patches(canvas, view)


def _patches(canvas: Canvas, view: View) -> None:
    """The lines that other pieces are stitched onto; on one half only where there are not enough for both."""
    piece = view.panel.piece
    for patch in view.garment.patches:
        if patch.onto == piece.name and view.done.patch(patch.name):
            line = next(mark for mark in piece.marks if mark.name == patch.line).points[view.body]
            stitched = view.garment.piece(patch.piece)
            folded = any(edge.on_fold for edge in stitched.edges)  # the line is that of half of it
            drawn = canvas.both if folded or stitched.cut > 1 else canvas.line
            drawn([lines_through(view.panel.move.points(line), closed=not folded)], SEAM)


def _meeting_edges(view: View, one: Limb) -> set[str]:
    """The edges of the panel that a limb is sewn to."""
    found = set()
    for join in view.garment.joins:
        for meeting in meetings(view.garment, join, one.piece.name, view.body):
            if meeting.others[0].piece == view.panel.piece.name:
                found |= {part.edge for part in meeting.others}
    return found


def _finish(canvas: Canvas, view: View, edge: Edge, piece: str, line: Floats, side: float, mirrored: bool) -> None:
    """The band on an edge, or the stitching of its hem."""
    for band in view.bands:
        if any((part.piece, part.edge) == (piece, edge.name) for part in band.edges):
            if view.done.join(band.join.name):
                line = line if mirrored else goes_on(view, band, line)
                strip(canvas, line, band.width, side, PAPER, mirrored)
            return
    if edge.turned_up and edge.allowance > 0 and view.done.hem(piece, edge.name):
        rows = [edge.allowance - _NEAR_EDGE - _ROW * k for k in range(2 if view.knit else 1)]
        runs = [run for row in rows if row > 0 for run in inside_line(line, row, -side)]
        (canvas.both if mirrored else canvas.line)(runs, STITCH)


def _takeups(canvas: Canvas, view: View) -> None:
    """Darts as the seam that closes them, pleats as the line that they are folded on."""
    panel, body = view.panel, view.body
    for takeup in panel.piece.takeups:
        if not (np.isfinite(takeup.at[body]) and takeup.width[body] > 0):
            continue
        edge = panel.piece.edge(takeup.edge)
        share = float(takeup.at[body]) / chord_length(edge.segments[body])
        ruler = Ruler(line_of(view, panel, edge))
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


def _hoods(canvas: Canvas, view: View, from_behind: bool) -> None:
    """Hoods, stood up on the neck that they are sewn to."""
    for hood in hoods(view.garment):
        for edge in view.panel.piece.edges if view.done.join(hood.join.name) else ():
            if (view.panel.piece.name, edge.name) in hood.neck:
                neck = across(view, view.panel, edge)
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
