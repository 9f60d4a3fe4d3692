"""The drawings of where the tape goes: one for each measure, on the figure and inside its frame."""

from __future__ import annotations

import numpy as np
import pytest

from draft.bodies.measures import MEASURES
from draft.bodies.tapes import TAPES
from draft.geometry.flatten import sample
from draft.paper.drawing.drawing import Path
from draft.paper.pictures.tape import HEIGHT, TAPE, figure_lines, tape_drawing

NAMES = sorted(MEASURES)


def test_every_measure_has_a_tape_and_no_other_word_has() -> None:
    assert TAPES.keys() == MEASURES.keys()


@pytest.mark.parametrize("name", [n for n in NAMES if TAPES[n].girth])
def test_a_girth_goes_out_of_sight_at_the_edge_of_the_figure(name: str) -> None:
    outline = np.concatenate([sample(run[None], 24)[0] for run in figure_lines()])
    for end in TAPES[name].line:
        assert np.min(np.hypot(*(outline - end).T)) < 0.9  # of a figure of 160: under a millimetre at any print size


@pytest.mark.parametrize("name", NAMES)
def test_all_of_the_tape_lies_in_the_frame(name: str) -> None:
    drawing = tape_drawing(name)
    assert drawing.height == HEIGHT and 20 < drawing.width < 60
    paths = [item for item in drawing.items() if isinstance(item, Path)]
    taped = [p for p in paths if (p.stroke and p.stroke.colour == TAPE.colour) or p.fill]
    assert len(taped) >= 2
    for path in paths:
        (left, top), (right, bottom) = path.box()
        assert left > -0.6 and top > -0.6 and right < drawing.width + 0.6 and bottom < HEIGHT + 0.6


def test_a_girth_shows_its_near_half_whole_and_its_far_half_dashed() -> None:
    dashes = [i.stroke.dash for i in tape_drawing("bust_girth").items() if isinstance(i, Path) and i.stroke]
    assert () in dashes and (0.9, 0.9) in dashes
