from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from draft.base.notes import Note, Problems
from draft.base.resources import folder
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from tests.outside.women import real_women


@pytest.fixture(scope="session")
def women() -> Bodies:
    """The bundled chart."""
    return read_chart(folder("pieces") / "women.csv")


@pytest.fixture(scope="session")
def bdims() -> Bodies:
    """260 real women."""
    return real_women()


@pytest.fixture
def notes_of(tmp_path: Path) -> Callable[..., tuple[Note, ...]]:
    """What a reader finds wrong with a text (or bytes) in a file of the given name."""

    def find(reader: Callable[[Path], Bodies], name: str, text: str | bytes) -> tuple[Note, ...]:
        path = tmp_path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        with pytest.raises(Problems) as caught:
            reader(path)
        return caught.value.notes

    return find
