"""Two visitors who each let a toile settle: who stops stops nobody else, leaves nothing behind, and makes room."""

from __future__ import annotations

import asyncio
import json
import os
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from websockets.asyncio.client import connect

from draft.page.crew import Crew, Job
from tests.page.conftest import page_started
from tests.page.test_crew import SETTINGS, come_to, with_crew
from tests.page.test_sewing_verbs import HERS
from tests.page.visitors import memory_of

THEIRS: dict[str, Any] = {**HERS, "measures": {**HERS["measures"], "hip_girth": "112 cm"}}


def _settle(crew: Crew, asked: dict[str, Any], owner: str, pictures: list[str]) -> Job:
    """A toile, of which every picture is kept."""

    def step(words: str) -> None:
        if "picture" in json.loads(words):
            pictures.append(words)

    return crew.ask("on_form", asked, owner, True, step)


async def _until(pictures: list[str], more_than: int) -> None:
    while len(pictures) <= more_than:
        await asyncio.sleep(0.05)


def _begun_by(process: int) -> list[int]:
    tasks = Path(f"/proc/{process}/task/{process}/children")
    return [int(one) for one in tasks.read_text().split()] if tasks.exists() else []


def _runs(process: int) -> bool:
    try:
        state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state != "Z"


@pytest.mark.skipif(sys.platform != "linux", reason="looks at processes as Linux tells of them")
def test_who_stops_stops_nobody_else() -> None:
    """With three workers both settle at once; the stopped one's helper in another process ends as well."""

    async def work(crew: Crew) -> None:
        hers, theirs = list[str](), list[str]()
        one, other = _settle(crew, HERS, "she", hers), _settle(crew, THEIRS, "he", theirs)
        await asyncio.gather(_until(hers, 0), _until(theirs, 0))
        assert one.hand and other.hand and one.hand is not other.hand
        gone = [one.hand.process.pid, *_begun_by(one.hand.process.pid)]
        assert len(gone) == 2 or (os.cpu_count() or 1) < 2
        seen = len(theirs)
        crew.drop(one)
        assert (await come_to(one)).said == {"overtaken": True}
        await _until(theirs, seen)
        assert not other.done.done()
        for _ in range(600):
            if not any(_runs(process) for process in gone):
                break
            await asyncio.sleep(0.1)
        assert not any(_runs(process) for process in gone)
        crew.drop(other)

    with_crew(work, replace(SETTINGS, hands=3))


def test_the_next_begins_once_one_stops() -> None:
    """Of two workers one is kept for what is quick: the second toile waits, and begins once the first is stopped."""

    async def work(crew: Crew) -> None:
        hers, theirs = list[str](), list[str]()
        one, other = _settle(crew, HERS, "she", hers), _settle(crew, THEIRS, "he", theirs)
        await _until(hers, 0)
        assert other.hand is None and not theirs
        assert (await come_to(crew.ask("shelf", {}, "he", False, lambda words: None))).said["gave"]["groups"]
        crew.drop(one)
        await _until(theirs, 0)
        crew.drop(other)

    with_crew(work)


@pytest.mark.slow
def test_two_visitors_of_a_real_page_and_what_they_hold(tmp_path: Path) -> None:
    """One stops, the other is shown hers; prints the time that it took and the memory of all processes."""
    process, address = page_started(tmp_path)
    place = urlsplit(address)
    cookie = f"plainseam={place.query.partition('=')[2]}"
    held: list[float] = []

    async def visit(asked: dict[str, Any], stops: bool) -> dict[str, Any]:
        headers = {"Cookie": cookie, "Origin": f"http://{place.netloc}"}
        async with connect(f"ws://{place.netloc}/live", additional_headers=headers, max_size=None) as line:
            await line.send(json.dumps({"n": 1, "verb": "on_form", "asked": asked}))
            while True:
                said = json.loads(await asyncio.wait_for(line.recv(), 400))
                if said.get("n") != 1:
                    continue
                held.append(memory_of(process.pid))
                if "step" not in said:
                    return dict(said)
                if stops and "picture" in said["step"]:
                    await line.send(json.dumps({"n": 1, "drop": True}))

    async def both() -> list[dict[str, Any]]:
        return await asyncio.gather(visit(HERS, True), visit(THEIRS, False))

    try:
        stopped, shown = asyncio.run(both())
    finally:
        process.terminate()
        process.wait(20)
    assert stopped.get("overtaken") and len(shown["gave"]["pictures"]) == 3
    assert "A form of your measures, not you." in shown["gave"]["not_you"]
    print(f"\ntwo visitors, one of whom stops: at most {max(held):.0f} MB in all processes")
