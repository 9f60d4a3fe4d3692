"""Workers: one that is ended or takes too long harms nobody else, and asks are shared out fairly."""

from __future__ import annotations

import asyncio
import os
import signal
from collections.abc import Awaitable, Callable
from dataclasses import replace
from typing import Any

from draft.page.crew import Crew, Done, Job
from draft.page.page_settings import Settings

SETTINGS = Settings(hands=2)
SHELF: dict[str, Any] = {}
LONG = {"garment": "marlpit", "pages": ["a4", "letter"], "wanted": ["booklet"]}


def with_crew(work: Callable[[Crew], Awaitable[None]], settings: Settings = SETTINGS) -> None:
    """Run something with a crew that is ready."""

    async def whole() -> None:
        crew = Crew(settings)
        await crew.start()
        try:
            while crew.ready < settings.hands:
                await asyncio.sleep(0.05)
            await work(crew)
        finally:
            await crew.stop()
        for number in crew.processes:
            assert not _is_alive(number)

    asyncio.run(asyncio.wait_for(whole(), 120))


def _is_alive(number: int) -> bool:
    try:
        os.kill(number, 0)
    except ProcessLookupError:
        return False
    return True


def asked(crew: Crew, verb: str, about: Any, owner: str = "one", is_long: bool = False) -> Job:
    """An ask of which nobody hears the steps."""
    return crew.ask(verb, about, owner, is_long, lambda words: None)


async def come_to(job: Job) -> Done:
    """What an ask comes to."""
    return await asyncio.wait_for(asyncio.shield(job.done), 60)


def test_a_worker_that_is_killed_loses_its_own_ask_alone() -> None:
    async def work(crew: Crew) -> None:
        doomed = asked(crew, "take", LONG, "one", is_long=True)
        others = [asked(crew, "shelf", SHELF, f"other {k}") for k in range(5)]
        await asyncio.sleep(0.2)
        assert doomed.hand
        os.kill(doomed.hand.process.pid, signal.SIGKILL)
        assert "broke off" in str((await come_to(doomed)).said["notes"])
        for other in others:
            assert (await come_to(other)).said["gave"]["groups"]
        again = asked(crew, "shelf", SHELF)
        assert (await come_to(again)).said["gave"]["groups"]
        while crew.ready < 2:  # another takes its place
            await asyncio.sleep(0.05)

    with_crew(work)


def test_what_takes_too_long_is_stopped_and_told() -> None:
    async def work(crew: Crew) -> None:
        late = asked(crew, "take", LONG, is_long=True)
        assert "took longer" in str((await come_to(late)).said["notes"])
        assert (await come_to(asked(crew, "shelf", SHELF))).said["gave"]["groups"]

    with_crew(work, replace(SETTINGS, long=0.3, short=60.0))


def test_a_long_ask_leaves_a_worker_for_the_others() -> None:
    async def work(crew: Crew) -> None:
        long_ones = [asked(crew, "take", LONG, f"maker {k}", is_long=True) for k in range(2)]
        quick = asked(crew, "shelf", SHELF, "sewist")
        await come_to(quick)
        assert not long_ones[1].done.done() and long_ones[1].hand is None
        for job in long_ones:
            crew.drop(job)

    with_crew(work)


def test_who_asks_much_does_not_keep_others_waiting() -> None:
    async def work(crew: Crew) -> None:
        many = [asked(crew, "card", {"garment": "marlpit"}, "greedy") for _ in range(8)]
        one = asked(crew, "shelf", SHELF, "modest")
        await come_to(one)
        assert sum(job.done.done() for job in many) <= 4
        for job in many:
            crew.drop(job)

    with_crew(work)


def test_an_ask_that_was_dropped_is_not_begun() -> None:
    async def work(crew: Crew) -> None:
        first = [asked(crew, "card", {"garment": "marlpit"}, "one") for _ in range(2)]
        waits = asked(crew, "take", LONG, "one", is_long=True)
        crew.drop(waits)
        assert (await come_to(waits)).said == {"overtaken": True}
        for job in first:
            await come_to(job)

    with_crew(work)


def test_more_than_can_wait_is_told_to_come_again() -> None:
    async def work(crew: Crew) -> None:
        jobs = [asked(crew, "shelf", SHELF, str(k)) for k in range(260)]
        told = [job for job in jobs if job.done.done() and "at once" in str(job.done.result().said)]
        assert 40 <= len(told) <= 60
        for job in jobs:
            crew.drop(job)

    with_crew(work)
