"""Files are read whole and no further, and no more room is made for one than it takes."""

from __future__ import annotations

import tracemalloc
from collections.abc import Callable
from pathlib import Path

import pytest

from draft.base.envelope import opened
from draft.base.notes import Problems
from draft.base.opening import open_file, read_at_most
from draft.base.table_text import read_table
from draft.base.textfile import read_data
from draft.beginning.begun import read_drawing
from draft.orders.journal import Journal


def test_no_more_is_read_than_was_asked_for_and_one_byte(tmp_path: Path) -> None:
    file = tmp_path / "a"
    for size, found in ((0, 0), (1, 1), (9, 9), (10, 10), (11, 11), (500, 11)):
        file.write_bytes(b"x" * size)
        with open_file(file, "file") as opened_one:
            assert len(read_at_most(opened_one, 10)) == found


@pytest.mark.parametrize(
    ("name", "read"),
    [
        ("orders.journal", lambda file: Journal(file.parent)),
        ("a.csv", lambda file: read_table(file, "table")),
        ("a.toml", lambda file: read_data(file, "file")),
        ("a.envelope", opened),
        ("a.svg", read_drawing),
    ],
)
def test_a_small_file_takes_little_room(tmp_path: Path, name: str, read: Callable[[Path], object]) -> None:
    """Python makes room for as many bytes as are asked for: a shop's server may not have so much to give."""
    file = tmp_path / name
    file.write_bytes(b"a,b\n1,2")
    tracemalloc.start()
    try:
        read(file)
    except Problems:
        assert name in ("orders.journal", "a.envelope", "a.svg")
    finally:
        _, peak = tracemalloc.get_traced_memory()
        tracemalloc.stop()
    assert peak < 3_000_000
