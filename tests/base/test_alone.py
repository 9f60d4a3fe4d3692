"""Two runs never write into one place at once, and what a run that was killed left behind is taken away by the next."""

from __future__ import annotations

import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from draft.base import alone as locks
from draft.base.alone import MARK, PREFIX, alone, workplace
from draft.base.notes import Problems
from draft.base.output import replace_file, write_folder

HOLDING = """
import sys, time
from pathlib import Path
from draft.base.alone import alone, workplace
with alone(Path(sys.argv[1])), workplace(Path(sys.argv[1])) as made:
    (made / "half.pdf").write_bytes(b"half")
    print("at work", flush=True)
    time.sleep(600)
"""


@pytest.fixture(autouse=True)
def own_locks(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Locks of this test, away from those of other runs on the machine."""
    place = str(tmp_path_factory.mktemp("locks"))
    monkeypatch.setenv("TMPDIR", place)
    monkeypatch.setattr(locks.tempfile, "gettempdir", lambda: place)


@contextmanager
def another_run(folder: Path) -> Iterator[subprocess.Popen[str]]:
    """A run that is writing into the folder and does not end."""
    with subprocess.Popen([sys.executable, "-c", HOLDING, folder], stdout=subprocess.PIPE, text=True) as run:
        try:
            assert run.stdout and run.stdout.readline() == "at work\n"
            yield run
        finally:
            run.kill()


def left_in(folder: Path) -> list[str]:
    return [path.name for path in folder.iterdir() if path.name.startswith(PREFIX)]


def test_a_second_run_waits_and_says_so(tmp_path: Path) -> None:
    with another_run(tmp_path) as run:
        with pytest.raises(Problems) as caught, alone(tmp_path / "." / "", wait=0.2):
            raise AssertionError("two at once")
        assert f"another run is writing into `{tmp_path}`" in caught.value.notes[0].message
        with alone(tmp_path / "other", wait=0.2):
            pass
        run.send_signal(signal.SIGKILL)
        run.wait()
        with alone(tmp_path, wait=5):  # nothing blocks once it is dead
            pass


def test_a_second_run_goes_on_once_the_first_has_ended(tmp_path: Path) -> None:
    with another_run(tmp_path) as run:
        soon = subprocess.Popen([sys.executable, "-c", f"import os, time; time.sleep(0.5); os.kill({run.pid}, 9)"])
        write_folder(tmp_path, {"a.txt": b"a"})
        soon.wait()
    assert (tmp_path / "a.txt").read_bytes() == b"a"


def test_what_a_killed_run_left_is_swept_and_what_a_living_one_has_is_not(tmp_path: Path) -> None:
    with another_run(tmp_path) as run:
        (left,) = left_in(tmp_path)
        with workplace(tmp_path) as made:
            assert set(left_in(tmp_path)) == {left, made.name}
        run.kill()
        run.wait()
        assert left_in(tmp_path) == [left] and (tmp_path / left / "half.pdf").exists()
        write_folder(tmp_path / "deeper", {"a.txt": b"a"})
        assert left_in(tmp_path) == []


def test_what_is_not_surely_ours_stays(tmp_path: Path) -> None:
    (tmp_path / f"{PREFIX}notes").mkdir()
    (tmp_path / f"{PREFIX}notes" / "mine.txt").write_text("mine")
    (tmp_path / f"{PREFIX}file").write_text("mine")
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / MARK).write_text("")
    (tmp_path / f"{PREFIX}link").symlink_to(elsewhere)
    write_folder(tmp_path, {"a.txt": b"a"})
    assert sorted(left_in(tmp_path)) == [f"{PREFIX}file", f"{PREFIX}link", f"{PREFIX}notes"]
    assert (elsewhere / MARK).exists() and (tmp_path / f"{PREFIX}notes" / "mine.txt").exists()


def test_where_no_locks_can_be_had_files_are_written_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    foreign = Path(locks.tempfile.gettempdir())
    shutil.rmtree(foreign)
    foreign.write_text("no folder")
    write_folder(tmp_path, {"a.txt": b"a"})
    replace_file(tmp_path / "a.txt", b"b")
    assert (tmp_path / "a.txt").read_bytes() == b"b"


def test_a_folder_of_locks_that_is_a_link_is_not_used(tmp_path: Path) -> None:
    aim = tmp_path / "aim"
    aim.mkdir()
    place = Path(locks.tempfile.gettempdir())
    with alone(tmp_path):
        pass
    (own,) = place.iterdir()
    shutil.rmtree(own)
    own.symlink_to(aim)
    with alone(tmp_path):
        assert list(aim.iterdir()) == []


def test_waiting_takes_no_longer_than_it_must(tmp_path: Path) -> None:
    begun = time.process_time()
    with another_run(tmp_path), pytest.raises(Problems), alone(tmp_path, wait=1):
        pass
    assert time.process_time() - begun < 5
