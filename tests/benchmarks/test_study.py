"""How long a study takes and how much memory, printed by `pytest tests/benchmarks -m slow -s`; no time is asserted."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from draft.plan.library import bundled_files
from tests.outside.women import real_women

pytestmark = pytest.mark.slow

MEASURES = ("bust_girth", "waist_girth", "hip_girth", "stature", "upper_arm_girth")


def people(count: int, path: Path) -> Path:
    """A table of real women, each with every figure off by about 2 %, so that no two are alike."""
    women, rng = real_women(), np.random.default_rng(3)
    who = rng.integers(0, len(women), count)
    columns = [women.values[name][who] * (1 + rng.normal(0, 0.02, count)) / 10 for name in MEASURES]
    rows = [",".join(f"{value:.1f}" for value in row) for row in zip(*columns, strict=True)]
    path.write_text(",".join(f"{name} cm" for name in MEASURES) + "\n" + "\n".join(rows) + "\n")
    return path


GARMENTS = tuple(name for name, file in bundled_files().items() if "\npattern " in file.read_text(encoding="utf-8"))


@pytest.mark.parametrize("pattern", GARMENTS)
def test_a_study_of_each_garment(tmp_path: Path, pattern: str) -> None:
    spent, clock, peak = _study(pattern, people(10_000, tmp_path / "people.csv"), tmp_path / "out")
    print(f"\n{pattern}: 10,000 bodies, {spent:.1f} s of processors, {clock:.1f} s by the clock, at most {peak:.0f} MB")


def _study(pattern: str, table: Path, out: Path) -> tuple[float, float, float]:
    """Seconds of processors and by the clock, and the most memory in MB that any process so far has had."""
    one_core = {"OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1", **os.environ}
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    words = [sys.executable, "-m", "draft", "study", pattern, str(table), "--out", str(out)]
    subprocess.run(words, check=True, capture_output=True, env=one_core)
    after, clock = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter() - start
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return used, clock, after.ru_maxrss / 1024


@pytest.mark.parametrize(("count", "runs"), [(2_000, 5), (200_000, 1)])
def test_a_study(tmp_path: Path, count: int, runs: int) -> None:
    table = people(count, tmp_path / "people.csv")
    times, used, peak = [], [], 0.0
    for run in range(runs):
        out = tmp_path / f"out-{run}"
        spent, clock, peak = _study("marlpit", table, out)
        used.append(spent)
        times.append(clock)
        assert (out / "study.csv").read_text().count("\n") == count + 1
    said = f"{min(used):.2f} s of processors, {min(times):.2f} s by the clock"
    print(f"\nstudy of {count:,} bodies, cold, best of {runs}: {said}, at most {peak:.0f} MB a process")
