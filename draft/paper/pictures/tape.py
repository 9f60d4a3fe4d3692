"""A small line drawing of where the tape goes: the neutral figure in grey, the tape over it in ink."""

from __future__ import annotations

from functools import cache

import numpy as np

from draft.base.arrays import Floats
from draft.bodies.figure import HALF, LEVELS, Points
from draft.bodies.measures import MEASURES
from draft.bodies.tapes import TAPES, Tape
from draft.geometry.arc import QUARTER_HANDLE
from draft.geometry.cubic import lines_through, norm, reverse
from draft.geometry.spline import hobby
from draft.paper.drawing.drawing import Drawing, Item, Layer, Path, Stroke, circle
from draft.paper.drawing.wording import capitalised

HEIGHT = 44.0  # mm: the words of three measures and their drawings share a third of a page
BODY = Stroke(0.22, colour="#777777", cap="round")
TAPE = Stroke(0.55, colour="#a33c00", cap="round")
BEHIND = Stroke(0.4, (0.9, 0.9), colour="#a33c00", cap="butt")
AID = Stroke(0.2, (2.0, 1.0), colour="#0a4a8f")
ROUND = 0.12  # how far a loop seen from a little above sinks, as a share of its width


@cache
def tape_drawing(name: str, bust: bool = True) -> Drawing:
    """The drawing for one measure, 44 mm high; the figure with a bust or without.

    Raises KeyError for a word that is no measure.
    """
    tape = TAPES[name]
    left, top, right, bottom = tape.window
    offset, scale = np.array([left, top]), HEIGHT / (bottom - top)

    def placed(run: Floats) -> Floats:
        return np.asarray((run - offset) * scale)

    items = [Path(tuple(placed(run) for run in figure_lines(tape.view, bust)), BODY)]
    items += [Path((placed(lines_through(aid)),), AID) for aid in tape.aids]
    items += [Path((placed(run),), stroke) for run, stroke in _tape_lines(tape)]
    items += [_end(placed(np.array(end))) for end in _ends(tape)]
    width = (right - left) * scale
    inside = tuple(clipped(item, width, HEIGHT) for item in items)
    title = capitalised(name.replace("_", " "))
    return Drawing(title, width, HEIGHT, (Layer("tape", tuple(i for i in inside if i)),), subtitle=MEASURES[name].how)


@cache
def figure_lines(view: str = "front", bust: bool = True) -> tuple[Floats, ...]:
    """The outline of the figure as lines of curves `(n, 4, 2)`, with what tells its front from its back."""
    halves = [_smooth(part) for part in HALF]
    lines = [*halves, *(reverse(half * np.array([-1.0, 1.0])) for half in halves)]
    return (*lines, *([_smooth(part) for part in _FEATURES[0 if bust else _BUST :]] if view == "front" else [_dot()]))


_FEATURES: tuple[Points, ...] = (
    ((-9.6, 50.6), (-6.4, 51.6), (-3, 50.2)),
    ((3, 50.2), (6.4, 51.6), (9.6, 50.6)),
    ((-1.4, 15.6), (0, 16.2), (1.4, 15.6)),
    ((-7, 28.4), (-3.6, 29.4), (-0.8, 28.9)),
    ((0.8, 28.9), (3.6, 29.4), (7, 28.4)),
)
"""Two bust lines, a mouth, the collar bones."""
_BUST = 2


def _dot() -> Floats:
    """The back neck bone."""
    return circle(0.0, LEVELS["nape"], 0.7)


def _smooth(points: Points) -> Floats:
    return np.asarray(hobby(np.array([points], dtype=float), [None] * len(points))[0])


def _tape_lines(tape: Tape) -> list[tuple[Floats, Stroke]]:
    if not tape.girth:
        return [(_smooth(tape.line), TAPE)]
    near, far = loop(tape.line, 1.0), loop(tape.line, -1.0)
    return [(far, BEHIND), (near, TAPE)]


def loop(line: Points, side: float) -> Floats:
    """Half an ellipse `(2, 4, 2)` between two points, sinking to one side, 1 or -1, of the line between them."""
    a, b = (np.array(end, dtype=float) for end in line)
    way = (b - a) / 2
    down = np.array([-way[1], way[0]]) * side * ROUND * 2
    low = (a + b) / 2 + down
    first = np.stack([a, a + QUARTER_HANDLE * down, low - QUARTER_HANDLE * way, low])
    second = np.stack([low, low + QUARTER_HANDLE * way, b + QUARTER_HANDLE * down, b])
    return np.stack([first, second])


def _end(at: Floats) -> Path:
    """A dot where a length begins or ends."""
    return Path((circle(float(at[0]), float(at[1]), 0.55),), fill=TAPE.colour, closed=True)


def _ends(tape: Tape) -> list[tuple[float, float]]:
    return [] if tape.girth else [tape.line[0], tape.line[-1]]


def clipped(item: Item, width: float, height: float) -> Item | None:
    """The path without the segments that lie outside the window; those that leave it are cut where they do."""
    from draft.geometry.flatten import sample

    assert isinstance(item, Path)
    if item.fill:
        return item
    kept: list[Floats] = []
    for run in item.runs:
        points = sample(run[None], 16)[0]
        inside = (points[:, 0] >= 0) & (points[:, 0] <= width) & (points[:, 1] >= 0) & (points[:, 1] <= height)
        if inside.all():
            kept.append(run)
            continue
        for piece in np.split(np.arange(len(points)), np.flatnonzero(~inside)):
            piece = piece[inside[piece]]
            if len(piece) > 1 and norm(points[piece[-1]] - points[piece[0]]) > 0:
                kept.append(lines_through(points[piece]))
    return Path(tuple(kept), item.stroke, item.fill, item.closed) if kept else None
