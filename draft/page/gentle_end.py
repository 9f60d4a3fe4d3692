"""How a page for others ends: what is begun is ended and handed over, and nothing new is taken on meanwhile."""

from __future__ import annotations

import asyncio
import signal
import time
from types import FrameType

import uvicorn

from draft.page.crew import Crew
from draft.page.page_settings import Settings

_LOOKING = 0.1
_FETCHING = 8.0
"""Seconds in which files that were made last may still be fetched."""


class GentleServer(uvicorn.Server):
    """On the system's word to end it waits for what is begun; on a second word, or the keyboard's, it ends at once."""

    def __init__(self, config: uvicorn.Config, crew: Crew, settings: Settings) -> None:
        super().__init__(config)
        self._crew, self._settings = crew, settings
        self._ending: asyncio.Task[None] | None = None

    async def serve(self, sockets: list[object] | None = None) -> None:  # type: ignore[override]
        """Serve, and hear the system's word in the loop that serves."""
        self._loop = asyncio.get_running_loop()
        await super().serve(sockets)  # type: ignore[arg-type]

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        """Take the system's word."""
        if sig != signal.SIGTERM or self._crew.is_ending:
            super().handle_exit(sig, frame)
        else:
            self._crew.is_ending = True
            self._loop.call_soon_threadsafe(self._begin_to_end)

    def _begin_to_end(self) -> None:
        self._ending = self._loop.create_task(self._end())

    async def _end(self) -> None:
        latest = time.monotonic() + self._settings.long
        while not self._crew.is_idle and time.monotonic() < latest:
            await asyncio.sleep(_LOOKING)
        await asyncio.sleep(max(0.0, self._crew.last_ended + _FETCHING - time.monotonic()))
        self.should_exit = True
