"""Two fronts that differ, as of a wrap: each hangs from the back that it is sewn to, and the longer one lies on top."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Piece
from draft.geometry.cubic import lines_through, reverse
from draft.geometry.flatten import polyline
from draft.paper.flat.bands import inside_line
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.done import Done
from draft.paper.flat.panels import Panel, outside
from draft.paper.flat.rings import Run, beyond, middle_of, ring_of
from draft.paper.flat.similar import MIRROR, Similar, onto
from draft.paper.flat.strips import INSIDE, OUTLINE, PAPER, SEAM, STITCH

_NEAR_EDGE = 2.0


@dataclass(frozen=True)
class WrapFront:
    """A whole front where it hangs: the piece, its edges in the view, and how far it reaches beyond the middle, mm."""

    piece: Piece
    ring: tuple[Run, ...]
    reach: float


def wrap_fronts(garment: Garment, body: int, back: Panel, done: Done) -> list[WrapFront]:
    """The fronts of a garment that has two, neither of them half of it; the one that lies on top is the last."""
    pieces = [piece for piece in garment.pieces if "front" in piece.name and piece.cut == 1 and not piece.on_fold]
    found = [front for piece in pieces if (front := _hung(garment, piece, body, back, done))]
    return sorted(found, key=lambda one: one.reach) if len(found) == 2 else []


def _hung(garment: Garment, piece: Piece, body: int, back: Panel, done: Done) -> WrapFront | None:
    for join in garment.joins:
        if join.pieces == {piece.name, back.piece.name} and not join.is_lying and done.join(join.name):
            own, far = (next(p for p in (*join.first, *join.second) if p.piece == n.name) for n in (piece, back.piece))
            line = piece.edge(own.edge).segments[body]
            seam = back.move.along(back.piece.edge(far.edge).segments[body])
            seam = reverse(seam) if own.reverse != far.reverse else seam
            ring = ring_of(piece, body)
            for half, right in ((seam, 1.0), (MIRROR.points(seam), -1.0)):
                move = onto(line[0, 0], line[-1, 3], half[0, 0], half[-1, 3], over=False)
                inner = np.array([0.0, float(half[..., 1].mean()) - 1.0])
                if not beyond(half, inner, move.points(middle_of(ring))):
                    laid = tuple(run.moved(move) for run in ring)
                    return WrapFront(piece, laid, -min(float((right * run.path[..., 0]).min()) for run in laid))
    return None


def wrapped_view(garment: Garment, body: int, back: Panel, fronts: list[WrapFront], done: Done) -> Canvas:
    """The front of a wrap: the inside of the back above its neck, one front, and the other across it."""
    canvas = Canvas()
    half = [Run(back.piece.name, e.name, back.move.along(e.segments[body]), e.on_fold) for e in back.piece.edges]
    outer = np.concatenate([polyline(run.path) for run in _from_fold(half)])
    canvas.fill(lines_through(np.concatenate([outer, (outer * (-1.0, 1.0))[::-1]]), closed=True), INSIDE)
    canvas.both([run.path for run in half if not run.fold], OUTLINE)
    for run in half:
        canvas.edge(run.piece, run.edge, run.path)
    _facing(canvas, garment, body, back, done)
    for front in fronts:
        _front(canvas, front, body, done)
    return canvas


def _from_fold(half: list[Run]) -> list[Run]:
    at = next(k for k, run in enumerate(half) if run.fold)
    return [*half[at + 1 :], *half[:at]]


def _front(canvas: Canvas, front: WrapFront, body: int, done: Done) -> None:
    canvas.fill(lines_through(np.concatenate([polyline(run.path) for run in front.ring]), closed=True), PAPER)
    canvas.line([run.path for run in front.ring], OUTLINE)
    side = outside(front.piece, body, over=False)
    for run in front.ring:
        canvas.edge(run.piece, run.edge, run.path, mirrored=False)
        edge = front.piece.edge(run.edge)
        if edge.turned_up and edge.allowance > _NEAR_EDGE and done.hem(run.piece, run.edge):
            canvas.line(inside_line(run.path, edge.allowance - _NEAR_EDGE, -side), STITCH)


def _facing(canvas: Canvas, garment: Garment, body: int, back: Panel, done: Done) -> None:
    """The inner edge of the facing of the back, where the neck shows it."""
    for join in garment.joins:
        if join.is_facing and back.piece.name in join.pieces and len(join.pieces) == 2 and done.join(join.name):
            own, far = (join.first[0], join.second[0])
            own, far = (own, far) if far.piece == back.piece.name else (far, own)
            piece = garment.piece(own.piece)
            line, seam = (p.edge(e).segments[body] for p, e in ((piece, own.edge), (back.piece, far.edge)))
            seam = back.move.along(reverse(seam) if own.reverse != far.reverse else seam)
            canvas.both([run.path for run in _faced(piece, line, seam, body)], SEAM)


def _faced(piece: Piece, line: Floats, seam: Floats, body: int) -> list[Run]:
    """The edges of a facing that no seam has, where it lies behind its piece."""
    ring = ring_of(piece, body)
    moves: list[Similar] = [onto(line[0, 0], line[-1, 3], seam[0, 0], seam[-1, 3], over) for over in (False, True)]
    low = np.array([0.0, float(seam[..., 1].min()) - 100.0])
    move = next((one for one in moves if not beyond(seam, low, one.points(middle_of(ring)))), moves[0])
    return [run.moved(move) for run in ring if piece.edge(run.edge).unjoined]
