"""Expected files are rewritten by one process and told of, and none is left behind without its case."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import in_one_process
from tests.project.checkout import ROOT
from tests.rewriting import Rewriting
from tests.strays import strays

SAYING = """
from pathlib import Path

def test_what_is_said(expect):
    for name, text in {"same": "a", "new": "a", "longer": "a\\nb", "other": "b", "shorter": "a"}.items():
        expect(Path(__file__).parent / f"{name}.txt", text)
"""


def _pytest(folder: Path, *words: str) -> str:
    """What `pytest` says in a folder of its own, with this project's expected files."""
    (folder / "pytest.ini").write_text("[pytest]\n")
    env = {key: value for key, value in os.environ.items() if not key.startswith(("PYTEST", "PYTHONPATH"))}
    command = [sys.executable, "-m", "pytest", "-p", "tests.conftest", "--color=yes", *words]
    done = subprocess.run(command, cwd=folder, env=env | {"PYTHONPATH": str(ROOT)}, capture_output=True, text=True)
    return done.stdout + done.stderr


def test_what_was_rewritten_is_told_and_loudly_where_it_says_less(tmp_path: Path) -> None:
    (tmp_path / "test_it.py").write_text(SAYING)
    for name, lines in {"same": 1, "longer": 1, "other": 1, "shorter": 3}.items():
        (tmp_path / f"{name}.txt").write_text("a\n" * lines)
    first, second = (_pytest(tmp_path, "--update") for _ in range(2))
    told = first.partition("expected files")[2]
    for line in ("new.txt: new", "longer.txt: longer by 1 line", "other.txt: as long as before"):
        assert f"\n{line}\n" in told
    assert "same.txt" not in told
    assert "\x1b[31m\x1b[1mshorter.txt: SHORTER BY 2 LINES\x1b[0m" in told
    assert (
        told.index("other.txt") < told.index("shorter.txt") < told.index("read what is gone") < told.index("1 passed")
    )
    assert (tmp_path / "shorter.txt").read_text() == "a\n"
    assert "none has changed" in second and "expected files" not in _pytest(tmp_path)


def test_only_one_process_rewrites(tmp_path: Path) -> None:
    said = _pytest(tmp_path, "--update", "-n", "2")
    assert "rewritten by one process" in said and "Traceback" not in said


def test_nothing_is_written_unasked(tmp_path: Path) -> None:
    Rewriting(asked=False)(tmp_path / "new.txt", "a\n")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("markers", "capture", "asked", "one"),
    [
        ("not slow", "fd", ["tests"], False),
        ("not slow", "fd", ["tests/good", "tests/bad"], False),
        ("not slow", "fd", [__file__, str(ROOT / "tests" / "conftest.py")], False),
        ("slow", "fd", ["tests"], True),
        ("", "fd", ["tests"], True),
        ("not slow", "no", ["tests"], True),
        ("not slow", "fd", [f"{__file__}::test_one", f"{__file__}::test_two"], True),
    ],
)
def test_what_is_run_in_one_process(markers: str, capture: str, asked: list[str], one: bool) -> None:
    assert in_one_process(markers, capture, asked) is one


def test_a_file_that_belongs_to_no_case_is_found(tmp_path: Path) -> None:
    case, left = tmp_path / "case.piece", ["forgotten.csv", "forgotten.piece", "forgotten.txt", "told_of.piece"]
    case.write_text('pattern case\n    uses  "bands.piece"  # not "told_of.piece"\n    chart "sizes.csv"\n')
    for name in ("case.txt", "bands.piece", "sizes.csv", "test_case.py", ".hidden", *left):
        (tmp_path / name).write_text("")
    assert strays(tmp_path, [case]) == left
