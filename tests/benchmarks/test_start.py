"""How long a cold start takes, and steps in a warm process: `pytest tests/benchmarks -m slow -s` prints it.

Cold commands stand beside a floor: importing the libraries that they use, in the same Python. All is processor time,
the best of several; nothing is asserted of it.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from draft.base.notes import Source
from draft.checks import run
from draft.drafting.drafting import draft_plan
from draft.drafting.planned import plan_for, texts_for
from draft.drafting.request import ALL_SIZES, Request
from draft.drafting.whom import find_bodies
from draft.language.parse_tables import ready_parser
from draft.language.reader import read
from draft.paper.pages.sheet import draw_pattern
from draft.plan.make import plan_texts
from tests.project.checkout import ROOT

pytestmark = pytest.mark.slow

COLD = {
    "--version": ("click",),
    "about marlpit": ("click", "numpy", "lark"),
    "draft marlpit --sizes M --out {out}": ("click", "numpy", "lark", "shapely"),
    "pack marlpit --sizes M --page letter --out {out}": ("click", "numpy", "lark", "shapely", "pikepdf"),
    "pack marlpit --out {out}": ("click", "numpy", "lark", "shapely", "pikepdf"),
}


def test_cold_starts(tmp_path: Path) -> None:
    print("\ncold, s of both cores (by the clock)   command         only its libraries")
    for words, libraries in COLD.items():
        command = [sys.executable, "-m", "draft", *words.format(out=tmp_path).split()]
        ours = best(lambda command=command: spent(command), 5)
        floor = best(lambda names=libraries: spent([sys.executable, "-c", f"import {', '.join(names)}"]), 5)
        said = "".join(f"{cores:10.2f} ({clock:.2f})" for cores, clock in (ours, floor))
        print(f"  {words.removesuffix(' --out {out}'):36}{said}")


def test_steps_in_a_warm_process() -> None:
    ready_parser()
    tables = best(lambda: clocked(ready_parser), 5)
    source = Source("marlpit.piece", (ROOT / "pieces" / "marlpit.piece").read_text(encoding="utf-8"))
    texts = texts_for("marlpit")
    bodies, _ = find_bodies(
        ALL_SIZES, (first := plan_for(Request("marlpit"), texts)).chart, first.plan.measures, first.plan.known
    )
    rows = {"tables of the parser": tables, "an edit read": best(lambda: clocked(lambda: read(source)), 5)}
    rows["and planned"] = best(lambda: clocked(lambda: plan_texts(texts, {}, None)), 5)
    times = []
    for step in range(5):
        plan = plan_texts(texts, {"bust_ease": f"{5 + step / 10} cm"}, None)
        drafted = draft_plan(plan, bodies)
        steps: Sequence[Callable[[], object]] = (
            lambda plan=plan: draft_plan(plan, bodies),
            lambda drafted=drafted: run(drafted.garment),
            lambda drafted=drafted: draw_pattern(drafted.garment, range(len(bodies.names))),
        )
        times.append([clocked(work) for work in steps])
    names = ("another style, 7 sizes evaluated", "all checks", "lines and labels")
    rows |= {name: min(found) for name, found in zip(names, zip(*times, strict=True), strict=True)}
    print("\nwarm, ms")
    for name, seconds in rows.items():
        print(f"  {name:36}{1000 * seconds:8.1f}")


def best(work: Callable[[], Any], times: int) -> Any:
    return min(work() for _ in range(times))


def clocked(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start


def spent(command: Sequence[str]) -> tuple[float, float]:
    """Seconds of the processor, and by the clock, that a command takes with what Python has compiled before."""
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(command, cwd=ROOT, env={"OPENBLAS_NUM_THREADS": "1", **env}, check=True, capture_output=True)
    clock, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, clock
