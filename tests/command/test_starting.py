"""Starting is quick: what reckons and draws is read only by the verbs that need it."""

from __future__ import annotations

import subprocess
import sys

import pytest

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


LEFT = """
import os
import sys
{before}
from draft.__main__ import run
class Late:
    def __del__(self, write=os.write):
        write(2, b"looked through\\n")
late = Late()
late.itself = late
def tidied():
    print("tidied", file=sys.stderr)
import atexit
sys.argv[1:] = ["measures", "--sizez"] if {wrong} else ["measures"]
code = run()
atexit.register(tidied)
sys.exit(code)
"""


@pytest.mark.parametrize("wrong", [False, True])
def test_it_ends_at_once_when_all_is_said_and_tidied(wrong: bool) -> None:
    program = LEFT.format(before="", wrong=wrong)
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert done.returncode == (2 if wrong else 0)
    assert done.stderr.endswith("tidied\n") and "looked through" not in done.stderr
    assert wrong or (done.stdout.startswith("measure ") and done.stdout.endswith("\n"))


@pytest.mark.parametrize("before", ["sys.settrace(lambda *_: None)", "sys.setprofile(lambda *_: None)"])
def test_it_ends_as_python_does_where_somebody_watches(before: str) -> None:
    program = LEFT.format(before=before, wrong=False)
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert done.returncode == 0 and done.stderr.endswith("tidied\nlooked through\n")
