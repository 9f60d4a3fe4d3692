"""Starting is quick: what reckons and draws is read only by the verbs that need it."""

from __future__ import annotations

import subprocess
import sys

PROGRAM = """
import sys
from draft.command.main import main
try:
    main()
finally:
    heavy = [name for name in ("numpy", "shapely", "lark", "pikepdf") if name in sys.modules]
    assert not heavy, heavy
"""


def test_the_help_waits_for_nothing_heavy() -> None:
    for words in (["--help"], ["pack", "--help"], ["--version"]):
        done = subprocess.run([sys.executable, "-c", PROGRAM, *words], capture_output=True, text=True)
        assert (done.returncode, done.stderr) == (0, "") and done.stdout
