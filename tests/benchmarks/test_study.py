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


@pytest.mark.parametrize(("count", "runs"), [(2_000, 5), (200_000, 1)])
def test_a_study(tmp_path: Path, count: int, runs: int) -> None:
    table = people(count, tmp_path / "people.csv")
    one_core = {"OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1", **os.environ}
    times, used = [], []
    for run in range(runs):
        out = tmp_path / f"out-{run}"
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        start = time.perf_counter()
        words = [sys.executable, "-m", "draft", "study", "marlpit", str(table), "--out", str(out)]
        subprocess.run(words, check=True, capture_output=True, env=one_core)
        times.append(time.perf_counter() - start)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        used.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
        assert (out / "study.csv").read_text().count("\n") == count + 1
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    spent = f"{min(used):.2f} s of one core, {min(times):.2f} s by the clock"
    print(f"\nstudy of {count:,} bodies, cold, best of {runs}: {spent}, at most {peak:.0f} MB")
