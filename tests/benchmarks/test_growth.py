"""How garments take longer with their pieces and lines: `pytest tests/benchmarks/test_growth.py -m slow -s` prints it.

Times are of the processor, the best of some; nothing is asserted of them, but that the garments come out.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from draft.base.notes import Source
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.drafting.assembling import assemble
from draft.drafting.checked import draft_and_check
from draft.language.reader import read
from draft.plan.library import chart_of, read_texts
from draft.plan.make import plan_texts
from draft.seams.walk import walk_seams
from draft.solve.evaluate import evaluate
from tests.asking import asked
from tests.benchmarks.test_large import measured, written
from tests.large import coat

pytestmark = pytest.mark.slow
PIECES = (5, 10, 25, 50)


def best(work: Callable[[], object], runs: int = 5) -> float:
    """The least processor time of some runs, s."""
    found = []
    for _ in range(runs):
        start = time.process_time()
        work()
        found.append(time.process_time() - start)
    return min(found)


def crowd(chart: Bodies, count: int) -> Bodies:
    """So many bodies about the middle of a chart, every figure off by about 3 %."""
    rng, middle = np.random.default_rng(5), len(chart) // 2
    values = {name: row[middle] * (1 + rng.normal(0, 0.03, count)) for name, row in chart.values.items()}
    return Bodies(tuple(f"body {k}" for k in range(count)), values)


def test_garments_of_5_to_50_pieces(tmp_path: Path) -> None:
    print(f"\n{'pieces':>6} {'lines':>6} {'read+plan ms':>12} {'draft ms':>9} {'walk ms':>8} {'pack M, s':>10}", end="")
    print(f" {'ms a piece: read+plan':>20} {'draft':>6} {'walk':>6} {'pack':>7}")
    for count in PIECES:
        text = coat(count)
        path = written(tmp_path, f"coat{count}", text)
        lines = text.count("\n")
        source = Source(path.name, text)
        read_and_plan = best(lambda: (read(source), plan_texts(read_texts(path), {})))  # noqa: B023
        reading = best(lambda: read(source))  # noqa: B023 - what stands in both is counted once
        drafted = draft_and_check(asked(path))
        drafting = best(lambda: draft_and_check(asked(path)), 3) - (read_and_plan - reading)  # noqa: B023
        walking = best(lambda: walk_seams(drafted.garment))  # noqa: B023
        assert len(drafted.garment.pieces) == count
        packing = measured("pack", str(path), "--sizes", "M", "--out", str(tmp_path / str(count)))[1]
        times = (read_and_plan - reading, drafting, walking, packing)
        print(f"{count:6} {lines:6} {times[0] * 1e3:12.0f} {drafting * 1e3:9.0f} {walking * 1e3:8.1f}", end="")
        a_piece = " ".join(f"{spent / count * 1e3:7.1f}" for spent in times)
        print(f" {packing:10.1f} {'':12} {a_piece}")


def test_a_thousand_bodies_of_25_pieces(tmp_path: Path) -> None:
    path = written(tmp_path, "coat", coat(25))
    texts = read_texts(path)
    plan = plan_texts(texts, {})
    chart = chart_of(texts)
    assert chart
    bodies = crowd(read_chart(chart), 1000)
    outcome = evaluate(plan, bodies)
    assert outcome.drafted.all()
    alone = best(lambda: evaluate(plan, bodies), 3)
    whole = best(lambda: walk_seams(assemble(plan, evaluate(plan, bodies))[0]), 3)
    print(
        f"\n1,000 bodies of 25 pieces: points and edges {alone:.2f} s, with notches, trueing and the walk {whole:.2f} s"
    )


@pytest.mark.parametrize("name", ["marlpit", "coat of 300 lines"])
def test_reading_and_planning_300_lines(tmp_path: Path, name: str) -> None:
    bundled = Path(__file__).parents[2] / "pieces" / "marlpit.piece"
    path = bundled if name == "marlpit" else written(tmp_path, "coat", coat(43))
    lines = path.read_text(encoding="utf-8").count("\n")
    plan_texts(read_texts(path), {})
    spent = best(lambda: plan_texts(read_texts(path), {}), 9)
    print(
        f"\n{name}, {lines} lines: read and planned in {spent * 1e3:.0f} ms, {spent / lines * 300 * 1e3:.0f} ms for 300"
    )
