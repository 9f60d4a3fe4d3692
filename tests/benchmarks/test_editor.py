"""How soon a mistake shows after a keystroke in a pattern of 300 lines: `pytest tests/benchmarks -m slow -s` prints it.

At most 100 ms is the aim: what takes less is felt as at once (from memory). The times are the machine's, and nothing is
asserted of them.
"""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from tests.editor.client import Client
from tests.project.checkout import ROOT

pytestmark = pytest.mark.slow

LINES = 300
PLACE = "    neck_width"  # lines are typed above this one


def _long_pattern() -> str:
    """The Marlpit top, with as many more values as make it a pattern of 300 lines."""
    text = (ROOT / "pieces" / "marlpit.piece").read_text(encoding="utf-8")
    missing = max(0, LINES - text.count("\n"))
    more = "".join(f"    more_{k} = (bust_girth + {k} mm) / 4 * cosine of shoulder_slope\n" for k in range(missing))
    start = text.index(PLACE)
    return text[:start] + more + text[start:]


def test_keystrokes(tmp_path: Path) -> None:
    path = tmp_path / "marlpit.piece"
    text = _long_pattern()
    assert text.count("\n") >= LINES
    editor = Client()
    assert editor.open(path, text) == []
    line = text[: text.index(PLACE)].count("\n")
    times, found = [], []
    for column, letter in enumerate("    typed = bust_girth / 4 + 2 cm * (3 + 1)\n"):
        spot = {"line": line, "character": column}
        change: dict[str, Any] = {"range": {"start": spot, "end": spot}, "text": letter}
        start = time.perf_counter()
        found.append(editor.edit(path, change))
        times.append((time.perf_counter() - start) * 1000)
    assert any(found) and not found[-1]
    editor.close()
    said = f"median {np.median(times):.0f} ms, nine in ten within {np.percentile(times, 90):.0f} ms, at most"
    print(f"\nkeystroke to diagnostic, {text.count(chr(10))} lines: {said} {max(times):.0f} ms")
