"""Waiting for a pause in the typing, so that what a next letter makes useless is not begun."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

from draft.base.record import dataclass


@dataclass
class Pause:
    """Calls an action once it was not asked for during `wait`, at the latest `longest` after it was first; seconds."""

    action: Callable[[], None]
    wait: float
    longest: float = float("inf")
    _due: asyncio.TimerHandle | None = None
    _first: float = 0.0

    @property
    def is_waiting(self) -> bool:
        """Whether the action is still to come."""
        return self._due is not None

    def ask(self) -> None:
        """Ask for the action."""
        loop = asyncio.get_running_loop()
        if self._due:
            self._due.cancel()
        else:
            self._first = loop.time()
        self._due = loop.call_at(min(loop.time() + self.wait, self._first + self.longest), self.act)

    def act(self) -> None:
        """Do it now."""
        self.cancel()
        self.action()

    def cancel(self) -> None:
        """It is wanted no more."""
        if self._due:
            self._due.cancel()
            self._due = None
