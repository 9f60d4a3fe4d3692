"""A small line drawing of what is said of a figure: the usual line, dashed between dots, and such a figure's, in ink.

What differs is drawn larger than it is, so that it is seen.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.bodies.figure import Points
from draft.bodies.sayings import Move, Saying
from draft.bodies.tapes import TAPES, Tape
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Drawing, Layer, Path, circle
from draft.paper.drawing.wording import capitalised
from draft.paper.pictures.tape import AID, BODY, HEIGHT, TAPE, clipped, figure_lines, loop

SHOWN = 0.14
"""By which share of it a line is drawn longer or shorter."""


def figure_drawing(saying: Saying) -> Drawing:
    """The drawing for one saying, as high as that of a measure: of all that it moves on the side that it shows most."""
    view = TAPES[saying.moves[0].measure].view
    moves = [move for move in saying.moves if TAPES[move.measure].view == view]
    left, top, right, bottom = TAPES[moves[0].measure].window
    scale = HEIGHT / (bottom - top)
    placed = [((run - np.array([left, top])) * scale, BODY) for run in figure_lines(view)]
    ends: list[Floats] = []
    for move in moves:
        tape = TAPES[move.measure]
        for line, stroke in ((tape.line, AID), (moved_line(move), TAPE)):
            placed.append(((_curve(tape, line) - np.array([left, top])) * scale, stroke))
        ends += [(np.array(end) - np.array([left, top])) * scale for end in (tape.line[0], tape.line[-1])]
    width = (right - left) * scale
    items = [clipped(Path((run,), stroke), width, HEIGHT) for run, stroke in placed]
    dots = [Path((circle(float(x), float(y), 0.5),), fill=AID.colour, closed=True) for x, y in ends]
    layer = Layer("figure", (*(item for item in items if item), *dots))
    return Drawing(capitalised(saying.words), width, HEIGHT, (layer,), subtitle=saying.seen)


def moved_line(move: Move) -> Points:
    """The line of a tape on a figure that has more or less of the measure."""
    line = np.array(TAPES[move.measure].line, dtype=float)
    more = np.sign(move.sd) * SHOWN
    if move.measure == "shoulder_slope":
        line[-1, 1] += 22 * more
    elif TAPES[move.measure].girth or line[0, 0] == -line[-1, 0] != 0:
        middle = (line[0] + line[-1]) / 2
        line = middle + (line - middle) * (1 + more)
    else:
        line = line[0] + (line - line[0]) * (1 + more)
    return tuple((float(x), float(y)) for x, y in line)


def _curve(tape: Tape, line: Points) -> Floats:
    return np.asarray(loop(line, 1.0) if tape.girth else lines_through(line))
