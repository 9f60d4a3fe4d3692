"""Expected texts beside the inputs of tests, rewritten by `pytest --update` and read by a person before committing."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

Expect = Callable[[Path, str], None]


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update", action="store_true", help="rewrite the expected files beside the tests' inputs")


@pytest.fixture
def expect(request: pytest.FixtureRequest) -> Expect:
    """Compares a text with the file that holds what is expected, or writes that file."""

    def check(path: Path, text: str) -> None:
        text = text.rstrip("\n") + "\n"
        if request.config.getoption("--update"):
            path.write_text(text, encoding="utf-8")
            return
        assert path.exists(), f"{path.name} is missing: run `pytest --update`, then read it"
        assert text == path.read_text(encoding="utf-8"), f"{path.name} has changed: `pytest --update` rewrites it"

    return check
