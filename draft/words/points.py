"""Points and the lines that they are found with."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.units import Kind
from draft.geometry.crossing import edge_meets_line, lines_meet
from draft.geometry.cubic import reverse, turned
from draft.geometry.meeting import edges_meet, line_path
from draft.geometry.motion import mirrored_over, turned_about
from draft.words.along_edge import misses_edge, on_edge, share_of_edge
from draft.words.directions import unit_or_across
from draft.words.laid import WORDS as LAID
from draft.words.striking import misses_line, misses_one_another, strike_to_line, strike_twice
from draft.words.word import Given, Word, one


def _same(point: Floats) -> Floats:
    return point


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
    direction, fits = unit_or_across(vector)
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


def _where_edge_meets_nearest(edge: Floats, line: Floats, near: Floats) -> Given:
    direction, fits = unit_or_across(line[:, 1])
    points, met = edges_meet(edge, line_path(line[:, 0], direction), near)
    return points, met & fits


def _where_edges_last_meet(edge: Floats, other: Floats) -> Given:
    return edges_meet(reverse(edge), other)


def _square_onto(point: Floats, line: Floats) -> Given:
    direction, fits = unit_or_across(line[:, 1])
    return line[:, 0] + np.sum((point - line[:, 0]) * direction, axis=-1)[:, None] * direction, fits


def _mirrored_over(point: Floats, line: Floats) -> Given:
    foot, fits = _square_onto(point, line)
    return 2 * foot - point, fits


def _turned_about(point: Floats, centre: Floats, angle: Floats) -> Floats:
    return centre + turned(point - centre, angle)


def _mirrored_edge(edge: Floats, line: Floats) -> Given:
    direction, fits = unit_or_across(line[:, 1])
    return mirrored_over(edge, line[:, 0], direction), fits


_P, _L, _LINE, _D, _E = one(Kind.POINT), one(Kind.LENGTH), one(Kind.LINE), one(Kind.DIRECTION), one(Kind.EDGE)

WORDS = (
    Word("same_point", "is POINT", "A point that is another, under a name of its own.", (one(Kind.POINT),), Kind.POINT,
         _same, example="tip  is shoulder"),
    Word("at_position", "at ACROSS, UP", "A point by its distances from the origin.", (_L, _L), Kind.POINT,
         _at_position, example="tip  at 3 cm, -4 cm"),
    Word("offset", "LENGTH DIRECTION", "How far, and which way: `3 cm across`, `4 cm at 20 deg below across`.",
         (_L, _D), Kind.STEP, _offset, example="tip  from nape: 3 cm across, 4 cm down"),
    Word("from_point", "from POINT: LENGTH DIRECTION, ...", "A point by one or more steps from another.",
         (_P, one(Kind.STEP)), Kind.POINT, _from_point, repeats=True,
         example="tip  from neck: ease across, 2 cm at slope below across"),
    Word("line_between", "A to B", "The line through two points.", (_P, _P), Kind.LINE, _line_between,
         example="tip  midway neck to shoulder"),
    Word("line_heading", "A heading DIRECTION", "The line from a point in a direction.", (_P, _D), Kind.LINE,
         _line_heading, example="tip  where neck to shoulder meets armpit heading up"),
    Word("on_line", "on A to B: LENGTH from A", "A point on a line, so far (or such a share) from one of its ends.",
         (_LINE, _L, _P), Kind.POINT, _on_line, fails="the two ends of the line lie on one another",
         example="tip  on neck to shoulder: 4 cm from neck", from_end=True),
    Word("share_of_line", "on A to B: SHARE from A", "A point on a line at a share of its length.",
         (_LINE, one(Kind.NUMBER), _P), Kind.POINT, _share_of_line,
         example="tip  on neck to shoulder: 30 % from shoulder"),
    Word("midway", "midway A to B", "The point halfway between two others.", (_LINE,), Kind.POINT, _midway,
         example="tip  midway armpit to waist_side"),
    Word("where_lines_meet", "where A to B meets C to D", "Where two lines meet, carried on as far as need be.",
         (_LINE, _LINE), Kind.POINT, _where_lines_meet, fails="the two lines run side by side and never meet",
         example="tip  where neck to shoulder meets armpit heading up"),
    Word("where_edge_meets", "where EDGE meets A to B", "Where an edge first meets a line.", (_E, _LINE), Kind.POINT,
         _where_edge_meets, fails="the edge does not meet the line",
         example="tip  where side meets waist_centre heading across"),
    Word("where_edge_last_meets", "where EDGE last meets A to B", "Where an edge meets a line for the last time.",
         (_E, _LINE), Kind.POINT, _where_edge_last_meets, fails="the edge does not meet the line",
         example="tip  where side last meets armpit heading down"),
    Word("where_edge_meets_nearest", "where EDGE meets A to B nearest P",
         "Of several places where an edge meets a line, the one nearest to a point.", (_E, _LINE, _P), Kind.POINT,
         _where_edge_meets_nearest, fails="the edge does not meet the line",
         example="tip  where side meets waist_centre heading across nearest waist_side"),
    Word("where_edges_meet", "where EDGE meets EDGE", "Where an edge first meets another.", (_E, _E), Kind.POINT,
         edges_meet, fails="the two edges do not meet", example="tip  where side meets back.hem"),
    Word("where_edges_last_meet", "where EDGE last meets EDGE", "Where an edge meets another for the last time.",
         (_E, _E), Kind.POINT, _where_edges_last_meet, fails="the two edges do not meet",
         example="tip  where side last meets back.hem"),
    Word("where_edges_meet_nearest", "where EDGE meets EDGE nearest P",
         "Of several places where two edges meet, the one nearest to a point.", (_E, _E, _P), Kind.POINT, edges_meet,
         fails="the two edges do not meet", example="tip  where side meets back.hem nearest hem_side"),
    Word("on_edge", "on EDGE: LENGTH from A", "A point so far (or such a share) along an edge from one of its ends.",
         (_E, _L, _P), Kind.POINT, on_edge, fails="the edge is shorter than that", misses=misses_edge,
         example="tip  on side: 5 cm from armpit", from_end=True),
    Word("share_of_edge", "on EDGE: SHARE from A", "A point at a share of an edge's length from one of its ends.",
         (_E, one(Kind.NUMBER), _P), Kind.POINT, share_of_edge, fails="the share lies outside 0 % to 100 %",
         example="tip  on side: 50 % from armpit"),
    Word("square_onto", "square from P onto A to B", "The foot of the line from a point square to another line.",
         (_P, _LINE), Kind.POINT, _square_onto, fails="the two ends of the line lie on one another",
         example="tip  square from shoulder onto nape to hem_centre"),
    Word("mirrored_over", "mirrored P over A to B", "The mirror image of a point about a line.", (_P, _LINE),
         Kind.POINT, _mirrored_over, fails="the two ends of the line lie on one another",
         example="tip  mirrored armpit over nape to hem_centre"),
    Word("turned_about", "turned P about Q: ANGLE", "A point swung round another, from across towards up.",
         (_P, _P, one(Kind.ANGLE)), Kind.POINT, _turned_about, example="tip  turned armpit about shoulder: 10 deg"),
    Word("mirrored_edge", "following mirrored EDGE over A to B", "A leg on the mirror image of an edge.", (_E, _LINE),
         Kind.EDGE, _mirrored_edge, fails="the two ends of the line lie on one another",
         example="seen  nape to hem_centre  following mirrored centre over nape to hem_centre"),
    Word("turned_edge", "following turned EDGE about Q: ANGLE", "A leg on an edge that is swung round a point.",
         (_E, _P, one(Kind.ANGLE)), Kind.EDGE, turned_about,
         example="seen  waist_centre to waist_side  following turned waist about nape: 0 deg"),
    *LAID,
    Word("strike_to_line", "strike LENGTH from P to A to B going across",
         "Where an arc of that length round a point strikes a line, on the side named.", (_L, _P, _LINE, _D),
         Kind.POINT, strike_to_line, misses=misses_line,
         fails="the arc does not reach the line, or the line has no such side",
         example="tip  strike 25 cm from shoulder to nape to hem_centre going down"),
    Word("strike_twice", "strike LENGTH from P and LENGTH from Q going down",
         "Where two arcs round two points strike one another, on the side named.", (_L, _P, _L, _P, _D), Kind.POINT,
         strike_twice, misses=misses_one_another,
         fails="the two arcs do not reach one another, or there is no such side",
         example="tip  strike 20 cm from armpit and 18 cm from nape going down"),
)  # fmt: skip
