"""How long the main jobs take and how much memory: `pytest tests/benchmarks -m slow -s` prints it. Nothing is asserted
of the times, which are the machine's; the results are looked at, so that nothing is fast by doing nothing."""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.drafting.drafting import draft_plan
from draft.plan.library import find
from draft.seams.walk import walk_seams
from tests.pieces.wearing import whole
from tests.written import make_plan

pytestmark = pytest.mark.slow

WOMEN = Path(__file__).parents[2] / "pieces" / "women.csv"


def test_cold_pack(tmp_path: Path) -> None:
    times = []
    for run in range(5):
        folder = tmp_path / str(run)
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "draft", "pack", "marlpit", "--out", str(folder)], check=True, capture_output=True
        )
        times.append(time.perf_counter() - start)
        assert (folder / "pattern-letter.pdf").stat().st_size > 10_000
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"\npack marlpit, cold, 5 runs: {min(times):.2f} s to {max(times):.2f} s, at most {peak:.0f} MB")


def test_a_thousand_bodies() -> None:
    plan = make_plan(find("marlpit"))
    bodies = whole(plan, between_sizes(1000))
    times = []
    for _ in range(5):
        start = time.perf_counter()
        drafted = draft_plan(plan, bodies)
        walked = walk_seams(drafted.garment)
        times.append(time.perf_counter() - start)
    assert drafted.outcome.drafted.all()
    assert all(np.all(np.abs(w.difference) < 0.5) for w in walked)
    print(f"\n1,000 bodies drafted and walked, 5 runs: {min(times):.2f} s to {max(times):.2f} s")


def between_sizes(count: int) -> Bodies:
    """Bodies spread evenly through the chart, between its sizes."""
    chart = read_chart(WOMEN)
    places = np.linspace(0, len(chart) - 1, count)
    values = {name: np.interp(places, range(len(chart)), row) for name, row in chart.values.items()}
    return Bodies(tuple(f"body {k}" for k in range(count)), values)
