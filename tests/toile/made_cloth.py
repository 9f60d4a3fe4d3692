"""Plain cloths and forms whose answers are known: rectangles sewn to tubes, bodies of revolution, rods."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.notes import Source, Span
from draft.base.record import dataclass
from draft.garment.garment import Piece
from draft.toile.contact import Flattened
from draft.toile.dressed import FormField
from draft.toile.mesher import mesh
from draft.toile.newton import Pace, Question, settle
from draft.toile.outline_lines import OutlineLine
from draft.toile.panel import Panel
from draft.toile.sewing_up import merge
from draft.toile.sewn import Sewn
from draft.toile.sewn_cloth import SewnCloth

KNIT = np.array([0.2, 0.3, 0.06, 0.08])
"""N/mm: across, down, between both, shear."""
WOVEN = np.array([4.0, 4.0, 0.0, 2.0])
DRAGS = (1e-6, 1e-7, 1e-8, 1e-9, 1e-9)


@dataclass(frozen=True, eq=False)
class Round:
    """A body of revolution about z, of a radius at each height, and how that grows with height."""

    radius: Callable[[Floats], Floats]
    slope: float = 0.0

    @property
    def joint(self) -> Floats:
        return np.zeros(3)

    def at(self, points: Floats) -> tuple[Floats, Floats]:
        out = np.maximum(np.hypot(points[:, 0], points[:, 1]), 1e-9)
        steep = np.hypot(1.0, self.slope)
        gradient = np.stack([points[:, 0] / out, points[:, 1] / out, np.full(len(out), -self.slope)], axis=1) / steep
        return (out - self.radius(points[:, 2])) / steep, gradient


def cylinder(radius: float) -> Round:
    return Round(lambda z: np.full_like(z, radius))


@dataclass(frozen=True, eq=False)
class Rod:
    """A rod along y through the origin, of one radius; below it what hangs from it on either side is free."""

    radius: float

    @property
    def joint(self) -> Floats:
        return np.zeros(3)

    def at(self, points: Floats) -> tuple[Floats, Floats]:
        above = points[:, 2] > 0
        out = np.maximum(np.where(above, np.hypot(points[:, 0], points[:, 2]), np.abs(points[:, 0])), 1e-9)
        gradient = np.stack([points[:, 0] / out, 0 * out, np.where(above, points[:, 2] / out, 0.0)], axis=1)
        return out - self.radius, gradient


class Nothing:
    """No form at all."""

    joint = np.zeros(3)

    def at(self, points: Floats) -> tuple[Floats, Floats]:
        return np.full(len(points), 1e6), np.zeros_like(points)


def rectangle(x0: float, x1: float, y0: float, y1: float, edge_length: float) -> Panel:
    """Its lines are low, right, high and left."""
    corners = np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]])
    names = ("low", "right", "high", "left")
    lines = {name: OutlineLine(corners[[k, (k + 1) % 4]]) for k, name in enumerate(names)}
    up = np.array([[0.0, 1.0]])
    panel = Panel(
        Piece(Span(Source("cloth.piece", ""), 0, 0), "cloth", (), 1, up, up[:, ::-1]),
        lines,
        {name: [name] for name in names},
    )
    mesh(panel, edge_length)
    return panel


def sewn_of(panels: Sequence[Panel], seams: Sequence[tuple[int, str, int, str]], middles: str, way: Floats) -> Sewn:
    """Panels sewn by lines that run opposite ways, with a line of each on the middle or none; stretch along `way`."""
    first = np.concatenate([[0], np.cumsum([len(panel.rest) for panel in panels])])
    pairs = [
        np.stack([first[a] + panels[a].at[one], first[b] + panels[b].at[other][::-1]], axis=1)
        for a, one, b, other in seams
    ]
    joined = np.concatenate(pairs) if pairs else np.zeros((0, 2), dtype=np.intp)
    triangles = np.concatenate([panel.triangles + at for panel, at in zip(panels, first, strict=False)])
    middle = np.zeros(first[-1], dtype=bool)
    for panel, at in zip(panels, first, strict=False):
        if middles:
            middle[at + panel.at[middles]] = True
    sizes = [len(panel.triangles) for panel in panels]
    return Sewn(
        rest=np.concatenate([panel.rest for panel in panels]),
        triangles=triangles,
        pieces=tuple("abcd"[: len(panels)]),
        piece_of_vertex=np.repeat(np.arange(len(panels)), np.diff(first)),
        piece_of_triangle=np.repeat(np.arange(len(panels)), sizes),
        pairs=joined,
        merged=merge(int(first[-1]), joined),
        on_middle=middle,
        grain=np.tile([-way[1], way[0]], (len(triangles), 1)),
        across=np.tile(way, (len(triangles), 1)),
        layers=np.ones(len(triangles)),
        edges={},
        roles=("front",) * len(panels),
        hems=(),
        edge_length=10.0,
        halved=bool(middles),
    )


ACROSS = np.array([1.0, 0.0])


def sheet(wide: float, high: float, edge_length: float, way: Floats = ACROSS) -> Sewn:
    return sewn_of([rectangle(0.0, wide, 0.0, high, edge_length)], [], "", way)


def tube(round_about: float, high: float, edge_length: float) -> Sewn:
    """Half of a tube: a quarter in front and one behind, sewn at the side."""
    front = rectangle(0.0, round_about / 4, 0.0, high, edge_length)
    back = rectangle(-round_about / 4, 0.0, 0.0, high, edge_length)
    sewn = sewn_of([front, back], [(0, "right", 1, "left")], "", ACROSS)
    middle = sewn.on_middle.copy()
    middle[front.at["left"]] = True
    middle[len(front.rest) + back.at["right"]] = True
    return replace(sewn, on_middle=middle, halved=True)


def laid_flat(sewn: Sewn, up: float = 0.0) -> Floats:
    """The tube pressed flat: front before, back behind."""
    x = np.zeros((sewn.count, 3))
    y = np.where(sewn.piece_of_vertex == 0, -5.0, 5.0)
    x[sewn.merged] = np.stack([np.abs(sewn.rest[:, 0]), y, sewn.rest[:, 1] + up], axis=1)
    x[sewn.merged[sewn.pairs[:, 0]], 1] = 0.0
    return x


def grown(cloth: SewnCloth, x: Floats, field: FormField, question: Callable[[FormField], Question]) -> Floats:
    """The cloth round a form that grows from flat, and then at rest."""
    for scale in np.geomspace(0.08, 1.0, 6):
        x = settle(cloth, x, question(Flattened(field, float(scale))), Pace(1e-6, 10, 0.02)).x
    return at_rest(cloth, x, question(field))


def at_rest(cloth: SewnCloth, x: Floats, question: Question, until: float = 2e-3, steps: int = 60) -> Floats:
    for drag in DRAGS:
        x = settle(cloth, x, question, Pace(drag, steps, until)).x
    return x


def middles(sewn: Sewn, x: Floats) -> Floats:
    """The middles of the triangles `(t, 3)`."""
    return np.asarray(x[sewn.merged[sewn.triangles]].mean(axis=1))


def holding(cloth: SewnCloth, vertices: Ints) -> SewnCloth:
    """The cloth with some vertices held in their places."""
    held = cloth.held.copy()
    held[vertices] = True
    return replace(cloth, held=held)
