"""The built wheel does the main job away from the checkout, with the grammar and patterns that it carries."""

from __future__ import annotations

import json
import os
import shutil
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
    assert not [name for name in names if "node_modules" in name or "editor_parts" in name]


def test_a_wheel_built_where_node_is_carries_the_editor_with_its_licences(wheel: Path, installed: Path) -> None:
    if shutil.which("npm") is None:
        pytest.skip("there is no node here")
    names = [name for name in ZipFile(wheel).namelist() if name.startswith("draft/_bundled/editor/")]
    listed = json.loads((ROOT / "draft/page/editor_parts/package-lock.json").read_text())["packages"].keys() - {""}
    for package in (name.removeprefix("node_modules/") for name in listed):
        assert {"LICENSE", "package.json"} < {Path(name).name for name in names if f"/{package}/" in name}, package
    seen = "from draft.page.editor_files import editor_files; print(len(editor_files()))"
    assert int(_run("-c", seen, cwd=installed, PYTHONPATH=str(installed))) == len(listed)


def test_a_wheel_built_without_node_says_that_it_carries_no_editor(tmp_path: Path) -> None:
    here = ["--no-isolation"] if find_spec("hatchling") else []
    done = _start("-m", "build", "--wheel", *here, "--outdir", tmp_path, ROOT, cwd=tmp_path, PATH=str(tmp_path))
    assert done.returncode == 0, done.stderr
    told = [line for line in (done.stdout + done.stderr).splitlines() if "editor" in line]
    assert len(told) == 1 and "node and npm are not there" in told[0]
    (built,) = tmp_path.glob("plainseam-*.whl")
    assert not [name for name in ZipFile(built).namelist() if "_bundled/editor" in name]


def test_the_lock_file_has_the_digest_of_every_part_and_no_host() -> None:
    text = (ROOT / "draft/page/editor_parts/package-lock.json").read_text()
    parts = {name: part for name, part in json.loads(text)["packages"].items() if name}
    assert parts and all(part["integrity"].startswith("sha512-") for part in parts.values())
    assert "://" not in text and not [name for name, part in parts.items() if "resolved" in part]


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
