"""The one line between a browser and the page: asks one way, answers and news the other, until either hangs up.

An ask is `{"n": 7, "verb": "sit", "asked": {...}}`, answered by one message with the same number: `gave` with what was
asked for, `notes` with why not, or `overtaken` where a later ask of the same verb has come meanwhile. Before it `step`
may tell how far it is. `{"n": 7, "drop": true}` takes one back. What the page says by itself has a `kind`.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import time
from typing import Any

from starlette.websockets import WebSocket, WebSocketDisconnect

from draft.page.crew import Crew, Job
from draft.page.made_files import MadeFiles
from draft.page.page_settings import Settings

LARGEST = 1_000_000
"""Letters of one ask: the longest pattern with its styles."""
AT_ONCE = 12
"""Asks of one browser that are not answered yet."""
LONG = frozenset({"take", "amount", "count_pages", "on_form"})
"""Verbs that may take longer than a drawing."""
_BURST = 60.0


class Line:
    """One browser's line."""

    def __init__(self, socket: WebSocket, crew: Crew, made: MadeFiles, settings: Settings) -> None:
        self._socket, self._crew, self._made, self._settings = socket, crew, made, settings
        self._visitor = str(socket.scope["state"]["visitor"])
        self._owner = f"{self._visitor}/{id(self)}"
        self._jobs: dict[int, Job] = {}
        self._by_verb: dict[str, int] = {}
        self._tasks: set[asyncio.Task[None]] = set()
        self._sending = asyncio.Lock()
        self._left, self._since = _BURST, time.monotonic()

    async def serve(self) -> None:
        """Answer until the browser is gone."""
        await self._socket.accept()
        try:
            while True:
                text = await self._socket.receive_text()
                if len(text) > LARGEST:
                    await self._socket.close(1009, "this is too long")
                    return
                await self._hear(text)
        except (WebSocketDisconnect, KeyError):
            pass
        finally:
            for job in list(self._jobs.values()):
                self._crew.drop(job)
            for task in self._tasks:
                task.cancel()

    async def say(self, said: dict[str, Any]) -> None:
        """Tell the browser something; nothing where it is gone."""
        with contextlib.suppress(RuntimeError, WebSocketDisconnect):
            async with self._sending:
                await self._socket.send_text(json.dumps(said, ensure_ascii=False, separators=(",", ":")))

    async def _hear(self, text: str) -> None:
        try:
            said = json.loads(text)
            number, verb = int(said["n"]), str(said.get("verb", ""))
        except (ValueError, KeyError, TypeError, OverflowError, RecursionError):
            return
        if said.get("drop"):
            self._drop(number)
        elif not self._may_ask() or len(self._jobs) >= AT_ONCE:
            await self.say({"n": number, "overtaken": True, "busy": True})
        else:
            self._begin(number, verb, said.get("asked"))

    def _begin(self, number: int, verb: str, asked: Any) -> None:
        channel = _channel(verb, asked)
        self._drop(self._by_verb.get(channel, -1))

        def step(words: str) -> None:
            self._later(self.say({"n": number, "step": words}))

        job = self._crew.ask(verb, asked, self._owner, verb in LONG, step)
        self._jobs[number], self._by_verb[channel] = job, number
        self._later(self._answer(number, job, channel))

    async def _answer(self, number: int, job: Job, channel: str) -> None:
        done = await job.done
        self._jobs.pop(number, None)
        if self._by_verb.get(channel) == number:
            del self._by_verb[channel]
        said = {"n": number, **done.said}
        if done.files:
            said["files"] = self._made.keep(self._visitor, done.files)
        await self.say(said)

    def _drop(self, number: int) -> None:
        job = self._jobs.get(number)
        if job:
            self._crew.drop(job)

    def _later(self, work: Any) -> None:
        task = asyncio.get_running_loop().create_task(work)
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)

    def _may_ask(self) -> bool:
        """Whether a visitor of a public page has not asked too much lately."""
        if not self._settings.public:
            return True
        now = time.monotonic()
        self._left = min(_BURST, self._left + (now - self._since) * self._settings.asks_a_second)
        self._since = now
        self._left -= 1
        return self._left >= 0


def _channel(verb: str, asked: Any) -> str:
    """What a later ask overtakes: the same verb, about the same thing where it says which."""
    about = asked.get("about") if isinstance(asked, dict) else None
    return f"{verb} {about}" if isinstance(about, str) else verb
