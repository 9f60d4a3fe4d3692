"""Gathers: short strokes from the edge that is drawn together, into the piece."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Join, SidePart
from draft.geometry.cubic import lines_through
from draft.geometry.ruler import Ruler
from draft.paper.drawing.drawing import Stroke
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.done import Done

FOLD = Stroke(0.2, cap="round")
_EVERY = 16.0
_LONG = (34.0, 18.0, 26.0)
"""How far each stroke reaches, one after another, in mm of the cloth."""


def gathers(canvas: Canvas, garment: Garment, done: Done) -> None:
    """Strokes along every edge that a sewn join gathers in, as far as the view shows it."""
    for join in garment.joins:
        if done.join(join.name):
            for part in [one for one in (*join.first, *join.second) if _drawn_up(garment, join, one)]:
                inside = _inside(canvas, part.piece)
                runs = canvas.edges.get((part.piece, part.edge), [])
                canvas.line([stroke for run in runs for stroke in _strokes(run, inside)], FOLD)


def _drawn_up(garment: Garment, join: Join, part: SidePart) -> bool:
    """Whether a join gathers an edge in, or the edge itself is drawn up before it is sewn."""
    edge = garment.piece(part.piece).edge(part.edge)
    return (join.fit == "gathered" and part in join.first) or edge.gathered is not None


def _inside(canvas: Canvas, piece: str) -> Floats:
    """The height at which a piece lies in the view."""
    runs = [run for (name, _), own in canvas.edges.items() if name == piece for run in own]
    return np.concatenate([run.reshape(-1, 2) for run in runs]).mean(axis=0) if runs else np.zeros(2)


def _strokes(run: Floats, inside: Floats) -> list[Floats]:
    ruler = Ruler(run)
    found = []
    for k, at in enumerate(np.arange(_EVERY / 2, ruler.length, _EVERY)):
        point, way = ruler.place(float(at))
        into = np.array([-way[1], way[0]])
        into = into if abs(into[1]) < 1e-9 or (inside[1] - point[1]) * into[1] > 0 else -into
        found.append(lines_through([point, point + into * _LONG[k % len(_LONG)]]))
    return found
