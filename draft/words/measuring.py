"""Lengths measured off what is drawn."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.units import Kind
from draft.geometry.cubic import cross
from draft.geometry.ends import end_directions
from draft.geometry.flatten import sample
from draft.geometry.length import length
from draft.geometry.part import part_between
from draft.words.directions import unit_or_across
from draft.words.word import Given, Word, one

TURNS = 24  # places on each segment: an edge turns by less than half a circle between two of them


def _length_of_edge(edge: Floats) -> Floats:
    return length(edge)


def _length_of_line(line: Floats) -> Floats:
    return np.asarray(np.hypot(line[:, 1, 0], line[:, 1, 1]))


def _run_of(line: Floats, direction: Floats) -> Floats:
    return np.asarray(np.sum(line[:, 1] * direction, axis=-1))


def _angle_between(first: Floats, second: Floats) -> Given:
    a, fits = unit_or_across(first[:, 1])
    b, others = unit_or_across(second[:, 1])
    return np.arccos(np.clip(np.sum(a * b, axis=-1), -1.0, 1.0)), fits & others


def _turned_along(edge: Floats) -> Floats:
    way = np.diff(sample(edge, TURNS), axis=1)
    x, y = (np.ascontiguousarray(way[..., axis]) for axis in (0, 1))
    there = np.hypot(x, y) > 1e-9
    after = np.concatenate([there[:, 1:], np.zeros((len(edge), 1), dtype=bool)], axis=1)
    ahead_x, ahead_y = np.roll(x, -1, axis=1), np.roll(y, -1, axis=1)
    turned = np.arctan2(x * ahead_y - y * ahead_x, x * ahead_x + y * ahead_y)
    first, last = end_directions(edge)
    starts = np.arctan2(cross(first, way[:, 0]), np.sum(first * way[:, 0], axis=-1))
    ends = np.arctan2(cross(way[:, -1], last), np.sum(way[:, -1] * last, axis=-1))
    return np.asarray(np.abs(np.sum(np.where(there & after, turned, 0.0), axis=1) + starts + ends))


WORDS = (
    Word("length_of", "length of EDGE", "The length of an edge along its curve, or of the line from A to B.",
         (one(Kind.EDGE),), Kind.LENGTH, _length_of_edge, example="half = length of hem"),
    Word("length_of_line", "length of A to B", "The distance between two points.", (one(Kind.LINE),), Kind.LENGTH,
         _length_of_line, example="half = length of nape to neck"),
    Word("run_of", "run of A to B heading DIRECTION",
         "How far B lies from A in a direction; less than nothing if it lies the other way.",
         (one(Kind.LINE), one(Kind.DIRECTION)), Kind.LENGTH, _run_of,
         example="depth = run of neck to armpit heading down"),
    Word("part_of", "part of EDGE from P to Q", "The stretch of an edge between two points on it.",
         (one(Kind.EDGE), one(Kind.POINT), one(Kind.POINT)), Kind.EDGE, part_between,
         fails="one of the two points does not lie on the edge",
         example="upper = length of part of side from armpit to waist_side"),
    Word("turned_along", "angle turned along EDGE",
         "How far an edge turns between its two ends: its bends to one side less those to the other.",
         (one(Kind.EDGE),), Kind.ANGLE, _turned_along, example="bent = angle turned along neckline"),
    Word("angle_between", "angle between A to B and C to D", "The angle between two lines, from 0 to 180 deg.",
         (one(Kind.LINE), one(Kind.LINE)), Kind.ANGLE, _angle_between, fails="one of the two lines has no length",
         example="lean = angle between neck to shoulder and neck heading across"),
)  # fmt: skip
