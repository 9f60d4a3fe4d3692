"""A pattern of blocks alone: what can be done with it, and how the rest is refused."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from draft.base.notes import Problems
from draft.command.main import commands

BLOCKS = """
pattern sloper
    title "Sloper"

block front
    points
        a  at 0, 0
        b  at 20 cm, 0
        c  at 20 cm, 30 cm
    outline
        low   a to b  straight
        side  b to c  straight
        back  c to a  straight
"""


@pytest.fixture
def sloper(tmp_path: Path) -> Path:
    file = tmp_path / "sloper.piece"
    file.write_text(BLOCKS, encoding="utf-8")
    return file


def test_its_working_drawings_are_drawn(sloper: Path, tmp_path: Path) -> None:
    found = CliRunner().invoke(commands, ["draft", str(sloper), "--working", "--out", str(tmp_path / "out")])
    assert found.exit_code == 0
    (drawn,) = (tmp_path / "out/working").glob("*/front.svg")
    assert b"Sloper: as drafted" in drawn.read_bytes()


@pytest.mark.parametrize(
    "verb", [["draft"], ["pack"], ["export", "--to", "dxf"], ["export", "--to", "cutter"], ["lay"]]
)
def test_whoever_wants_pieces_of_it_is_told(sloper: Path, tmp_path: Path, verb: list[str]) -> None:
    found = CliRunner().invoke(commands, [*verb, str(sloper), "--out", str(tmp_path / "out")])
    assert isinstance(found.exception, Problems)
    (note,) = found.exception.notes
    assert "the pattern has no pieces" in note.message and "--working" in note.hints[0]
    assert not (tmp_path / "out").exists()


def test_its_limits_are_tried(sloper: Path) -> None:
    found = CliRunner().invoke(commands, ["try", str(sloper)])
    assert found.exit_code == 0 and "nothing fails" in found.stdout
