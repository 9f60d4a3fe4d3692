"""`plainseam about` for a file of templates: what each is and what it is given."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from draft.command.main import main

TWO = """\
template strip "A straight strip."
    input
        width  length            "from side to side"
        slant  angle   = 12 deg
    points
        a  at 0, 0
        b  at width, 0

template plain
    points
        a  at 0, 0
"""
SAID = """\
two.piece: templates, for a pattern that says `uses "two.piece"`

strip
  A straight strip.
  piece NAME is strip
    width  a length  to be given  from side to side
    slant  an angle  = 12 deg

plain
  piece NAME is plain
"""


def test_the_templates_of_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "two.piece"
    path.write_text(TWO)
    monkeypatch.setattr(sys, "argv", ["plainseam", "about", str(path)])
    assert main() == 0
    assert capsys.readouterr().out == SAID


def test_a_bundled_file_of_templates_by_its_name(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "argv", ["plainseam", "about", "bands"])
    assert main() == 0
    assert "width    a length  = 1/2 in" in capsys.readouterr().out
