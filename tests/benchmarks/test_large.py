"""Large garments beside their floors: `pytest tests/benchmarks/test_large.py -m slow -s` prints the tables.

Nothing is asserted of times or memory, which are the machine's; that the packs and lays are there is. The general
solver is spyrrow, from the registry, with a minute; where it is not installed its column is empty.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
from pathlib import Path

import pytest

from draft.cloth import nest
from draft.cloth.batches import Shelf, open_batches
from draft.cloth.bolt import Cloth
from draft.cloth.effort import Effort, effort
from draft.cloth.lays import best_lay
from draft.cloth.needs import Size
from draft.drafting.checked import draft_and_check
from draft.laying.lay_sizes import sizes_of
from tests.asking import asked
from tests.large import coat, fine_edge, triangles

pytestmark = pytest.mark.slow
WIDTH = 1473.2
MINUTE = 60


def written(folder: Path, name: str, text: str) -> Path:
    chart = Path(__file__).parents[2] / "pieces" / "women.csv"
    (folder / "women.csv").write_bytes(chart.read_bytes())
    path = folder / f"{name}.piece"
    path.write_text(text, encoding="utf-8")
    return path


def measured(*words: str) -> tuple[float, float, float]:
    """Seconds by the clock and of processors, and the most MB that one process of it took."""
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    command = [sys.executable, "-c", _PEAK, *words]
    run = subprocess.run(command, check=True, capture_output=True, text=True, env=os.environ | {"COLUMNS": "200"})
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return time.perf_counter() - start, spent, float(run.stdout.splitlines()[-1])


_PEAK = (
    "import resource, sys, subprocess\n"
    "subprocess.run([sys.executable, '-m', 'draft', *sys.argv[1:]], check=True, stdout=subprocess.DEVNULL)\n"
    "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024)"
)


def test_packs_of_large_garments(tmp_path: Path) -> None:
    patterns = {f"{n} triangles": triangles(n) for n in (30, 60, 120)}
    patterns |= {f"a coat of {n}": coat(n) for n in (40, 120)}
    patterns |= {f"{n} points": fine_edge(n) for n in (50, 200)}
    patterns |= {f"{n} in a zigzag": fine_edge(n, zigzag=True) for n in (50, 200)}
    print(f"\n{'pack, all sizes':18} {'s':>6} {'CPU s':>6} {'MB':>5}")
    for name, text in patterns.items():
        folder = tmp_path / name.replace(" ", "-")
        folder.mkdir()
        out = folder / "pack"
        clock, spent, most = measured("pack", str(written(folder, "large", text)), "--out", str(out))
        assert (out / "booklet.pdf").stat().st_size > 10_000
        print(f"{name:18} {clock:6.1f} {spent:6.1f} {most:5.0f}")


def test_lays_of_many_pieces(tmp_path: Path) -> None:
    """One size, open on cloth of 58 in: our own, the solver's first seconds settled, and what it finds in a minute."""
    print(f"\n{'size M, open':14} {'ours m':>7} {'s':>5} {'solver 3 s':>10} {'60 s':>7}   ours over  best over")
    for count in (40, 120):
        size = size_m(tmp_path, count)
        start = time.perf_counter()
        ours = best_lay(size.cut_pieces, Cloth(WIDTH), effort("usual"), Shelf(), foldings=("open",))
        spent = time.perf_counter() - start
        assert ours is not None
        line = f"{f'{count} pieces':14} {ours.length / 1000:7.3f} {spent:5.1f}"
        if nest.installed():
            soon = nest.nested(size.cut_pieces, Cloth(WIDTH), Effort(outside=3), Shelf())
            late = minute(size)
            best = min(lay.length for lay in (ours, soon) if lay)
            line += f" {soon.length / 1000 if soon else float('nan'):10.3f} {late / 1000:7.3f}"
            line += f"   {ours.length / late - 1:+9.1%}   {best / late - 1:+9.1%}"
        print(line)


def size_m(folder: Path, count: int) -> Size:
    return sizes_of(draft_and_check(asked(written(folder, f"coat{count}", coat(count)), sizes=["M"])).garment)[0]


def minute(size: Size) -> float:
    """The length that the general solver finds in a minute, mm."""
    batches = open_batches(size.cut_pieces, Shelf(), False)
    answer = nest._solve(batches, WIDTH, MINUTE, workers=2)
    assert answer
    placed = [nest._wanted(batches, one, WIDTH) for one in answer]
    return max(one.y + float(one.shape.high[1]) for one in placed)
