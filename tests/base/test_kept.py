"""What is kept for the next start is used only where it is whole, of the same making, and nobody else's."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import platformdirs
import pytest

from draft.base.kept import keep, recalled, sealed, unsealed

KEY = "a" * 64
DATA = b"tables\nof two lines"


@pytest.fixture(autouse=True)
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A user's own folder for what is kept, not there yet."""
    folder = tmp_path / "home" / "cache"
    monkeypatch.setattr(platformdirs, "user_cache_path", lambda *_, **__: folder)
    return folder


def kept_file(place: Path) -> Path:
    (found,) = place.iterdir()
    return found


def test_what_was_kept_is_found_again_under_its_key_alone() -> None:
    assert recalled("things", KEY) is None
    keep("things", KEY, DATA)
    assert recalled("things", KEY) == DATA
    assert recalled("things", "b" * 64) is None and recalled("others", KEY) is None


def test_another_key_that_begins_alike_finds_the_file_and_does_not_use_it() -> None:
    keep("things", KEY, DATA)
    assert recalled("things", KEY[:-1] + "b") is None


@pytest.mark.parametrize("length", [0, 10, 64, 129, 130, -1])
def test_half_a_file_is_as_none(place: Path, length: int) -> None:
    keep("things", KEY, DATA)
    file = kept_file(place)
    file.write_bytes(file.read_bytes()[:length])
    assert recalled("things", KEY) is None


def test_every_changed_byte_is_noticed() -> None:
    whole = sealed(KEY, DATA)
    for place in range(len(whole)):
        changed = whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :]
        assert unsealed(KEY, changed) is None


@pytest.mark.skipif(sys.platform == "win32", reason="files have no owners there")
def test_a_file_that_others_can_write_is_not_used(place: Path) -> None:
    keep("things", KEY, DATA)
    assert kept_file(place).stat().st_mode & 0o777 == 0o600 and place.stat().st_mode & 0o777 == 0o700
    for mode in (0o660, 0o602, 0o666):
        kept_file(place).chmod(mode)
        assert recalled("things", KEY) is None


def test_a_file_of_another_user_is_not_used(monkeypatch: pytest.MonkeyPatch) -> None:
    keep("things", KEY, DATA)
    mine = os.stat_result
    found = list(os.fstat(os.open(os.devnull, os.O_RDONLY)))
    found[0], found[4] = 0o100600, 12345
    monkeypatch.setattr(os, "fstat", lambda _: mine(found))
    assert recalled("things", KEY) is None


def test_where_nothing_can_be_kept_nothing_happens(place: Path) -> None:
    place.parent.write_text("a file where the folder should be")
    keep("things", KEY, DATA)
    assert recalled("things", KEY) is None


def test_a_user_without_a_home_keeps_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    def homeless(*_: object, **__: object) -> Path:
        raise RuntimeError("no home")

    monkeypatch.setattr(platformdirs, "user_cache_path", homeless)
    keep("things", KEY, DATA)
    assert recalled("things", KEY) is None


def test_a_full_disk_leaves_nothing_behind(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "no space left")

    monkeypatch.setattr(Path, "replace", full)
    keep("things", KEY, DATA)
    assert list(place.iterdir()) == []


def test_old_ones_make_room(place: Path) -> None:
    for number in range(12):
        keep("things", f"{number:064x}"[::-1], DATA)
        os.utime(max(place.iterdir(), key=lambda path: path.stat().st_mtime_ns), (1000 + number, 1000 + number))
    keep("things", KEY, DATA)
    assert len(list(place.iterdir())) == 8 and recalled("things", KEY) == DATA
