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


INTERRUPTED = """
import sys
class Interrupt:
    def find_spec(self, name, path, target=None):
        if name == "click":
            raise KeyboardInterrupt
sys.meta_path.insert(0, Interrupt())
from draft.__main__ import run
sys.exit(run())
"""


def test_an_interrupt_while_it_is_loaded_leaves_no_traceback() -> None:
    done = subprocess.run([sys.executable, "-c", INTERRUPTED], capture_output=True, text=True)
    assert (done.returncode, done.stdout, done.stderr) == (1, "", "")
