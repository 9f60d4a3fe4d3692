"""Orders made by Dask's workers in processes of their own, which die, join late and lose their scheduler."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from draft.base.notes import Note, Problems
from draft.orders import far_hand
from draft.orders import on_dask as asks
from draft.orders.batch import Batch, rows_of, run_batch
from draft.orders.became import Refused
from draft.orders.far_hand import Parcel, made_far
from draft.orders.hands import by_hands
from draft.orders.kept_inputs import Kept, keep_inputs
from draft.orders.on_dask import by_scheduler
from draft.orders.one_order import Order
from draft.orders.order_data import order_data
from draft.orders.orders_told import told_files
from draft.orders.same_program import program
from tests.orders.schedulers import Cluster, free_port
from tests.orders.worked import contents

pytest.importorskip("distributed")

HERS = {"waist": "83 cm", "hip": "104 cm", "stature": "168 cm"}
SMALL = {"pages": (), "widths": (), "holds": ("svg", "tables")}


def _orders(count: int) -> list[Order | Refused]:
    return [Order(f"A-{k}", "marlpit", {**HERS, "bust": f"{90.37 + k} cm"}, **SMALL) for k in range(count)]


@pytest.fixture
def cluster(tmp_path: Path) -> Iterator[Cluster]:
    (tmp_path / "dask").mkdir()
    there = Cluster(tmp_path / "dask")
    yield there
    there.close()


def _run(folder: Path, count: int, work, step: Callable[[Batch], object] = lambda batch: None) -> Batch:
    return run_batch(rows_of(_orders(count)), keep_inputs(["marlpit"], []), folder, work, step, told_files)


def test_the_folder_is_that_of_this_machines_workers(
    cluster: Cluster, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(asks, "_ALONE", 0.5)
    told: list[str] = []

    def warn(note: Note) -> None:
        told.append(note.message)
        cluster.join()

    done = _run(tmp_path / "far", 3, by_scheduler(cluster.address, 1, warn=warn))
    assert len(done.made) == 3 and told == [f"the scheduler at `{cluster.address}` has no workers; they are waited for"]
    _run(tmp_path / "here", 3, by_hands(1))
    assert contents(tmp_path / "far") == contents(tmp_path / "here")


@pytest.mark.slow
def test_workers_die_one_joins_late_and_the_scheduler_is_started_again(cluster: Cluster, tmp_path: Path) -> None:
    count = 40

    def restart() -> None:
        cluster.restart()
        cluster.join()  # workers end with their scheduler, and whoever keeps them starts others
        cluster.join()

    events = {
        4: cluster.kill_worker,
        7: cluster.join,
        12: restart,
        18: cluster.kill_worker,
        19: cluster.kill_worker,
        20: cluster.join,
        26: restart,
        33: cluster.kill_worker,
    }

    def step(batch: Batch) -> None:
        event = events.pop(batch.done, None)
        if event:
            event()

    cluster.join()
    cluster.join()
    done = _run(tmp_path / "far", count, by_scheduler(cluster.address, 1), step)
    assert not events and len(done.made) == count
    _run(tmp_path / "here", count, by_hands(2))
    assert contents(tmp_path / "far") == contents(tmp_path / "here")
    for figure in ("90.37", "91.37", "marlpit.piece"):
        assert figure not in cluster.log


def test_a_worker_of_another_version_and_no_scheduler_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    far = made_far(Kept(), Parcel({}), 1.0, "another")
    assert not far.files and far.program == program()
    monkeypatch.setattr(asks, "_CONNECT", 1.0)
    nowhere = by_scheduler(f"tcp://127.0.0.1:{free_port()}", 1)
    with pytest.raises(Problems, match="there is no scheduler at"):
        list(nowhere(Kept(), []))
    with pytest.raises(Problems, match="there is no scheduler at"):
        list(by_scheduler("not an address", 1)(Kept(), []))


def test_what_breaks_far_away_raises_nothing_and_shows_nothing() -> None:
    parcel = Parcel({"measures": {"bust": "98 cm"}})
    assert repr(parcel) == "<an order>" and "98" not in repr(parcel)
    far = made_far(Kept(), parcel, 1.0, program())
    said = far.said.opened()
    assert said["why"] == "broke" and "KeyError" in said["reasons"][0]


def test_a_worker_keeps_the_inputs_of_one_batch_and_its_hands() -> None:
    kept = keep_inputs(["marlpit"], [])
    crew = far_hand._CREW
    for key in ("1", "2"):
        far = made_far(kept, Parcel(order_data(Order(key, "marlpit", sizes=("M",), **SMALL))), 60.0, program())
        assert far.said.opened()["became"] == "made" and far.files
    (hand,) = crew._free
    assert hand.count == 2 and Path(crew._places["patterns"]["marlpit"]).is_file()
    crew.close()
    assert not crew._free and hand.process.returncode is not None
