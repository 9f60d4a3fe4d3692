"""Work on what a stranger wrote, in a process of its own that may take so much time and memory and no more.

Where the work does not end, or the process breaks, that item alone has no answer, and the program goes on.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TypeAlias

from draft.base import child
from draft.base.itself import started_as
from draft.base.record import dataclass

SECONDS = 10.0
"""Of the processor, for each item."""
TOGETHER = 30.0
"""Of the processor, for all items of one kind: three that never end, or some hundreds of the usual."""
MEMORY = 1_000_000_000
"""Bytes, all of the process."""
_CHILD = Path(child.__file__)


@dataclass(frozen=True)
class Failed:
    """An item without an answer: the name of what the function raised, or empty where it did not end.

    It is `late` where the items before it had left it no time, or not all that one may take.
    """

    reason: str
    late: bool = False


_Answer: TypeAlias = bytes | Failed


def run_each(
    target: str, items: Sequence[bytes], seconds: float = SECONDS, memory: int = MEMORY, together: float = TOGETHER
) -> list[bytes | Failed]:
    """What a function, named as `package.module:name`, gives for each of the items, in their order.

    The function takes bytes and gives bytes. An item that takes more than its limits is `Failed` without a reason, and
    counts as if it had taken all its seconds. What comes once all have taken `together` seconds is late.
    """
    found: list[_Answer] = []
    left = together
    while len(found) < len(items) and left > 0:
        waiting = items[len(found) :]
        answers, spent = _answers(_run(target, waiting, (seconds, left), memory))
        found, left = found + answers, left - spent
        if len(answers) < len(waiting) and left > 0:
            found.append(Failed("", late=left < seconds))
            left -= seconds
    return found + [Failed("", late=True)] * (len(items) - len(found))


def _run(target: str, items: Sequence[bytes], seconds: tuple[float, float], memory: int) -> bytes:
    """All that one process says of these items before it ends; `seconds` are those of each, and of all together."""
    words = json.dumps([target, *seconds, memory, os.getpid(), *map(len, items)])
    try:
        done = subprocess.run(
            _started(words),
            input=b"".join(items),
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=5 * min(seconds[0] * len(items), seconds[1]) + 30,  # the process ends itself long before
            start_new_session=True,  # so that the keyboard's interrupt reaches us alone
        )
    except subprocess.TimeoutExpired as late:
        return late.stdout or b""
    return done.stdout


def _started(words: str) -> list[str]:
    """By its path where there is a Python, so that it reads no more than it needs."""
    if getattr(sys, "frozen", False):
        return started_as(child.__name__, words)
    return [sys.executable, "-P", str(_CHILD), words]  # -P: nothing is imported from beside a stranger's files


def _answers(said: bytes) -> tuple[list[_Answer], float]:
    """The answers in what a process has said, and the seconds that they took."""
    found: list[_Answer] = []
    start, seconds = child.SIGN.size, 0.0
    while start <= len(said):
        good, spent, length = child.SIGN.unpack_from(said, start - child.SIGN.size)
        answer = said[start : start + length]
        if len(answer) < length:
            break
        lost = answer == b"MemoryError"
        found.append(answer if good else Failed("" if lost else answer.decode()))
        start, seconds = start + length + child.SIGN.size, seconds + spent
    return found, seconds
