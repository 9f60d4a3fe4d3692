"""How soon a mistake shows after a keystroke in a pattern of 320 lines: `pytest tests/benchmarks -m slow -s` prints it.

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

LINES = 320
PLACE = "    neck_width"  # lines are typed above this one
HAND = 0.12  # seconds between two letters of a hand that types fast


def _long_pattern() -> str:
    """The Marlpit top, with as many more values as make it a pattern of 320 lines."""
    text = (ROOT / "pieces" / "marlpit.piece").read_text(encoding="utf-8")
    missing = max(0, LINES - text.count("\n"))
    more = "".join(f"    more_{k} = (bust_girth + {k} mm) / 4 * cosine of shoulder_slope\n" for k in range(missing))
    start = text.index(PLACE)
    return text[:start] + more + text[start:]


def _processor(editor: Client) -> float:
    """Milliseconds of the processor that the server has taken; it waits for nobody else, as a clock does."""
    fields = Path(f"/proc/{editor.process.pid}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) * 10.0


def _offers(editor: Client, path: Path, line: int, pause: float) -> list[float]:
    """Milliseconds until what may stand at a place is told right after a letter there, with a pause after each."""
    taken = []
    for column in range(4, 40):
        spot = {"line": line, "character": column}
        start = time.perf_counter()
        editor.edit_and_go_on(path, {"range": {"start": spot, "end": spot}, "text": "e"})
        after = {"textDocument": {"uri": path.as_uri()}, "position": {"line": line, "character": column + 1}}
        editor.ask("textDocument/completion", after)
        taken.append((time.perf_counter() - start) * 1000)
        time.sleep(pause)
    return taken


def test_keystrokes(tmp_path: Path) -> None:
    path = tmp_path / "marlpit.piece"
    text = _long_pattern()
    assert text.count("\n") >= LINES
    editor = Client()
    assert editor.open(path, text) == []
    time.sleep(8)  # until the drawing has told its part
    line = text[: text.index(PLACE)].count("\n")
    times, found = [], []
    begun = _processor(editor)
    for column, letter in enumerate("    typed = bust_girth / 4 + 2 cm * (3 + 1)\n"):
        spot = {"line": line, "character": column}
        change: dict[str, Any] = {"range": {"start": spot, "end": spot}, "text": letter}
        start = time.perf_counter()
        found.append(editor.edit(path, change))
        times.append((time.perf_counter() - start) * 1000)
    spent = (_processor(editor) - begun) / len(times)
    offers = {pause: _offers(editor, path, line, pause) for pause in (0.0, HAND)}
    assert any(found) and not found[-1]
    editor.close()
    waits = {"diagnostic": times, "completion": offers[0.0], "completion, as a hand types": offers[HAND]}
    for what, taken in waits.items():
        said = f"half within {np.median(taken):.0f} ms, 95 % within {np.percentile(taken, 95):.0f} ms, at most"
        print(f"\nkeystroke to {what}, {text.count(chr(10))} lines: {said} {max(taken):.0f} ms")
    print(f"of the processor a keystroke takes {spent:.0f} ms; the pause before it is looked at is 15 ms")
