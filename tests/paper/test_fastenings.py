"""Marks at rows: each point once, buttonholes of their length, and the same places in what is exchanged."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment, Mark
from draft.garment.marks import BEFORE, buttonhole, places
from tests.asking import asked

PATTERN = Path(__file__).parents[1] / "good" / "rows.piece"


@pytest.fixture(scope="module")
def garment() -> Garment:
    return draft_and_check(asked(PATTERN)).garment


def mark(garment: Garment, name: str) -> Mark:
    return next(mark for mark in garment.piece("front").marks if mark.name == name)


def test_a_row_of_a_count_is_even_from_end_to_end(garment: Garment) -> None:
    row = places(mark(garment, "buttons"), 1)
    assert len(row) == 6
    assert np.allclose(row[0], [15, -15]) and np.allclose(row[-1], [15, -310])
    assert np.allclose(np.diff(row, axis=0), [0, -59])


def test_a_row_of_steps_has_a_count_of_its_own_for_each_size(garment: Garment) -> None:
    counts = []
    for body in range(len(garment.sizes)):
        row = places(mark(garment, "eyes"), body)
        steps = np.hypot(*np.diff(row, axis=0).T)
        assert np.allclose(steps, 70)
        counts.append(len(row))
    ends = [garment.piece("front").edge("side").segments[body, -1, 3] for body in range(len(garment.sizes))]
    assert counts == [int(np.hypot(*(end - [80, 90])) // 70) + 1 for end in ends]


def test_a_buttonhole_is_as_long_as_it_says_and_begins_before_its_button(garment: Garment) -> None:
    holes = buttonhole(mark(garment, "buttonholes"), 0, 5.0)
    lines, bars = holes[::3], [bar for k, bar in enumerate(holes) if k % 3]
    assert [np.hypot(*(line[1] - line[0])) for line in lines] == pytest.approx([16.0] * 6)
    assert [np.hypot(*(bar[1] - bar[0])) for bar in bars] == pytest.approx([5.0] * 12)
    for line, button in zip(lines, places(mark(garment, "buttons"), 0), strict=True):
        assert np.allclose(line[0] - button, [0, BEFORE])  # upwards of it, as it goes down
    (across, *_) = buttonhole(mark(garment, "cuff"), 0, 5.0)
    assert np.allclose(across, [[120 - BEFORE, -200], [140 - BEFORE, -200]])
