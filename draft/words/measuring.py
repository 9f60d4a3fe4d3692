"""Lengths measured off what is drawn."""

from __future__ import annotations

import numpy as np

from draft.geometry.length import length
from draft.units import Kind
from draft.words.word import Floats, Word, one


def _length_of_edge(edge: Floats) -> Floats:
    return length(edge)


def _length_of_line(line: Floats) -> Floats:
    return np.asarray(np.hypot(line[:, 1, 0], line[:, 1, 1]))


def _run_of(line: Floats, direction: Floats) -> Floats:
    return np.asarray(np.sum(line[:, 1] * direction, axis=-1))


WORDS = (
    Word("length_of", "length of EDGE", "The length of an edge along its curve, or of the line from A to B.",
         (one(Kind.EDGE),), Kind.LENGTH, _length_of_edge),
    Word("length_of_line", "length of A to B", "The distance between two points.", (one(Kind.LINE),), Kind.LENGTH,
         _length_of_line),
    Word("run_of", "run of A to B heading DIRECTION",
         "How far B lies from A in a direction; less than nothing if it lies the other way.",
         (one(Kind.LINE), one(Kind.DIRECTION)), Kind.LENGTH, _run_of),
)  # fmt: skip
