"""A page for others ends what is begun before it goes, and takes nothing new on meanwhile."""

from __future__ import annotations

import asyncio
import json
import re
import signal
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from websockets.asyncio.client import ClientConnection, connect

from tests.page.conftest import page_started
from tests.page.test_guard import PUBLIC, fetched

HERS = {"Cookie": f"plainseam={'c' * 24}", "Host": "seams.example", "Origin": PUBLIC}
TAKE = {"garment": "roundhouse", "sizes": ["M"], "pages": ["a4"], "wanted": ["pattern"], "widths": []}


@pytest.fixture
def public(tmp_path: Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """A public page, and where a proxy finds it."""
    process, _ = page_started(tmp_path, "--public", PUBLIC)
    assert process.stdout
    listens = re.search(r"http://\S+", process.stdout.readline())
    assert listens
    yield process, listens[0]
    process.kill()
    process.wait(20)


async def heard(line: ClientConnection, *numbers: int) -> list[dict[str, Any]]:
    """The answers to asks, in whatever order they come."""
    found: dict[int, dict[str, Any]] = {}
    while not found.keys() >= set(numbers):
        said = json.loads(await asyncio.wait_for(line.recv(), 120))
        if "step" not in said:
            found[said["n"]] = dict(said)
    return [found[number] for number in numbers]


def test_what_is_begun_is_handed_over(public: tuple[subprocess.Popen[str], str]) -> None:
    process, address = public
    place, more = urlsplit(address), {key: value for key, value in HERS.items() if key != "Host"}
    where = {"host": place.hostname, "port": place.port, "additional_headers": more, "max_size": None}

    async def talk() -> list[dict[str, Any]]:
        async with connect("ws://seams.example/live", **where) as line:
            await line.send(json.dumps({"n": 1, "verb": "take", "asked": TAKE}))
            await asyncio.wait_for(line.recv(), 120)  # the first step: it is begun
            process.send_signal(signal.SIGTERM)
            await asyncio.sleep(0.3)
            await line.send(json.dumps({"n": 2, "verb": "shelf", "asked": {}}))
            return await heard(line, 2, 1)

    refused, made = asyncio.run(talk())
    assert refused["notes"][0]["say"] == "notes.page_is_closing"
    (file,) = made["files"]
    assert fetched(address, file["href"], HERS)[2].startswith(b"%PDF")
    assert fetched(address, "/health")[0] == 503
    assert process.wait(60) in (0, -signal.SIGTERM)


def test_it_goes_at_once_where_nothing_is_begun(public: tuple[subprocess.Popen[str], str]) -> None:
    process, address = public
    assert fetched(address, "/health")[0] in (200, 503)
    process.send_signal(signal.SIGTERM)
    assert process.wait(20) in (0, -signal.SIGTERM)
