"""`on A to B: 30 % from A` is a share of the line, `on A to B: 30 mm from A` a length along it; so too on an edge."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.bodies.bodies import Bodies
from draft.solve import evaluate
from tests.written import make_plan

TEXT = """
pattern p
    title "p"

piece square
    points
        a    at 0, 0
        b    at 200 mm, 0
        c    at 200 mm, 200 mm
        d    at 0, 200 mm
        mark {place}
    outline
        low    a to b   straight
        right  b to c   straight
        high   c to d   straight
        left   d to a   straight
    cut 1
"""


@pytest.mark.parametrize(
    ("place", "across"),
    [
        ("on a to b: 30 % from a", 60.0),
        ("on a to b: 30 % from b", 140.0),
        ("on a to b: 30 mm from a", 30.0),
        ("on a to b: 120 % from a", 240.0),
        ("on low: 30 % from a", 60.0),
        ("on low: 30 % from b", 140.0),
        ("on low: 30 mm from b", 170.0),
        ("on low: 0 from b", 200.0),
        ("on low: length of low from a", 200.0),
    ],
)
def test_a_share_and_a_length(tmp_path: Path, place: str, across: float) -> None:
    path = tmp_path / "p.piece"
    path.write_text(TEXT.format(place=place))
    outcome = evaluate(make_plan(path), Bodies(("one",), {}))
    assert not outcome.trace.failures
    assert np.allclose(outcome.trace.values["square.mark"], [[across, 0.0]])


@pytest.mark.parametrize("place", ["on low: 200.01 mm from a", "on low: 101 % from a", "on low: -0.01 mm from a"])
def test_a_place_past_the_end_is_refused(tmp_path: Path, place: str) -> None:
    path = tmp_path / "p.piece"
    path.write_text(TEXT.format(place=place))
    assert evaluate(make_plan(path), Bodies(("one",), {})).trace.failures
