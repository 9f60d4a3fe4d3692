"""What forms and the room on them take: `pytest tests/benchmarks/test_form_speed.py -m slow -s` prints it.

Aims: 2 ms of the processor for a form over a survey, 5 ms for the room of a garment on one.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import pytest

from draft.fit.room_on_form import room_on_form
from draft.form import form_of
from draft.paper.pictures.fit_drawing import fit_drawing
from tests.asking import bundled
from tests.outside.drawn_women import drawn_women

pytestmark = pytest.mark.slow


def _best(work: Callable[[], object], runs: int = 7) -> float:
    """Milliseconds of the processor, of the quickest of several runs."""
    found = []
    for _ in range(runs):
        start = time.process_time()
        work()
        found.append((time.process_time() - start) * 1e3)
    return min(found)


def test_forms_and_room() -> None:
    women, drafted = drawn_women(990), bundled("marlpit")
    form = form_of(drafted.bodies, drafted.plan.wearers)
    assert form is not None
    rows = [
        ("a form, over 990 women", _best(lambda: form_of(women), 3) / len(women)),
        ("a form, of the chart's seven", _best(lambda: form_of(drafted.bodies, drafted.plan.wearers)) / 7),
        ("the room at 50 levels", _best(lambda: room_on_form(drafted.garment, form, 2))),
        ("the drawing with it", _best(lambda: fit_drawing(drafted.garment, form, 2))),
    ]
    for name, ms in rows:
        print(f"{name:32}{ms:8.2f} ms")
