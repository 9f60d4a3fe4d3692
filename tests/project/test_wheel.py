"""The built wheel does the main job away from the checkout, with the grammar and patterns that it carries."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path
from zipfile import ZipFile

import pytest

from tests.project.checkout import ROOT


def _start(*words: str | Path, cwd: Path, **env: str) -> subprocess.CompletedProcess[str]:
    clean = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    command = [sys.executable, *map(str, words)]
    return subprocess.run(command, cwd=cwd, env=clean | env, capture_output=True, text=True, timeout=240)


def _run(*words: str | Path, cwd: Path, **env: str) -> str:
    done = _start(*words, cwd=cwd, **env)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    here = ["--no-isolation"] if find_spec("hatchling") else []  # spares fetching the build backend again
    _run("-m", "build", "--wheel", *here, "--outdir", folder, ROOT, cwd=folder)
    (built,) = folder.glob("plainseam-*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("target")
    quiet = ["--quiet", "--disable-pip-version-check", "--no-input", "--root-user-action=ignore"]
    _run("-m", "pip", "install", *quiet, "--no-index", "--no-deps", "--target", target, wheel, cwd=target)
    return target


def test_the_wheel_carries_all_it_needs_and_no_more(wheel: Path) -> None:
    names = set(ZipFile(wheel).namelist())
    for room in ("grammar", "pieces"):
        files = [path for path in (ROOT / room).rglob("*") if path.is_file()]
        assert files and {f"draft/_bundled/{path.relative_to(ROOT)}" for path in files} <= names
    assert not [name for name in names if not name.startswith(("draft/", "plainseam-"))]


def test_the_installed_wheel_packs_a_pattern_away_from_the_checkout(installed: Path, tmp_path: Path) -> None:
    place = _run("-c", "import draft; print(draft.__file__)", cwd=tmp_path, PYTHONPATH=str(installed))
    assert Path(place.strip()).is_relative_to(installed)
    _run("-m", "draft", "pack", "marlpit", "--out", "out", cwd=tmp_path, PYTHONPATH=str(installed))
    made = [path for path in (tmp_path / "out").rglob("*") if path.is_file()]
    assert {".svg", ".pdf"} <= {path.suffix for path in made}
    assert all(path.stat().st_size for path in made)
    pdf = next(path for path in made if path.suffix == ".pdf")
    assert pdf.read_bytes().startswith(b"%PDF-")


def test_the_installed_wheel_carries_the_tables_that_its_grammar_is_read_by(installed: Path, tmp_path: Path) -> None:
    made = "from draft.language import parse_tables as t; t.made = None"
    read = f"{made}; print(len(t.ready_parser().parse('let\\n    a = 2 cm\\n').children))"
    cache = {"PYTHONPATH": str(installed), "XDG_CACHE_HOME": str(tmp_path), "HOME": str(tmp_path)}
    assert int(_run("-c", read, cwd=tmp_path, **cache)) == 1
    assert not [*tmp_path.iterdir()]


def test_the_installed_wheel_says_what_is_wrong_and_fails(installed: Path, tmp_path: Path) -> None:
    done = _start("-m", "draft", "pack", "no_such_top", "--out", "out", cwd=tmp_path, PYTHONPATH=str(installed))
    assert done.returncode
    assert "no_such_top" in done.stderr and "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()
