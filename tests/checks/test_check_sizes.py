"""Sizes nest and rise: what is told of neighbouring sizes, and what is no fault."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.notes import Severity, Source, Span
from draft.checks import nesting, rising
from draft.garment.garment import Edge, Finished, Garment, Piece
from draft.geometry.cubic import line

HERE = Span(Source("trial.piece", "trial"), 0, 5)
SIZES = ("S", "M", "L")


def nested(*lines: tuple[tuple[float, float], tuple[float, float]]) -> list[str]:
    """What is said of one straight edge, from here to there, a size each."""
    ends = np.array(lines, dtype=float)
    edge = Edge(HERE, "side", line(ends[:, 0], ends[:, 1])[:, None], allowance=10.0)
    both = np.zeros((len(lines), 2))
    piece = Piece(HERE, "front", (edge,), 1, both, both)
    notes = nesting.check(Garment("Trial", "", SIZES[: len(lines)], (piece,), (), ()))
    assert all(note.severity is Severity.CAUTION for note in notes)
    return [note.message for note in notes]


def rises(*values: float) -> list[str]:
    found = Finished("bust", True, np.array(values))
    return [note.message for note in rising.check(Garment("Trial", "", SIZES[: len(values)], (), (), (found,)))]


@pytest.mark.parametrize(
    "lines",
    [
        [((0, 0), (0, 100)), ((10, 0), (10, 100)), ((20, 0), (20, 100))],
        [((0, 0), (0, 100)), ((0, 0), (10, 100)), ((0, 0), (20, 100))],  # all from one point
        [((0, 0), (98.5, 17.4)), ((0, 0), (147.7, 26.05)), ((0, 0), (196.96, 34.73))],  # upon one another
        [((0, 0), (0, 100)), ((0, 0), (0, 100)), ((0, 0), (0, 120))],
        [((0, 0), (0, 0)), ((0, 0), (0, 0)), ((0, 0), (10, 0))],
    ],
)
def test_sizes_beside_one_another_or_upon_one_another_nest(
    lines: list[tuple[tuple[float, float], tuple[float, float]]],
) -> None:
    assert nested(*lines) == []


def test_a_line_that_goes_back_on_itself_is_told_with_both_sizes() -> None:
    assert nested(((0, 0), (0, 100)), ((10, 0), (-5, 100)), ((20, 0), (20, 100))) == [
        "`front.side` goes back on itself from size to size: S and M"
    ]
    assert nested(((0, 0), (0, 100)), ((10, 0), (-5, 100)), ((0, 0), (5, 100))) == [
        "`front.side` goes back on itself from size to size: S and M, M and L"
    ]


def test_lines_that_cross_in_every_size_are_graded_so() -> None:
    """As an armhole does, which is deeper and starts further out in every size."""
    assert nested(((0, 0), (0, 100)), ((10, 0), (-5, 100))) == []
    assert nested(((0, 0), (0, 100)), ((10, 0), (-5, 100)), ((20, 0), (-10, 100))) == []
    assert nested(((0, 0), (0, 100)), ((10, 0), (-5, 100)), ((25, 0), (-8, 100))) == []


def test_a_step_back_that_nobody_sees_is_none() -> None:
    assert nested(((0, 0), (100, 0.02)), ((0, 0.02), (100, 0)), ((0, 0.04), (100, 0.04))) == []
    assert nested(((0, 0), (0, 100)), ((10, 0), (-0.4, 100)), ((20, 0), (20, 100))) == []
    assert nested(((0, 0), (0, 100)), ((10, 0), (-4, 100)), ((20, 0), (20, 100)))


def test_where_the_next_size_runs_on_past_an_end_it_may_come_to_it_from_the_other_side() -> None:
    last = ((-9, 100), (-9, 0))
    assert nested(((0, 100), (0, 0)), ((3, 100), (-1, -25)), last) == []  # 25 mm further, 1 mm aside, 6 mm short
    assert nested(((0, 100), (0, 0)), ((3, 100), (-1, 10)), last)  # it stops short of the end
    assert nested(((0, 100), (0, 0)), ((8, 100), (-20, -10)), last)  # further aside than on
    assert nested(((0, 100), (0, 0)), ((3, 100), (-12, -25)), last)  # far from the end


def test_a_measurement_that_falls_is_told_with_both_sizes() -> None:
    assert rises(800.0, 860.0, 860.0) == []
    assert rises(800.0, 799.995, 860.0) == []
    assert rises(800.0, 790.0, 780.0) == ["the finished `bust` grows smaller from S to M, M to L"]
    assert rises(800.0) == []
