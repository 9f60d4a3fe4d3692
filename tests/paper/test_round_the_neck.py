"""A neckband that goes on over raglan sleeves is one strip in the flat drawing, and no box at each shoulder."""

from __future__ import annotations

import numpy as np
import pytest

from draft.paper.flat.canvas import Canvas
from draft.paper.flat.strips import OUTLINE
from draft.paper.flat.views import views
from tests.asking import bundled


def _lines(view: Canvas) -> list[np.ndarray]:
    return [run for fill, runs, stroke in view.items if stroke == OUTLINE and not fill for run in runs]


@pytest.mark.parametrize("key", ["front", "back"])
def test_the_band_runs_from_one_shoulder_over_the_middle_to_the_other(key: str) -> None:
    view = views(bundled("netloft", "M").garment, 0)[key]
    (shoulder,) = {tuple(np.abs(run[-1, 3]).round(1)) for run in view.edges["sleeve", f"{key}_neck_part"]}
    inner = [
        run for run in _lines(view) if len(run) > 1 and run[0, 0, 0] * run[-1, 3, 0] < 0 and np.ptp(run[..., 0]) < 160
    ]
    assert inner
    for run in inner:  # of what is seen of it in front and behind each begins and ends at the top of a shoulder
        ends = run[[0, -1], [0, 3]]
        assert ends[0] == pytest.approx(ends[1] * (-1, 1), abs=0.5)
        assert abs(ends[0, 1] - shoulder[1]) < 3.0
        assert 15.0 < shoulder[0] - abs(ends[0, 0]) < 25.0  # the width of the band
