"""Work on what a stranger wrote, in a process of its own that may take so much time and memory and no more.

Where the work does not end, or the process breaks, that item alone has no answer, and the program goes on.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from draft.base import child

SECONDS = 10.0
"""Of the processor, for each item."""
MEMORY = 1_000_000_000
"""Bytes, all of the process."""
_CHILD = Path(child.__file__)


@dataclass(frozen=True)
class Failed:
    """An item without an answer: the name of what the function raised, or empty where it did not end."""

    reason: str


def run_each(
    target: str, items: Sequence[bytes], seconds: float = SECONDS, memory: int = MEMORY
) -> list[bytes | Failed]:
    """What a function, named as `package.module:name`, gives for each of the items, in their order.

    The function takes bytes and gives bytes. An item that takes more than its limits is `Failed` without a reason.
    """
    found: list[bytes | Failed] = []
    while len(found) < len(items):
        waiting = items[len(found) :]
        answers = _answers(_run(target, waiting, seconds, memory))
        found += answers if len(answers) == len(waiting) else [*answers, Failed("")]
    return found


def _run(target: str, items: Sequence[bytes], seconds: float, memory: int) -> bytes:
    """All that one process says of these items before it ends."""
    words = json.dumps([target, seconds, memory, os.getpid(), *map(len, items)])
    try:
        done = subprocess.run(
            [sys.executable, "-P", str(_CHILD), words],  # -P: nothing is imported from beside a stranger's files
            input=b"".join(items),
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=5 * seconds * len(items) + 30,  # the process ends itself long before
            start_new_session=True,  # so that the keyboard's interrupt reaches us alone
        )
    except subprocess.TimeoutExpired as late:
        return late.stdout or b""
    return done.stdout


def _answers(said: bytes) -> list[bytes | Failed]:
    found: list[bytes | Failed] = []
    start = child.SIGN.size
    while start <= len(said):
        good, length = child.SIGN.unpack_from(said, start - child.SIGN.size)
        answer = said[start : start + length]
        if len(answer) < length:
            break
        lost = answer == b"MemoryError"
        found.append(answer if good else Failed("" if lost else answer.decode()))
        start += length + child.SIGN.size
    return found
