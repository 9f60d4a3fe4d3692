"""`plainseam tidy`: files made tidy in their place, looked at with `--check`, or read from standard input."""

from __future__ import annotations

import io
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from draft.command.main import main

UNTIDY = "let\n  a=1cm\n"
TIDY = "let\n    a = 1 cm\n"
BROKEN = "let\n  a = = 1 cm\n"

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run the command, with a text on standard input; its exit code, output and messages."""

    def start(*words: str | Path, given: str = "") -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "argv", ["plainseam", "tidy", *map(str, words)])
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(given.encode())))
        try:
            code = main()
        except SystemExit as stop:
            code = int(stop.code or 0)
        return code, *capsys.readouterr()

    return start


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "a.piece"
    path.write_text(UNTIDY)
    return path


def test_a_file_is_tidied_in_its_place(run: Run, path: Path) -> None:
    path.chmod(0o640)
    assert run(path) == (0, f"tidied {path}\n", "")
    assert path.read_text() == TIDY
    assert path.stat().st_mode & 0o777 == 0o640
    assert [found.name for found in path.parent.iterdir()] == ["a.piece"]
    assert run(path) == (0, "", "")


def test_check_changes_nothing_and_lists_what_is_not_tidy(run: Run, path: Path) -> None:
    good = path.with_name("b.piece")
    good.write_text(TIDY)
    assert run("--check", path, good) == (1, f"{path} is not tidy\n", "")
    assert path.read_text() == UNTIDY
    assert run("--check", good) == (0, "", "")


def test_a_file_that_cannot_be_read_is_left_alone_and_the_others_are_tidied(run: Run, path: Path) -> None:
    bad = path.with_name("bad.piece")
    bad.write_text(BROKEN)
    code, said, notes = run(bad, path.with_name("none.piece"), path)
    assert code == 1 and said == f"tidied {path}\n"
    assert "bad.piece:2:" in notes and "none.piece" in notes
    assert bad.read_text() == BROKEN and path.read_text() == TIDY


def test_a_link_stays_a_link(run: Run, path: Path) -> None:
    link = path.with_name("link.piece")
    link.symlink_to(path)
    assert run(link)[0] == 0
    assert link.is_symlink() and path.read_text() == TIDY


def test_line_ends_stay_as_they_are(run: Run, path: Path) -> None:
    path.write_bytes(UNTIDY.replace("\n", "\r\n").encode())
    run(path)
    assert path.read_bytes() == TIDY.replace("\n", "\r\n").encode()
    assert run("--check", path)[0] == 0


def test_a_file_that_cannot_be_written_is_left_as_it_was(run: Run, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    code, _, notes = run(path)
    assert code == 1 and "no space left on device; nothing was changed" in notes
    assert path.read_text() == UNTIDY and len(list(path.parent.iterdir())) == 1


def test_standard_input_comes_out_tidied(run: Run) -> None:
    assert run("-", given=UNTIDY) == (0, TIDY, "")
    assert run("-", given=TIDY) == (0, TIDY, "")
    assert run("--check", "-", given=UNTIDY) == (1, "- is not tidy\n", "")
    code, said, notes = run("-", given=BROKEN)
    assert (code, said) == (1, "") and "standard input:2:" in notes
