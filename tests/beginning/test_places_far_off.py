"""A drawing whose lines lead nowhere is told: to places that are no numbers, or too far off to be reckoned with."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.beginning.begun import Outlines, begin
from tests.beginning.drawings import svg
from tests.fuzz.studio_corpus import dxf

FAR = "lead to places that are no numbers|runs beyond 100 m"


@pytest.mark.parametrize("number", ["inf", "-inf", "nan", "1e10", "1e300"])
def test_dxf(tmp_path: Path, number: str) -> None:
    head, entities, text = dxf().partition("ENTITIES")
    assert text.count("420.0\n") == 1
    (tmp_path / "odd.dxf").write_text(head + entities + text.replace("420.0\n", f"{number}\n"))
    with pytest.raises(Problems, match=FAR):
        begin(tmp_path / "odd.dxf", Outlines("mine", unit="mm", close=True))


@pytest.mark.parametrize("number", ["1e10", "1e300"])
def test_svg(tmp_path: Path, number: str) -> None:
    (tmp_path / "odd.svg").write_bytes(svg(f'<path d="M0 0 H{number} V9 Z"/>'))
    with pytest.raises(Problems, match=FAR):
        begin(tmp_path / "odd.svg", Outlines("mine", unit="mm"))
