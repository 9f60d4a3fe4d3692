"""How long to search for a shorter lay, counted in steps and not in seconds, and how a person stops a search."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from types import FrameType
from typing import Literal

Name = Literal["quick", "usual", "long"]


@dataclass
class Effort:
    """How long to search: `looks` into free regions for each lay, and how many of the lowest `places` in each.

    `stopped` says that a person stopped the search: whatever is still to be laid is laid once, and not improved.
    `outside` are the seconds that a general solver may take, where one is installed.
    """

    looks: int = 8_000
    places: int = 3
    outside: int = 0
    stopped: bool = False


def effort(name: Name) -> Effort:
    """`usual` walks through every order of a top's few pieces; `quick` a part; `long` looks at more places in each."""
    return {"quick": Effort(600, 2), "usual": Effort(), "long": Effort(80_000, 5, outside=20)}[name]


@contextmanager
def stoppable(spent: Effort) -> Iterator[None]:
    """While this lasts, the first interrupt by the keyboard only stops the search; a second ends the program."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.getsignal(signal.SIGINT)

    def stop(number: int, frame: FrameType | None) -> None:
        spent.stopped = True
        signal.signal(signal.SIGINT, before)

    signal.signal(signal.SIGINT, stop)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
