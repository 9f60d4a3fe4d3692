"""`along EDGE at P` and `square down from EDGE at P`: directions that an edge has at a point on it."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.base.notes import Problems
from draft.bodies.bodies import Bodies
from draft.solve import Outcome, evaluate
from draft.words import WORDS
from tests.written import make_plan

TEXT = """
pattern p
    title "p"

piece quarter
    points
        middle  at 0, 0
        right   at 100 mm, 0
        top     at 0, 100 mm
        place   on rim: 50 % from right
        off     from place: 1 mm across
        mark    {mark}
    outline
        rim   right to top    arc round middle
        left  top to middle   straight
        low   middle to right straight
    cut 1
"""


def _outcome(tmp_path: Path, mark: str) -> Outcome:
    path = tmp_path / "p.piece"
    path.write_text(TEXT.format(mark=mark))
    return evaluate(make_plan(path), Bodies(("one",), {}))


@pytest.mark.parametrize(
    ("mark", "at"),
    [
        ("from middle: 10 mm along rim at place", (-np.sqrt(50), np.sqrt(50))),
        ("from middle: 10 mm along rim at right", (0, 10)),
        ("from middle: 10 mm along rim at top", (-10, 0)),
        ("from middle: 10 mm square down from rim at place", (-np.sqrt(50), -np.sqrt(50))),
        ("from middle: 10 mm square up from rim at place", (np.sqrt(50), np.sqrt(50))),
        ("from middle: 10 mm square across from rim at right", (10, 0)),
        ("from place: 100 mm square inward from rim at place", (0, 0)),
    ],
)
def test_on_a_quarter_of_a_circle(tmp_path: Path, mark: str, at: tuple[float, float]) -> None:
    outcome = _outcome(tmp_path, mark)
    assert not outcome.trace.failures
    assert np.allclose(outcome.trace.values["quarter.mark"], [at], atol=0.05)  # the arc is a cubic


@pytest.mark.parametrize(
    ("mark", "fact"),
    [
        ("from middle: 10 mm along rim at off", "the point does not lie on the edge"),
        ("from middle: 10 mm square up from rim at off", "the point does not lie on the edge"),
        ("from middle: 10 mm square up from rim at right", "no such side there"),
    ],
)
def test_where_there_is_no_such_direction(tmp_path: Path, mark: str, fact: str) -> None:
    assert any(fact in said for _, said, _ in _outcome(tmp_path, mark).trace.failures)


def test_between_points_on_one_another_there_is_no_way_and_across_stands_in_for_it() -> None:
    here = np.array([[[30.0, 40.0], [0.0, 0.0]]])
    found, fits = WORDS["along"].run(here)
    assert not fits.any() and found.tolist() == [[1.0, 0.0]]


def test_a_point_is_no_edge(tmp_path: Path) -> None:
    with pytest.raises(Problems) as caught:
        _outcome(tmp_path, "from middle: 10 mm along top at right")
    assert "`top` is a point, but an edge is needed here" in str(caught.value)
