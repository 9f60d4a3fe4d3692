"""How this program starts a part of itself in another process: by Python, or by its own file if it has none."""

from __future__ import annotations

import importlib
import sys

PART = "--part"
"""The first word for a program that is a folder of its own: the module whose `main` is wanted comes next."""


def started_as(module: str, *words: str) -> list[str]:
    """The command that runs the `main` of a module of ours; nothing is imported from the folder that it is run in."""
    if getattr(sys, "frozen", False):
        return [sys.executable, PART, module, *words]
    return [sys.executable, "-P", "-m", module, *words]


def run_part() -> bool:
    """Run the part that this process was started for, if it was started for one."""
    if len(sys.argv) < 3 or sys.argv[1] != PART or not sys.argv[2].startswith("draft."):
        return False
    module = sys.argv[2]
    sys.argv[1:] = sys.argv[3:]
    importlib.import_module(module).main()
    return True
