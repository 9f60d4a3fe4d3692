"""Edges that bend alike in all sizes: what is told of one that waves in some, and what is no fault."""

from __future__ import annotations

import numpy as np

from draft.base.notes import Note, Severity, Source, Span
from draft.checks import alike
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.spline import hobby

HERE = Span(Source("trial.piece", "trial"), 0, 5)
SIZES = ("S", "M", "L")


def notes_on(*aside: list[float]) -> list[Note]:
    """What is said of one edge through points so far aside of a line of 40 cm, a size each."""
    knots = np.stack([np.linspace([0.0, 0.0], [400.0, 0.0], len(aside[0]))] * len(aside))
    knots[..., 1] = aside
    edge = Edge(HERE, "side", hobby(knots, [None] * len(aside[0])), allowance=10.0)
    along = np.zeros((len(aside), 2))
    return alike.check(Garment("Trial", "", SIZES, (Piece(HERE, "front", (edge,), 1, along, along),), (), ()))


def test_a_wave_in_one_size_alone_is_told_with_both_figures() -> None:
    (note,) = notes_on([0, 20, 26, 20, 0], [0, 21, 27, 21, 0], [0, 30, 10, 30, 0])
    assert note.severity is Severity.CAUTION and note.span == HERE
    assert note.message == "`front.side` waves in size L and not in others"
    assert note.hints[0] == "it changes the way that it turns twice in L, never in S"


def test_what_bends_alike_is_no_fault_however_often() -> None:
    assert not notes_on([0, 0, 0, 0, 0], [0, 0, 0, 0, 0], [0, 0, 0, 0, 0])
    assert not notes_on([0, 30, 10, 30, 0], [0, 35, 10, 35, 0], [0, 40, 10, 40, 0])


def test_neither_is_one_that_turns_once_more_nor_a_wave_that_nobody_sees() -> None:
    assert not notes_on([0, 20, 26, 20, 0], [0, 15, 0, -15, 0], [0, 15, 0, -15, 0])
    assert not notes_on([0, 0, 0, 0, 0], [0, 0, 0, 0, 0], [0, 0.2, -0.2, 0.2, 0])
