"""Any path may be asked about: what cannot be there is not there, and nothing raises."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from draft.base.disk import files_in, is_beside, is_file, is_there
from draft.base.notes import Problems
from draft.base.opening import words_of
from draft.base.textfile import LARGEST, read_data, read_source

ODD = ["x" * 300, "a\0b", "\ud800", "x/" * 3000]


@pytest.mark.parametrize("name", ODD)
def test_a_path_that_no_system_takes_is_nowhere(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    assert not is_there(path) and not is_file(path) and not is_beside(path, tmp_path) and files_in(path, "") == []
    with pytest.raises(Problems, match=r"cannot be read: (file name too long|no file can have such a name)"):
        read_data(path, "pattern")


def test_what_may_not_be_looked_at_is_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(self: Path) -> os.stat_result:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "lstat", refuse)
    assert is_there(tmp_path / "secret")


def test_files_are_listed_by_name_and_folders_are_not(tmp_path: Path) -> None:
    for name in ("b.csv", "a.csv", "c.txt"):
        (tmp_path / name).write_text("")
    (tmp_path / "d.csv").mkdir()
    assert [path.name for path in files_in(tmp_path, ".csv")] == ["a.csv", "b.csv"]
    assert files_in(tmp_path / "none", ".csv") == []


def test_a_file_behind_a_link_to_elsewhere_is_not_beside(tmp_path: Path) -> None:
    (tmp_path / "here").mkdir()
    (tmp_path / "other.csv").write_text("")
    (tmp_path / "here" / "link.csv").symlink_to(tmp_path / "other.csv")
    assert is_beside(tmp_path / "other.csv", tmp_path)
    assert not is_beside(tmp_path / "here" / "link.csv", tmp_path / "here")


def test_the_words_of_a_system_are_said_small() -> None:
    assert words_of(OSError(28, "No space left on device")) == "no space left on device"
    assert words_of(ValueError("embedded null byte")) == "no file can have such a name"


@pytest.mark.skipif(os.name != "posix", reason="a system without named pipes")
def test_a_pipe_is_refused_without_waiting_for_it(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.csv")
    for path in (tmp_path / "pipe.csv", Path("/dev/zero")):
        with pytest.raises(Problems, match="is a pipe or a device, not a file"):
            read_data(path, "size chart")


def test_a_large_file_is_refused_before_it_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    large = tmp_path / "large.piece"
    with large.open("wb") as file:
        file.truncate(2_000_000_000)  # a hole: it takes no room
    monkeypatch.setattr("draft.base.textfile.os.fstat", _unread(os.fstat))
    with pytest.raises(Problems, match="is over 1 MB, too large for a pattern"):
        read_source(large, "pattern")
    large.write_bytes(b"#" * LARGEST)
    assert len(read_data(large, "pattern")) == LARGEST


def _unread(fstat: object) -> object:
    """`fstat`, which also sees to it that a file has not been read by then."""

    def look(number: int) -> os.stat_result:
        assert os.lseek(number, 0, os.SEEK_CUR) == 0
        return fstat(number)  # type: ignore[operator,no-any-return]

    return look
