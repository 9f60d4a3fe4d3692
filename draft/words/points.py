"""Points and the lines that they are found with."""

from __future__ import annotations

import numpy as np

from draft.geometry.crossing import edge_meets_line, lines_meet
from draft.geometry.cubic import reverse
from draft.units import Kind
from draft.words.directions import unit
from draft.words.word import Floats, Given, Kinds, Word, one


def _at_position(across: Floats, up: Floats) -> Floats:
    return np.stack(np.broadcast_arrays(across, up), axis=-1)


def _offset(length: Floats, direction: Floats) -> Floats:
    return length[:, None] * direction


def _from_point(start: Floats, *steps: Floats) -> Floats:
    return start + sum(steps)


def _line_between(a: Floats, b: Floats) -> Floats:
    return np.stack([a, b - a], axis=1)


def _line_heading(a: Floats, direction: Floats) -> Floats:
    return np.stack(np.broadcast_arrays(a, direction), axis=1)


def _ends(line: Floats, near: Floats) -> tuple[Floats, Floats]:
    """The end of the line that `near` is, and the vector from it to the other end."""
    start, end = line[:, 0], line[:, 0] + line[:, 1]
    to_start = np.sum((near - start) ** 2, axis=-1)
    to_end = np.sum((near - end) ** 2, axis=-1)
    begins = (to_start <= to_end)[:, None]
    return np.where(begins, start, end), np.where(begins, line[:, 1], -line[:, 1])


def _on_line(line: Floats, distance: Floats, near: Floats) -> Given:
    base, vector = _ends(line, near)
    direction, fits = unit(vector)
    return base + distance[:, None] * direction, fits


def _share_of_line(line: Floats, share: Floats, near: Floats) -> Floats:
    base, vector = _ends(line, near)
    return base + share[:, None] * vector


def _midway(line: Floats) -> Floats:
    return line[:, 0] + line[:, 1] / 2


def _where_lines_meet(first: Floats, second: Floats) -> Given:
    return lines_meet(first[:, 0], first[:, 1], second[:, 0], second[:, 1])


def _where_edge_meets(edge: Floats, line: Floats) -> Given:
    points, _, fits = edge_meets_line(edge, line[:, 0], line[:, 1])
    return points, fits


def _where_edge_last_meets(edge: Floats, line: Floats) -> Given:
    return _where_edge_meets(reverse(edge), line)


_P, _L, _LINE, _D = one(Kind.POINT), one(Kind.LENGTH), one(Kind.LINE), one(Kind.DIRECTION)
_AMOUNT: Kinds = frozenset({Kind.LENGTH, Kind.NUMBER})

WORDS = (
    Word("at_position", "at ACROSS, UP", "A point by its distances from the origin.", (_L, _L), Kind.POINT,
         _at_position),
    Word("offset", "LENGTH DIRECTION", "How far, and which way: `3 cm across`, `4 cm at 20 deg below across`.",
         (_L, _D), Kind.STEP, _offset),
    Word("from_point", "from POINT: LENGTH DIRECTION, ...", "A point by one or more steps from another.",
         (_P, one(Kind.STEP)), Kind.POINT, _from_point, repeats=True),
    Word("line_between", "A to B", "The line through two points.", (_P, _P), Kind.LINE, _line_between),
    Word("line_heading", "A heading DIRECTION", "The line from a point in a direction.", (_P, _D), Kind.LINE,
         _line_heading),
    Word("on_line", "on A to B: LENGTH from A", "A point on a line, so far (or such a share) from one of its ends.",
         (_LINE, _AMOUNT, _P), Kind.POINT, _on_line, fails="the two ends of the line lie on one another"),
    Word("share_of_line", "on A to B: SHARE from A", "A point on a line at a share of its length.",
         (_LINE, one(Kind.NUMBER), _P), Kind.POINT, _share_of_line),
    Word("midway", "midway A to B", "The point halfway between two others.", (_LINE,), Kind.POINT, _midway),
    Word("where_lines_meet", "where A to B meets C to D", "Where two lines meet, carried on as far as need be.",
         (_LINE, _LINE), Kind.POINT, _where_lines_meet, fails="the two lines run side by side and never meet"),
    Word("where_edge_meets", "where EDGE meets A to B", "Where an edge first meets a line.", (one(Kind.EDGE), _LINE),
         Kind.POINT, _where_edge_meets, fails="the edge does not meet the line"),
    Word("where_edge_last_meets", "where EDGE last meets A to B", "Where an edge meets a line for the last time.",
         (one(Kind.EDGE), _LINE), Kind.POINT, _where_edge_last_meets, fails="the edge does not meet the line"),
)  # fmt: skip
