"""The other end of `bounded`: a script that works through items, each within its limits, and says what each gave.

It is run by its path and reads only what the function that it calls needs. It ends with the process that started it, or
once all items together have taken their time.
"""

from __future__ import annotations

import contextlib
import importlib
import json
import os
import struct
import sys
import threading
import time
from pathlib import Path

SIGN = struct.Struct(">BdI")
"""Before each answer: whether the function gave it (1) or it is the name of what it raised (0), the seconds of the
processor that it took, and its length."""
LARGEST_ANSWER = 30_000_000
"""Bytes: more than any item's answer needs, and little enough to be held twice."""
_GLANCE = 0.25
_STARTING = 30.0
"""Seconds by the clock until the function is there, on the slowest machine."""
_WALL = 3.0
"""The time by the clock is so many times that of the processor: other programs want their turn too."""


def main() -> None:
    """Answer each of the items on standard input, in order."""
    target, seconds, together, memory, parent, *sizes = json.loads(sys.argv[1])
    sys.path.append(str(Path(__file__).resolve().parents[2]))
    data = sys.stdin.buffer.read()
    limits = _Limits(memory, parent)
    module, _, name = target.partition(":")
    function = getattr(importlib.import_module(module), name)
    start, left = 0, together
    for size in sizes:
        if left <= 0:
            break
        begun = limits.anew(min(seconds, left))
        good, answer = _answer(function, data[start : start + size])
        start += size
        spent = time.process_time() - begun
        left -= spent
        sys.stdout.buffer.write(SIGN.pack(good, spent, len(answer)) + answer)
        sys.stdout.buffer.flush()


def _answer(function: object, item: bytes) -> tuple[bool, bytes]:
    try:
        answer = function(item)  # type: ignore[operator]
        if len(answer) > LARGEST_ANSWER:
            raise MemoryError
    except Exception as reason:
        return False, type(reason).__name__.encode()
    return True, answer


class _Limits:
    """Processor time for each item and memory for all, where the system has such limits; time by the clock anywhere."""

    def __init__(self, memory: int, parent: int) -> None:
        self.parent, self.end = parent, time.monotonic() + _STARTING
        with contextlib.suppress(ImportError, ValueError, OSError):
            import resource

            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
            resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
        threading.Thread(target=self._watch, daemon=True).start()

    def anew(self, seconds: float) -> float:
        """The next item has so many seconds before it; gives what the process has taken until now."""
        self.end, begun = time.monotonic() + _WALL * seconds, time.process_time()
        with contextlib.suppress(ImportError, ValueError, OSError):
            import resource

            _, hard = resource.getrlimit(resource.RLIMIT_CPU)
            resource.setrlimit(resource.RLIMIT_CPU, (int(begun + seconds) + 1, hard))
        return begun

    def _watch(self) -> None:
        while time.monotonic() < self.end and not (os.name == "posix" and os.getppid() != self.parent):
            time.sleep(_GLANCE)
        os._exit(1)


if __name__ == "__main__":
    main()
