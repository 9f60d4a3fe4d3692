"""How long to search for a shorter lay, counted in steps and not in seconds, and how a person stops a search."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import field, replace
from types import FrameType
from typing import Literal

from draft.base.record import dataclass

EffortName = Literal["quick", "usual", "long"]

_FIRST = 600
"""Looks of the first search: a top's pieces are then laid within a few hundredths of the best."""


@dataclass
class Effort:
    """How long to search: `looks` into free regions for each lay, and how many of the lowest `places` in each.

    Of many pieces `pieces` are laid again, one by one, in other orders, in every kind of lay whose first is no more
    than `hopeful` times as long as the shortest.

    A lay of many pieces alone may be bettered in so many `chains` more, each from the beginning.

    `outside` are the seconds that a general solver may take, where one is installed. `stop` is set by a person.
    """

    looks: int = 8_000
    places: int = 3
    pieces: int = 4_000
    hopeful: float = 1.03
    chains: int = 0
    outside: float = 0.0
    stop: threading.Event = field(default_factory=threading.Event)

    @property
    def stopped(self) -> bool:
        """Whether a person stopped the search: whatever is still to be laid is laid once, and not improved."""
        return self.stop.is_set()

    def first(self) -> Effort:
        """A short search that the same person can stop: it comes first, so that there is soon something to keep."""
        return replace(self, looks=min(self.looks, _FIRST), pieces=0, chains=0, outside=0.0)


def effort(name: EffortName) -> Effort:
    """`usual` walks through every order of a top's few pieces; `quick` a part; `long` looks at more places in each."""
    return {
        "quick": Effort(300, 2, 500, hopeful=1.0),
        "usual": Effort(),
        "long": Effort(80_000, 5, 40_000, outside=20.0),
    }[name]


@contextmanager
def stoppable(spent: Effort) -> Iterator[None]:
    """While this lasts, the first interrupt by the keyboard only stops the search; a second ends the program."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.getsignal(signal.SIGINT)

    def stop(number: int, frame: FrameType | None) -> None:
        spent.stop.set()
        signal.signal(signal.SIGINT, before)

    signal.signal(signal.SIGINT, stop)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
