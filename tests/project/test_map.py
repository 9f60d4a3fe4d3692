"""The contributors' page is true: every room is on it, every file that it names is there, and so is every function."""

from __future__ import annotations

import ast
import re

from tests.project.checkout import ROOT

PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
ROOMS = PAGE.partition("## The rooms")[2].partition("\n## ")[0]


def test_every_room_is_on_the_map_and_nothing_stands_loose() -> None:
    draft = ROOT / "draft"
    rooms = {path.name for path in draft.iterdir() if (path / "__init__.py").is_file()}
    assert rooms == set(re.findall(r"^draft/(\w+)/", ROOMS, re.MULTILINE))
    large = [path for room in ("paper", "plan", "page") for path in (draft / room).iterdir() if path.is_dir()]
    inside = {path.name for path in large if path.name != "__pycache__"}
    assert inside == set(re.findall(r"\b(\w+)/", "".join(re.findall(r"^ {4}(\S.*?) {2}", ROOMS, re.MULTILINE))))
    assert {path.name for path in draft.glob("*.py")} == {"__init__.py", "__main__.py"}


def test_files_that_the_page_names_are_there() -> None:
    named = set(re.findall(r"`((?:[\w.]+/)+[\w.]+\.\w+)`", PAGE))
    assert len(named) > 30
    places = (ROOT, ROOT / "draft")
    wanted = [name for name in named if not re.search(r"\b(NAME|CODE)\b", name)]
    assert not [name for name in wanted if not any((place / name).exists() for place in places)]


def test_functions_of_the_way_are_where_it_says() -> None:
    for calls, files in re.findall(
        r"^\| [^|]* \| (`[^|]*`) \| (`[^|]*`) \|$", PAGE.partition("\n## ")[2], re.MULTILINE
    ):
        defined = {
            node.name
            for name in re.findall(r"`([^`]+)`", files)
            for node in ast.parse((ROOT / name).read_text(encoding="utf-8")).body
            if isinstance(node, ast.FunctionDef)
        }
        assert set(re.findall(r"`(\w+)\(", calls)) <= defined, files


def test_no_two_files_have_one_name() -> None:
    names = [path.name for path in (ROOT / "draft").rglob("*.py") if path.name != "__init__.py"]
    assert not {name for name in names if names.count(name) > 1}
