"""Marks at rows: each point once, buttonholes of their length, and the same places in what is exchanged."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import shapely

from draft.base.arrays import Floats
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment, Mark
from draft.garment.marks import BEFORE, buttonhole, places
from draft.geometry.flatten import polyline
from draft.paper.piece.fastenings import fastening, lies_in_hole
from tests.asking import asked, bundled

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


def test_no_line_of_a_button_lies_on_its_buttonhole() -> None:
    garment = bundled("lockside").garment
    for name in ("placket", "stand"):
        piece = garment.piece(name)
        holes = [one for one in piece.marks if one.fastening == "buttonhole"]
        for button in (one for one in piece.marks if one.fastening == "button"):
            assert lies_in_hole(button, piece)
            slits = _drawn_lines(fastening(holes[0], 2))
            signs = _drawn_lines(fastening(button, 2, holes))
            assert shapely.intersection(slits.buffer(0.2), signs).length < 1.5 * len(places(button, 2))
    placket = garment.piece("placket")
    (button,) = (one for one in placket.marks if one.fastening == "button")
    (hole,) = (one for one in placket.marks if one.fastening == "buttonhole")
    alone = _drawn_lines(fastening(button, 2))  # as it is elsewhere, half of its cross would lie on the hole
    assert shapely.intersection(_drawn_lines(fastening(hole, 2)).buffer(0.2), alone).length > 6.0 * len(
        places(button, 2)
    )


def test_a_button_beside_its_hole_keeps_its_cross() -> None:
    cuff = bundled("lockside").garment.piece("cuff")
    assert not any(lies_in_hole(one, cuff) for one in cuff.marks)


def _drawn_lines(runs: tuple[Floats, ...]) -> shapely.MultiLineString:
    return shapely.MultiLineString([polyline(run) for run in runs])
