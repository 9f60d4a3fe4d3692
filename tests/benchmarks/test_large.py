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
from draft.cloth.effort import effort
from draft.cloth.needs import Size
from draft.cloth.verify import faults
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from draft.laying.lay_sizes import lay_at_best, sizes_of
from tests.asking import asked
from tests.large import coat, fine_edge, triangles

pytestmark = pytest.mark.slow
WIDTH = 1473.2
MINUTE = 60
FLOORS = {40: 4.950, 120: 15.049}
"""The shortest open lays, m, that the solver has found in a minute with both processors of an idle machine."""


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


@pytest.mark.parametrize("count", FLOORS)
def test_lays_of_many_pieces(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, count: int) -> None:
    """One size on cloth of 58 in, as `lay` lays it: by our own search alone, with the solver; the solver's minute."""
    garment = garment_m(tmp_path, count)
    found = {}
    for there in (False, True):
        if there and not nest.installed():
            break
        with monkeypatch.context() as patch:
            patch.setattr(nest, "installed", lambda there=there: there)
            sizes_of.cache_clear()
            start, spent = time.perf_counter(), time.process_time()
            ((need,),), _ = lay_at_best(garment, [Cloth(WIDTH)], effort("usual"))
            found[there] = need.length / 1000, time.perf_counter() - start, time.process_time() - spent
            assert faults(need.lay, sizes_of(garment)[0].cut_pieces) == []
    heads = ("ours m", "s", "CPU s", "with solver", "s", "60 s", "ours over", "best over")
    print("\n" + " ".join([f"{'size M':10}", *(f"{head:>11}" for head in heads)]))
    floor, cells = FLOORS[count], [f"{figure:.{3 - 2 * (k > 0)}f}" for k, figure in enumerate(found[False])]
    if True in found:
        floor = min(floor, minute(sizes_of(garment)[0]) / 1000)
        cells += [f"{found[True][0]:.3f}", f"{found[True][1]:.1f}"]
    cells += [f"{floor:.3f}", *(f"{length / floor - 1:+.1%}" for length, *_ in found.values())]
    print(" ".join([f"{f'{count} pieces':10}", *(f"{cell:>11}" for cell in cells)]))


def garment_m(folder: Path, count: int) -> Garment:
    return draft_and_check(asked(written(folder, f"coat{count}", coat(count)), sizes=["M"])).garment


def minute(size: Size) -> float:
    """The length that the general solver finds in a minute, mm."""
    batches = open_batches(size.cut_pieces, Shelf(), False)
    answer = nest._solve(batches, WIDTH, MINUTE, workers=2)
    assert answer
    placed = [nest._wanted(batches, one, WIDTH) for one in answer]
    return max(one.y + float(one.shape.high[1]) for one in placed)
