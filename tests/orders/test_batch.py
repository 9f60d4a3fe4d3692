"""A batch may be stopped anywhere and goes on: every order is there once and whole, and the folder is the same."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.alone import alone
from draft.base.notes import Problems
from draft.orders import batch as batches
from draft.orders.batch import Row, rows_of, run_batch
from draft.orders.became import Made, Refused
from draft.orders.hands import Answer
from draft.orders.kept_inputs import Kept
from draft.orders.one_order import Order
from draft.orders.orders_told import told_files, told_words
from tests.orders.worked import KEPT, answered, at_once, contents, orders


def _run(folder: Path, work=at_once, count: int = 12, kept: Kept = KEPT) -> batches.Batch:
    return run_batch(rows_of(orders(count)), kept, folder, work, tables=told_files)


def test_every_order_is_there_once_with_what_became_of_it(tmp_path: Path) -> None:
    done = _run(tmp_path / "out")
    made = {one.key for one in done.made}
    assert {path.name for path in (tmp_path / "out").iterdir() if path.is_dir()} == made
    assert done.done == 12 and {"A-4", "A-6", "A-9"}.isdisjoint(made) and "A-0" in made
    text = (tmp_path / "out" / "orders.csv").read_text()
    assert '3,A-2,top,made,,,A-2,3 of a4,"0.90 m, 140 cm (56 in) wide",stature,mind it,2,' in text
    assert "5,A-4,top,refused,it does not fit,take another" in text and "7,A-6,,refused,no such style" in text
    assert "9 of 12 orders are made" in told_words(done)


class _StoppedError(BaseException):
    """As a kill is: nothing in between hears of it but `finally`."""


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(0, 40), max_size=6), st.permutations(range(12)))
def test_stopped_at_any_step_it_goes_on_to_the_same_folder(tmp_path_factory, undisturbed, stops, way) -> None:
    """Each step that touches the disk may be the last one of a run; orders may come in any order of time."""
    folder = tmp_path_factory.mktemp("stopped")

    def mixed(kept: Kept, some: Iterable[Order]) -> Iterator[Answer]:
        by_time = sorted(some, key=lambda one: way[int(one.key.rpartition("-")[2])])
        return iter([answered(one) for one in by_time for _ in range(2)])  # work may run twice

    for stop in stops:
        with pytest.MonkeyPatch.context() as patched:
            _stop_after(patched, stop)
            try:
                _run(folder, mixed)
            except _StoppedError:
                continue
    assert _run(folder, mixed).done == 12
    assert contents(folder) == undisturbed


@pytest.fixture(scope="module")
def undisturbed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    folder = tmp_path_factory.mktemp("whole")
    _run(folder)
    return contents(folder)


def _stop_after(patched: pytest.MonkeyPatch, steps: int) -> None:
    left = [steps]

    def counted(step):
        def stepped(*words):
            if not left[0]:
                raise _StoppedError
            left[0] -= 1
            return step(*words)

        return stepped

    patched.setattr(os, "fsync", counted(lambda handle: None))
    patched.setattr(Path, "rename", counted(Path.rename))
    patched.setattr(Path, "replace", counted(Path.replace))


def test_the_keyboards_interrupt_stops_it_quietly_with_its_tables(tmp_path: Path) -> None:
    def interrupted(kept: Kept, some: Iterable[Order]) -> Iterator[Answer]:
        yield answered(next(iter(some)))
        raise KeyboardInterrupt

    done = _run(tmp_path, interrupted)
    assert done.stopped and "A-1,top,waits" in (tmp_path / "orders.csv").read_text()
    assert "wait: the same command goes on" in told_words(done)
    assert not _run(tmp_path).stopped


def test_a_full_disk_is_told_and_leaves_nothing_half_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out, whole = tmp_path / "out", tmp_path / "whole"
    _run(whole)
    put, left = batches._put, [5]

    def full(place: Path, data: bytes) -> None:
        left[0] -= 1
        if left[0] < 0:
            place.write_bytes(data[: len(data) // 2])
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        put(place, data)

    with monkeypatch.context() as patched:
        patched.setattr(batches, "_put", full)
        with pytest.raises(Problems) as told:
            _run(out)
    (note,) = told.value.notes
    assert "no space left" in note.message and "kept and whole" in note.message and "goes on" in note.hints[0]
    assert _made_in(out) == ["A-0", "A-1"]
    assert _run(out).before and contents(out) == contents(whole)


def _made_in(folder: Path) -> list[str]:
    """Packs, all of which are whole."""
    found = sorted(path for path in folder.iterdir() if path.is_dir())
    assert all((path / "pattern.pdf").read_bytes() and (path / "svg" / "one.svg").is_file() for path in found)
    return [path.name for path in found]


def test_other_inputs_are_refused_and_orders_may_be_added(tmp_path: Path) -> None:
    _run(tmp_path, count=5)
    edited = Kept({"pattern-0/top.piece": b"pattern top # edited"}, KEPT.patterns)
    with pytest.raises(Problems, match=r"not as it was when the orders in .* were begun: `top/top\.piece`"):
        _run(tmp_path, count=5, kept=edited)
    with pytest.raises(Problems, match="another table, or with other options"):
        _run(tmp_path, count=4)
    other = [Row(1, Order("A-0", "top", {"bust": "91 cm"})), *rows_of(orders(5))[1:]]
    with pytest.raises(Problems, match="another table"):
        run_batch(other, KEPT, tmp_path, at_once)
    done = _run(tmp_path, count=9)
    assert done.before == 5 and done.done == 9
    with_one_more = Kept(
        {**KEPT.files, "pattern-1/skirt.piece": b"x"}, {**KEPT.patterns, "skirt": "pattern-1/skirt.piece"}
    )
    assert _run(tmp_path, count=9, kept=with_one_more).done == 9


def test_another_version_of_the_program_begins_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _run(tmp_path)
    monkeypatch.setattr(batches, "program", lambda: "another")
    with pytest.raises(Problems, match="another version"):
        _run(tmp_path)


def test_what_broke_off_is_tried_again(tmp_path: Path) -> None:
    def broken(kept: Kept, some: Iterable[Order]) -> Iterator[Answer]:
        return (Answer(Refused(one.key, ("it took longer",), why="broke"), {}) for one in some)

    out, whole = tmp_path / "out", tmp_path / "whole"
    _run(whole)
    assert "broke off" in told_words(_run(out, broken))
    assert len(_run(out).made) == 9
    assert contents(out) == contents(whole)


def test_nothing_of_somebody_elses_is_written_over(tmp_path: Path) -> None:
    (tmp_path / "A-0").mkdir()
    done = _run(tmp_path)
    assert isinstance(done.became["A-0"], Refused) and not list((tmp_path / "A-0").iterdir())
    assert "has not made it" in done.became["A-0"].reasons[0]
    other = tmp_path / "other"
    other.mkdir()
    (other / "orders.csv").write_text("my own")
    with pytest.raises(Problems, match="no batch of orders was begun"):
        _run(other)
    assert (other / "orders.csv").read_text() == "my own"
    (other / "orders.csv").rename(other / "orders.journal")
    (other / "orders.journal").write_text("my own\n")
    with pytest.raises(Problems, match="is no journal of orders"):
        _run(other)


def test_a_pack_that_was_taken_away_is_made_again_and_a_changed_one_is_told(tmp_path: Path) -> None:
    _run(tmp_path)
    whole = contents(tmp_path)
    for name in ("pattern.pdf", "svg/one.svg"):
        (tmp_path / "A-1" / name).unlink()
    (tmp_path / "A-1" / "svg").rmdir()
    (tmp_path / "A-1").rmdir()
    (tmp_path / "A-2" / "pattern.pdf").write_text("scribbled over, and longer than it was")
    done = _run(tmp_path)
    assert done.changed == ["A-2"] and "A-2; move a folder away" in told_words(done)
    assert contents(tmp_path)["A-1/pattern.pdf"] == whole["A-1/pattern.pdf"]


def test_two_runs_into_one_folder_do_not_meet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(batches, "_WAIT", 0.0)
    with alone(tmp_path), pytest.raises(Problems, match="another run is writing"):
        _run(tmp_path)


@pytest.mark.parametrize(
    ("keys", "named"),
    [
        (["7", "7", "7"], ["7", "7-2", "7-3"]),
        (["con", "a/b", "../x", "Ä"], ["order-con", "a-b", "x", "Ä"]),
        (["orders.csv", "ORDERS.CSV", "sha256sums", ""], ["orders.csv-2", "ORDERS.CSV-3", "sha256sums-2", "order"]),
        (["x" * 300], ["x" * 120]),
    ],
)
def test_folders_are_named_safely_and_each_once(keys: list[str], named: list[str]) -> None:
    assert [row.order.key for row in rows_of([Order(key, "top") for key in keys])] == named


def test_made_and_refused_say_which_they_are() -> None:
    assert Made("a", "a", ()).is_made and not Refused("a", ()).is_made
