"""Run plainseam, as the command `plainseam` or as `python -m draft`: loading it may be interrupted too."""

from __future__ import annotations

import atexit
import os
import sys

_ended: list[int] = []
"""The exit code, once it is known."""


def run() -> int:
    """Load the command and run it; gives its exit code, with which the process is then expected to end."""
    atexit.register(_leave)  # before all others, so that it is called when these are done
    try:
        from draft.command.main import main
    except KeyboardInterrupt:
        return 1
    code = main()
    _ended.append(code)
    return code


def _leave() -> None:
    """End at once: Python would look through all that there is for waste, which takes a tenth of a second.

    Threads have ended by now, other processes too, and what had to be cleared away is. Where somebody watches, such as
    a debugger, or what was printed cannot be written, it ends as it always does.
    """
    if not _ended or _is_watched():
        return
    try:
        for stream in (sys.stdout, sys.stderr):
            if stream is not None:
                stream.flush()
    except (OSError, ValueError):
        return
    os._exit(_ended[-1])


def _is_watched() -> bool:
    if sys.gettrace() or sys.getprofile():
        return True
    monitoring = getattr(sys, "monitoring", None)  # from Python 3.12 on
    return monitoring is not None and any(monitoring.get_tool(tool) for tool in range(6))


if __name__ == "__main__":
    sys.exit(run())
