"""One size of many pieces: with the solver beside our own search, and in chains where there is none."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from draft.cloth import nest
from draft.cloth.bolt import Cloth
from draft.cloth.effort import Effort
from draft.cloth.verify import faults
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from draft.laying import lay_sizes as module
from draft.laying.lay_sizes import lay_at_best, lay_sizes, sizes_of
from tests.asking import asked
from tests.large import coat

CLOTH = Cloth(1473.2)
SPENT = Effort(700, 2, 300, hopeful=1.0)


@pytest.fixture(scope="module")
def garment(tmp_path_factory: pytest.TempPathFactory) -> Garment:
    folder = tmp_path_factory.mktemp("coat")
    chart = Path(__file__).parents[2] / "pieces" / "women.csv"
    (folder / "women.csv").write_bytes(chart.read_bytes())
    (folder / "coat.piece").write_text(coat(18), encoding="utf-8")
    return draft_and_check(asked(folder / "coat.piece", sizes=["M"])).garment


def test_without_the_solver_the_lay_is_no_longer_and_always_the_same(
    garment: Garment, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(nest, "installed", lambda: False)
    monkeypatch.setattr(module, "CHAINS", 2)
    sizes_of.cache_clear()
    ((usual,),) = lay_sizes(garment, [CLOTH], SPENT)
    found = []
    for _ in range(2):
        sizes_of.cache_clear()
        ((need,),), notes = lay_at_best(garment, [CLOTH], SPENT)
        assert not notes and faults(need.lay, sizes_of(garment)[0].cut_pieces) == []
        found.append(need.lay)
    assert found[0].length < usual.length
    assert [one.move for one in found[0].placements] == [one.move for one in found[1].placements]
    (_, _), _ = lay_at_best(garment, [CLOTH, replace(CLOTH, width=1500.0)], SPENT)  # of several nothing more is asked


def test_with_the_solver_it_is_no_longer_than_our_own(garment: Garment, monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("spyrrow")
    monkeypatch.setattr(module, "SOLVED_IN", 1.0)
    sizes_of.cache_clear()
    ((own,),) = lay_sizes(garment, [CLOTH], SPENT)
    sizes_of.cache_clear()
    ((need,),), notes = lay_at_best(garment, [CLOTH], SPENT)
    assert need.lay.length <= own.lay.length and faults(need.lay, sizes_of(garment)[0].cut_pieces) == []
    assert len(notes) == (need.lay.length < own.lay.length)
