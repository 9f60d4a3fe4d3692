"""The workers of a page: so many processes, one ask each at a time, and none that can hold up or harm another's.

Whoever has least at work goes first. A long ask never takes the last free worker where there are two. A worker that
takes too long or breaks is ended, its ask is answered with a note, and another is started in its place.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import math
import time
from asyncio.subprocess import PIPE, Process
from collections.abc import Callable
from dataclasses import field
from typing import Any

from draft.base.framing import HEAD, LARGEST, Message, message, opened
from draft.base.itself import started_as
from draft.base.notes import Note, error
from draft.base.plainly import Typed, sentence
from draft.base.record import dataclass
from draft.page.notes_told import notes_told
from draft.page.page_settings import Settings

WAITING = 200
"""Asks of all visitors that may wait; more are told to come again."""
RENEWED = 3000
"""Asks after which a worker is replaced: nothing that it forgot to let go of lasts for ever."""
STARTING = 60.0

Step = Callable[[str], object]


@dataclass(eq=False)
class Done:
    """What an ask came to: the last message, and the files that came before it."""

    said: Message
    files: dict[str, bytes] = field(default_factory=dict)


@dataclass(eq=False)
class Job:
    """One ask that waits or is worked on."""

    verb: str
    asked: Any
    owner: str
    is_long: bool
    step: Step
    done: asyncio.Future[Done]
    hand: Hand | None = None


@dataclass(eq=False)
class Hand:
    """One worker process."""

    process: Process
    job: Job | None = None
    last: str = ""
    verbs: set[str] = field(default_factory=set)
    """What it was last asked, and by whom: it has at hand what that leans on."""
    count: int = 0
    is_ready: bool = False

    def knows(self, job: Job) -> int:
        """How much of what an ask leans on is at hand."""
        return 1 + (job.verb in self.verbs) if self.last == job.owner else 0

    def take(self, job: Job) -> None:
        """Begin with an ask."""
        self.verbs = {*self.verbs, job.verb} if self.last == job.owner else {job.verb}
        self.job, job.hand, self.last = job, self, job.owner


class Crew:
    """Workers that are started together and end together."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings
        self._hands: list[Hand] = []
        self._waiting: list[Job] = []
        self._tasks: set[asyncio.Task[None]] = set()
        self._is_open = False
        self.is_ending = False
        """Whether what is begun is ended, and nothing new is taken on."""
        self.last_ended = -math.inf
        """When a worker last came to an end with an ask, by the clock that only goes forward."""

    async def start(self) -> None:
        """Start the workers, once; they are there for asks from now on, and ready a breath later."""
        if self._is_open:
            return
        self._is_open = True
        await asyncio.gather(*(self._hire() for _ in range(self._settings.hands)))

    async def stop(self) -> None:
        """End all of them; what waits is told so."""
        self._is_open = False
        for job in [*self._waiting, *(hand.job for hand in self._hands if hand.job)]:
            _settle(job, _refused("page_is_closing", "the page is being closed"))
        self._waiting.clear()
        for hand in self._hands:
            _end(hand)
        await asyncio.gather(*(hand.process.wait() for hand in self._hands), return_exceptions=True)
        for task in self._tasks:
            task.cancel()

    @property
    def ready(self) -> int:
        """How many workers can be asked."""
        return sum(hand.is_ready for hand in self._hands)

    @property
    def is_idle(self) -> bool:
        """Whether nothing is worked on, and nothing waits for it."""
        return not self._waiting and all(hand.job is None for hand in self._hands)

    @property
    def processes(self) -> list[int]:
        """The workers' process numbers."""
        return [hand.process.pid for hand in self._hands]

    def ask(self, verb: str, asked: Any, owner: str, is_long: bool, step: Step) -> Job:
        """Have a verb worked on; the job's `done` gives what it comes to."""
        job = Job(verb, asked, owner, is_long, step, asyncio.get_running_loop().create_future())
        if self.is_ending:
            _settle(job, _refused("page_is_closing", "the page is being closed"))
            return job
        if not self._is_open or len(self._waiting) >= WAITING:
            _settle(job, _refused("page_is_busy", "too many people ask at once", "wait a little and ask again"))
            return job
        self._waiting.append(job)
        self._pump()
        return job

    def drop(self, job: Job) -> None:
        """Nobody waits for this any more: it is not begun, and a long one is stopped."""
        if job in self._waiting:
            self._waiting.remove(job)
        elif job.hand and job.is_long and not job.done.done():
            _end(job.hand)
        _settle(job, {"overtaken": True})

    # ---- which ask is next, and whose

    def _pump(self) -> None:
        while (free := self._free()) and (job := self._next()):
            mine = max(free, key=lambda hand: hand.knows(job))
            self._waiting.remove(job)
            mine.take(job)
            self._keep(self._work(mine, job))

    def _free(self) -> list[Hand]:
        return [hand for hand in self._hands if hand.is_ready and hand.job is None]

    def _next(self) -> Job | None:
        at_work = [hand.job for hand in self._hands if hand.job]
        long_ones = sum(job.is_long for job in at_work)
        room = long_ones < max(1, len(self._hands) - 1)
        known = [job for job in self._waiting if room or not job.is_long]
        return min(known, key=lambda job: sum(other.owner == job.owner for other in at_work), default=None)

    # ---- one worker

    async def _hire(self) -> None:
        s = self._settings
        given = {"memory": s.memory, "people": s.people and str(s.people), "file": s.file and str(s.file)}
        process = await asyncio.create_subprocess_exec(
            *started_as("draft.page.hand", json.dumps(given)),
            stdin=PIPE,
            stdout=PIPE,
            start_new_session=True,  # the keyboard's interrupt is the page's to answer
        )
        hand = Hand(process)
        self._hands.append(hand)
        self._keep(self._welcome(hand))

    async def _welcome(self, hand: Hand) -> None:
        try:
            said = await asyncio.wait_for(_read(hand.process), STARTING)
            hand.is_ready = isinstance(said, dict) and bool(said.get("ready"))
        except (TimeoutError, OSError, ValueError, asyncio.IncompleteReadError):
            hand.is_ready = False
        if hand.is_ready:
            self._pump()
        else:
            _end(hand)

    async def _work(self, hand: Hand, job: Job) -> None:
        seconds = self._settings.long if job.is_long else self._settings.short
        try:
            done = await asyncio.wait_for(_talk(hand.process, job), seconds)
        except TimeoutError:
            done = None
            fact = f"this took longer than {seconds:.0f} seconds and was stopped"
            _settle(job, _refused("took_too_long", fact, "ask for less", seconds=Typed(f"{seconds:.0f}")))
        except (OSError, ValueError, asyncio.IncompleteReadError):
            done = None
            fix = "try again; if it happens again, ask for less at a time"
            _settle(job, _refused("broke_off", "this broke off: it took too much, or something was stopped", fix))
        hand.job, job.hand = None, None
        hand.count += 1
        self.last_ended = time.monotonic()
        if done is not None and not job.done.done():
            job.done.set_result(done)
        if done is None or hand.count >= RENEWED:
            await self._replace(hand)
        self._pump()

    async def _replace(self, hand: Hand) -> None:
        _end(hand)
        self._hands.remove(hand)
        if self._is_open:
            await self._hire()

    def _keep(self, work: Any) -> None:
        task = asyncio.get_running_loop().create_task(work)
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)


async def _talk(process: Process, job: Job) -> Done:
    assert process.stdin
    process.stdin.write(message({"verb": job.verb, "asked": job.asked}))
    await process.stdin.drain()
    files: dict[str, bytes] = {}
    while True:
        said = await _read(process)
        if isinstance(said, tuple):
            files[said[0]] = said[1]
        elif "step" in said:
            job.step(str(said["step"]))
        else:
            return Done(said, files)


async def _read(process: Process) -> Message | tuple[str, bytes]:
    assert process.stdout
    sort, length = HEAD.unpack(await process.stdout.readexactly(HEAD.size))
    if length > LARGEST:
        raise ValueError("this is too long for a message")
    return opened(sort, await process.stdout.readexactly(length))


def _settle(job: Job, said: Message) -> None:
    if not job.done.done():
        job.done.set_result(Done(said))


def _refused(key: str, fact: str, *hints: str, **parts: Typed) -> Message:
    notes: list[Note] = [error(fact, None, *hints, plainly=sentence(key, **parts))]
    return {"notes": notes_told(notes)}


def _end(hand: Hand) -> None:
    hand.is_ready = False
    with contextlib.suppress(ProcessLookupError):
        hand.process.kill()
