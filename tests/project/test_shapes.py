"""Every public function that takes or gives arrays says what shape they have, as in `(bodies, segments, 4, 2)`."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.project.checkout import ROOT

FILES = sorted((ROOT / "draft").rglob("*.py"))
ARRAY = re.compile(r"\b(Floats|Ints|Bools)\b")
SHAPE = re.compile(r"`\((\.\.\.|[\w+*. -]+,[^`]*)\)`")


def public(body: list[ast.stmt]) -> Iterator[ast.FunctionDef]:
    """The functions and methods that others may call; what stands inside a function is its own."""
    for node in body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            yield from public(node.body) if isinstance(node, ast.ClassDef) else [node]


def takes_or_gives_arrays(function: ast.FunctionDef) -> bool:
    given = function.args
    annotations = [arg.annotation for arg in (*given.posonlyargs, *given.args, *given.kwonlyargs)]
    return any(ARRAY.search(ast.unparse(a)) for a in (*annotations, function.returns) if a)


@pytest.mark.parametrize("room", sorted({path.relative_to(ROOT / "draft").parts[0] for path in FILES}))
def test_a_function_of_arrays_says_their_shapes(room: str) -> None:
    assert [name for path in FILES if ROOT / "draft" / room in (path, *path.parents) for name in silent(path)] == []


def silent(path: Path) -> list[str]:
    """The functions of a file whose docstring has no shape."""
    functions = filter(takes_or_gives_arrays, public(ast.parse(path.read_text(encoding="utf-8")).body))
    return [f"{path.stem}.{f.name}" for f in functions if not SHAPE.search(ast.get_docstring(f) or "")]


def test_what_is_a_shape() -> None:
    for words in ("`(N, 4, 2)`", "`(..., 2)`", "`(B,)`", "`(rows - tall + 1, wide)`", "`(...)`"):
        assert SHAPE.search(f"Points {words} in mm.")
    for words in ("(N, 4, 2)", "`(points)`", "`()`", "`sum(a, b)`"):
        assert not SHAPE.search(words)
