"""A small drawing for a step of the sewing: the pieces concerned, and the seam as a thick line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Opening, Patch, Piece, SidePart
from draft.geometry.cubic import cross, norm
from draft.geometry.ruler import chord_length
from draft.paper.booklet.afterwards import SMALL, SMALL_TALL, beside, changed_view, small_view, view_drawn
from draft.paper.booklet.close_up import close_up
from draft.paper.booklet.flat_pieces import FLIP, on_both_halves, pieces_drawn, stitched_runs
from draft.paper.booklet.folded_drawing import (
    ASIDE,
    GROUND,
    WRONG,
    both_copies,
    fold_of,
    folded,
    ring_folded_flat,
    side_ends,
)
from draft.paper.booklet.laid_on import Lying, is_straightforward, laid_on
from draft.paper.booklet.set_blocks import NOTHING, SIDE, TALLEST, Block
from draft.paper.booklet.sewn_part import Runs, notch_strokes, open_runs, sewn_runs
from draft.paper.booklet.turned_hem import hem_end
from draft.paper.drawing.drawing import Item, Path, Stroke
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.done import ALL, Done
from draft.paper.flat.panels import Panel, panels
from draft.paper.flat.similar import MIRROR
from draft.paper.flat.views import views
from draft.seams.allowance import cutting_line, opened_out, sewing_line
from draft.seams.joins_in_order import neighbour

_OVER = np.array([-1.0, 1.0])  # turns a piece over
THIN = Stroke(0.22, colour="#555555")
SEAM = Stroke(0.85, cap="round")
FINE_SEAM = Stroke(0.45, cap="round")
"""For lines that lie close to one another: the legs of a dart."""


@dataclass(frozen=True)
class Drawer:
    """Draws the steps of one garment in one size."""

    garment: Garment
    body: int
    panels: Mapping[str, Panel]
    done: Done = ALL
    """How far the garment is sewn, with the step that is drawn."""

    @classmethod
    def of(cls, garment: Garment, body: int) -> Drawer:
        """For the garment in the size at `body`."""
        found = {panel.piece.name: panel for panel in panels(garment, body)}
        return cls(garment, body, found)

    @cached_property
    def views(self) -> Mapping[str, Canvas]:
        """Both views of the garment, as far as it is sewn."""
        return views(self.garment, self.body, self.done)

    def join(self, join: Join, before: Done | None = None) -> Block:
        """The drawing of a join: pieces on one another, one piece by itself, or the garment that it is sewn to.

        With what was done `before`, only the part of long pieces about the seam, and beside it the garment as it is
        then, where that looked otherwise.
        """
        edges = [(part.piece, part.edge) for part in (*join.first, *join.second)]
        seen = any(_seen(view, edges) for view in self.views.values())
        apart = self._apart(join, seen)
        if apart is None:
            return self.edges(edges)
        return beside(close_up(apart, (SEAM,)), self.result(before)) if before else apart

    def _apart(self, join: Join, seen: bool) -> Block | None:
        """The pieces of a join as they lie while it is sewn; None where it is sewn to the garment."""
        parts = [*join.first, *join.second]
        names = list(dict.fromkeys(part.piece for part in parts))
        runs, strokes = sewn_runs(self.garment, join, self.body), notch_strokes(self.garment, join, self.body)
        runs = {edge: [*own, *strokes.get(edge, [])] for edge, own in runs.items()}
        if len(names) == 1:
            return self._to_itself(self.garment.piece(names[0]), join, runs)
        if len(names) == 2 and all(name in self.panels for name in names) and not self._over_a_fold(join):
            return self._layered([self.panels[name] for name in reversed(names)], parts, runs)
        if not seen or self._lies_flat(join):
            return self._laid(join, runs) or (None if seen else self._side_by_side(names, runs))
        return None

    def _over_a_fold(self, join: Join) -> bool:
        """Whether a seam goes on over the fold of a piece: it is laid upside down on the other."""
        parts = [part for parts in (join.first, join.second) for part in parts]
        beside = [neighbour(self.garment, part, at_end) for part in parts for at_end in (False, True)]
        return any(self.garment.piece(piece).edge(edge).on_fold for piece, edge in beside)

    def _lies_flat(self, join: Join) -> bool:
        """Whether none of a join's pieces is sewn to another that the garment shows, so that it lies by itself."""
        sewn = [one for one in self.garment.joins if one is not join and self.done.join(one.name)]
        return not any(one.pieces & join.pieces and one.pieces <= self.panels.keys() for one in sewn)

    def _laid(self, join: Join, runs: Runs) -> Block | None:
        """The smaller of two pieces on the other; None where a side is of several pieces, or is stitched down."""
        sides = [join.first, join.second]
        if join.is_lying or any(len({part.piece for part in parts}) > 1 for parts in sides):
            return None
        sides.sort(key=lambda parts: self._lying_with(parts).area)
        upper, lower = (self._lying_with(parts) for parts in sides)
        if not (is_straightforward(upper.ends) and is_straightforward(lower.ends)):
            return None
        piece = self.garment.piece(sides[0][0].piece)
        own = [line for part in sides[0] for line in runs.get((part.piece, part.edge), [])]
        both = self._over_a_fold(join)
        thick = [run * FLIP for run in on_both_halves(piece, self.body, own)] if both else own
        return laid_on(lower, upper, thick, THIN, SEAM)

    def _lying_with(self, parts: Sequence[SidePart]) -> Lying:
        piece = self.garment.piece(parts[0].piece)
        return Lying(_cut(piece, self.body), side_ends(piece, parts, self.body), _is_single(piece))

    def _to_itself(self, piece: Piece, join: Join, runs: Runs) -> Block:
        """A piece sewn to itself: folded so that both edges meet, on the other of its pair, or as it was cut."""
        first = [line for part in join.first for line in runs.get((part.piece, part.edge), [])]
        outline, fold = _cut(piece, self.body), fold_of(piece, join, self.body)
        if fold is not None and not piece.on_fold and not join.is_lying:
            return folded(outline, fold, first, THIN, SEAM) or self._alone(piece, runs)
        if piece.cut_as == "as a pair" and len({part.edge for part in (*join.first, *join.second)}) == 1:
            return both_copies(outline, first, THIN, SEAM)
        return self._alone(piece, runs)

    def by_itself(self, piece: Piece) -> Block:
        """A piece folded on its line, right sides together; as it was cut where it has none."""
        lines = [mark.points[self.body] for mark in piece.marks if mark.line == "fold"]
        block = folded(_cut(piece, self.body), lines[0], (), THIN, SEAM) if lines else None
        return block or self.on_pieces({piece.name: []})

    def ring(self, piece: Piece) -> Block:
        """A band whose ends are sewn, folded along its line; nothing of a piece without one."""
        lines = [mark.points[self.body] for mark in piece.marks if mark.line == "fold"]
        if not lines:
            return NOTHING
        long = float(norm(lines[0][-1] - lines[0][0]))
        line = _cut(piece, self.body)
        area = abs(float(cross(line[:, 0], line[:, 3]).sum())) / 2
        return ring_folded_flat(long, area / long, THIN)

    def opening(self, join: Join, opening: Opening) -> Block:
        """The piece that an opening lies on, by itself, with what stays open thick."""
        runs = open_runs(self.garment, join, opening, self.body)
        return self._alone(self.garment.piece(opening.part.piece), runs)

    def on_pieces(self, thick: Mapping[str, Sequence[Floats]], seam: Stroke = SEAM, fill: str = WRONG) -> Block:
        """Pieces by their names as they lie, with lines of each `(n, 4, 2)`, y up, thick.

        They lie wrong side up, so that a piece of which there is but one is turned over; or right side up in `GROUND`.
        """
        pieces = [self.garment.piece(name) for name in thick]
        over = {piece.name: _OVER if fill == WRONG and _is_single(piece) else 1.0 for piece in pieces}
        outlines = {piece.name: opened_cutting_line(piece, self.body) * over[piece.name] for piece in pieces}
        lines = {
            piece.name: [run * over[piece.name] for run in on_both_halves(piece, self.body, thick[piece.name])]
            for piece in pieces
        }
        return pieces_drawn(outlines, lines, THIN, seam, fill)

    def patch(self, patch: Patch) -> Block:
        """The piece that another is stitched onto, its line thick; on both halves where half of it is drafted."""
        piece = self.garment.piece(patch.onto)
        line, flip = _cut(piece, self.body), np.array([1.0, -1.0])
        scale, low, high = _fit(line.reshape(-1, 2) * flip)
        corner = np.array([low[0], low[1]])
        marked = next(mark for mark in piece.marks if mark.name == patch.line).points[self.body]
        ring = ((line * flip - corner) * scale,)
        stitched = self.garment.piece(patch.piece)
        drawn = stitched_runs(stitched, marked, self.body)
        folded = any(edge.on_fold for edge in stitched.edges)
        runs = on_both_halves(piece, self.body, drawn) if folded else [run * flip for run in drawn]
        thick = tuple((run - corner) * scale for run in runs)
        items = (Path(ring, THIN, GROUND, closed=True), Path(thick, SEAM))
        return Block(items, float(high[1] - low[1]) * scale)

    def edges(self, edges: Sequence[tuple[str, str]]) -> Block:
        """The view of the garment that shows most of some edges, with these thick; their pieces alone if none does."""
        best = max(self.views.values(), key=lambda view: _seen(view, edges), default=None)
        if best is None or not _seen(best, edges):
            return self._lying(edges)
        thick = [run for edge in edges for run in best.edges.get(edge, ())]
        return close_up(view_drawn(best, SIDE, TALLEST, thick, SEAM), (SEAM,))

    def hem(self, hemmed: Sequence[tuple[Piece, Edge]]) -> Block:
        """One end of a hem folded, and the garment with all of it thick."""
        piece = hemmed[0][0]
        edges = [edge for own, edge in hemmed if own is piece]
        over = _OVER if _is_single(piece) else np.ones(2)
        outline = opened_cutting_line(piece, self.body) * over
        line = edges[0].segments[self.body] * FLIP * over
        cased = any(edge.elastic is not None or edge.gathered is not None for edge in edges)
        end = hem_end(outline, line, edges[0].allowance, THIN, elastic=cased)
        names = [(own.name, edge.name) for own, edge in hemmed]
        best = max(self.views.values(), key=lambda view: _seen(view, names), default=None)
        if best is None or not _seen(best, names):
            return beside(end, NOTHING) if end.items else self._lying(names)
        thick = [run for name in names for run in best.edges.get(name, ())]
        return beside(end, view_drawn(best, SMALL, SMALL_TALL, thick, FINE_SEAM))

    def result(self, before: Done) -> Block:
        """The garment small, as it is after the step; nothing where it looks as it did before."""
        return small_view(changed_view(views(self.garment, self.body, before), self.views))

    def on_garment(self, edges: Sequence[tuple[str, str]]) -> Block | None:
        """The view of the garment so far that shows most of some edges, with these thick; None if none shows any."""
        best = max(self.views.values(), key=lambda view: _seen(view, edges), default=None)
        return self.edges(edges) if best is not None and _seen(best, edges) else None

    def garment_as_it_is(self) -> Block:
        """The garment as far as it is sewn, from the front; small, for nothing on it is thick."""
        return small_view(next((view for view in self.views.values() if view.items), None))

    def _lying(self, edges: Sequence[tuple[str, str]]) -> Block:
        """The pieces of some edges as they lie, with these thick."""
        thick: dict[str, list[Floats]] = {}
        for piece, edge in edges:
            thick.setdefault(piece, []).append(self.garment.piece(piece).edge(edge).segments[self.body])
        return self.on_pieces(thick, fill=GROUND) if thick else NOTHING

    def _layered(self, layers: Sequence[Panel], parts: Sequence[SidePart], runs: Runs) -> Block:
        """One panel on another, right sides together: the lower one grey, the upper one white and a little aside."""
        lines = [panel.move.points(_cut(panel.piece, self.body)) for panel in layers]
        shift = self._meeting(layers, parts)
        moves = [np.zeros(2), shift]
        box = np.concatenate([line.reshape(-1, 2) + move for line, move in zip(lines, moves, strict=True)])
        scale, low, high = _fit(box)
        items: list[Item] = []
        for k, (line, move, fill) in enumerate(zip(lines, moves, (GROUND, WRONG), strict=True)):
            aside = np.array([ASIDE, ASIDE]) * k
            placed = (line + move - np.array([low[0], high[1]])) * np.array([scale, -scale]) + aside
            items.append(Path((placed,), THIN, fill, closed=True))
        upper = layers[1]
        thick = [
            (run + shift - np.array([low[0], high[1]])) * np.array([scale, -scale]) + ASIDE
            for (piece, _), own in runs.items()
            if piece == upper.piece.name
            for line in own
            for run in self._both(upper, line)
        ]
        return Block((*items, Path(tuple(thick), SEAM)), float(high[1] - low[1]) * scale + ASIDE)

    def _both(self, panel: Panel, run: Floats) -> list[Floats]:
        line = panel.move.points(run)
        return [line, MIRROR.points(line)] if not panel.sewn else [line]

    def _meeting(self, layers: Sequence[Panel], parts: Sequence[SidePart]) -> Floats:
        """How far the upper panel is moved so that the seam of both lies at one height, and at one place across."""
        middles = []
        for panel in layers:
            edge = next(part.edge for part in parts if part.piece == panel.piece.name)
            line = panel.move.points(panel.piece.edge(edge).segments[self.body])
            middles.append((line[0, 0] + line[-1, 3]) / 2)
        folded = all(not panel.sewn for panel in layers)
        return np.asarray((middles[0] - middles[1]) * np.array([0.0 if folded else 1.0, 1.0]))

    def _side_by_side(self, names: Sequence[str], runs: Runs) -> Block:
        """Several pieces as they were cut, beside one another."""
        thick = {name: [line for (own, _), lines in runs.items() if own == name for line in lines] for name in names}
        return self.on_pieces(thick, fill=GROUND)

    def _alone(self, piece: Piece, runs: Runs) -> Block:
        """A piece by itself, as it was cut."""
        return self.on_pieces({piece.name: [line for lines in runs.values() for line in lines]})


def opened_cutting_line(piece: Piece, body: int) -> Floats:
    """The cutting line `(n, 4, 2)` of a piece opened out, mm, y down."""
    return np.asarray(_cut(piece, body) * np.array([1.0, -1.0]))


def _is_single(piece: Piece) -> bool:
    """Whether a piece has neither another half nor another of its pair, so that its two sides look different."""
    return not piece.on_fold and piece.cut_as != "as a pair"


def _cut(piece: Piece, body: int) -> Floats:
    """The cutting line opened out about the fold; the sewing line where that fails to close."""
    line = opened_out(cutting_line(piece, body), piece, body)
    return line if len(line) else sewing_line(piece, body)


def _seen(view: Canvas, edges: Sequence[tuple[str, str]]) -> float:
    return sum(chord_length(run) for edge in edges for run in view.edges.get(edge, ()))


def _fit(points: Floats) -> tuple[float, Floats, Floats]:
    low, high = points.min(axis=0), points.max(axis=0)
    return min((SIDE - ASIDE) / float(high[0] - low[0]), TALLEST / float(high[1] - low[1])), low, high
