"""A folder is written wholly or not at all."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.base.output import leftovers, write_folder
from tests.command.run import Runner

FILES = {"svg/M.svg": b"new M of plainseam", "svg/L.svg": b"new L of plainseam", "pattern.pdf": b"new pdf of plainseam"}


def contents(folder: Path) -> dict[str, bytes]:
    """Every file under a folder, also those that are hidden."""
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_files_are_written_into_a_new_folder_and_over_old_ones(tmp_path: Path) -> None:
    place = tmp_path / "a" / "b"
    write_folder(place, FILES)
    assert contents(tmp_path) == {f"a/b/{name}": data for name, data in FILES.items()}
    write_folder(place, {"svg/M.svg": b"newer of plainseam"})
    assert contents(place) == {**FILES, "svg/M.svg": b"newer of plainseam"}


def full_disk(after: int) -> Callable[..., int]:
    """A writer that runs out of room after so many files."""
    written = []

    def write_bytes(path: Path, data: bytes) -> int:
        if len(written) == after:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        written.append(path)
        with path.open("wb") as file:
            return file.write(data)

    return write_bytes


@pytest.mark.parametrize("after", [0, 1, 2])
def test_a_full_disk_leaves_everything_as_it_was(after: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_folder(tmp_path, {"svg/M.svg": b"old of plainseam"})
    monkeypatch.setattr(Path, "write_bytes", full_disk(after))
    with pytest.raises(Problems, match=r"cannot be written: no space left on device; nothing was changed"):
        write_folder(tmp_path, FILES)
    assert contents(tmp_path) == {"svg/M.svg": b"old of plainseam"}


@pytest.mark.parametrize("fails", ["svg/M.svg", "svg/L.svg", "pattern.pdf"])
def test_a_file_that_cannot_be_moved_into_place_leaves_everything_as_it_was(
    fails: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = {"svg/M.svg": b"old M of plainseam", "pattern.pdf": b"old pdf of plainseam"}
    write_folder(tmp_path / "out", old)
    replace = Path.replace

    def failing(self: Path, target: Path) -> Path:
        if str(target).endswith(fails) and self.read_bytes().startswith(b"new"):
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", failing)
    with pytest.raises(Problems):
        write_folder(tmp_path / "out", FILES)
    assert contents(tmp_path) == {f"out/{name}": data for name, data in old.items()}


def test_a_folder_in_the_place_of_a_file_leaves_everything_as_it_was(tmp_path: Path) -> None:
    (tmp_path / "pattern.pdf").mkdir()
    with pytest.raises(Problems):
        write_folder(tmp_path, FILES)
    assert contents(tmp_path) == {}
    assert [path.name for path in tmp_path.iterdir()] == ["pattern.pdf"]


def test_what_was_begun_in_a_new_folder_is_taken_away_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def never(self: Path, target: Path) -> Path:
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "replace", never)
    with pytest.raises(KeyboardInterrupt):
        write_folder(tmp_path / "out", FILES)
    assert list(tmp_path.iterdir()) == []


def test_a_file_in_the_place_of_the_folder_is_told(run: Runner, tmp_path: Path) -> None:
    taken = tmp_path / "out"
    taken.write_text("a letter")
    for place in (taken, taken / "deeper"):
        ran = run("draft", "marlpit", "--sizes", "M", "--out", place)
        assert ran.code == 1
        assert f"error: `{place}` cannot be written: not a directory; nothing was changed" in ran.err
    assert taken.read_text() == "a letter"


@pytest.mark.skipif(os.geteuid() == 0, reason="whoever may do anything is refused no folder")
def test_a_folder_that_may_not_be_written_is_told(run: Runner, tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    ran = run("draft", "marlpit", "--sizes", "M", "--out", tmp_path / "out")
    tmp_path.chmod(0o700)
    assert ran.code == 1
    assert "cannot be written: permission denied" in ran.err


def test_what_an_earlier_run_left_is_told_and_kept(run: Runner, tmp_path: Path) -> None:
    assert run("draft", "marlpit", "--sizes", "M,L", "--out", tmp_path).code == 0
    ran = run("draft", "marlpit", "--sizes", "M", "--out", tmp_path)
    assert ran.code == 0
    assert "files of an earlier run are still there" in ran.err and "svg/L.svg" in ran.err
    assert (tmp_path / "svg" / "L.svg").exists()


def test_leftovers_are_files_of_the_same_sort_in_the_same_folders(tmp_path: Path) -> None:
    write_folder(tmp_path, {"svg/M.svg": b"", "svg/notes.txt": b"", "other/M.svg": b"", "tables/a.csv": b""})
    assert leftovers(tmp_path, {"svg/L.svg": b"", "tables/a.csv": b""}) == ["svg/M.svg"]
