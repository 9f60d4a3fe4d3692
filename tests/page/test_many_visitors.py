"""Twenty people at once, and one at random for a long time: tables, run by `pytest tests/page -m slow -s -n 0`."""

from __future__ import annotations

import asyncio
import os
import time
from pathlib import Path
from urllib.parse import urlsplit

import numpy as np
import pytest

from tests.page.conftest import page_started
from tests.page.visitors import Visitor, memory_of

pytestmark = pytest.mark.slow


def _cookie(address: str) -> str:
    return f"plainseam={urlsplit(address).query.partition('=')[2]}"


def test_twenty_people_at_once(tmp_path: Path) -> None:
    """Nobody is refused, and nobody is told another's bust."""
    process, address = page_started(tmp_path)
    visitors = [Visitor(address, _cookie(address), number) for number in range(20)]

    async def all_visit() -> list[list[dict[str, object]]]:
        first = Visitor(address, _cookie(address), 99)
        await first.visit(4, 0.0)
        return await asyncio.gather(*(one.visit(12, 4.0) for one in visitors))

    try:
        found = asyncio.run(all_visit())
    finally:
        process.terminate()
        process.wait(20)
    for visitor, answers in zip(visitors, found, strict=True):
        assert all("gave" in answer for answer in answers), [a for a in answers if "gave" not in a]
        seen = [one for answer in answers if answer["verb"] == "sit" for one in answer["gave"]["levels"]]  # type: ignore[index]
        busts = [one["rows"][0]["body"] for one in seen if one["title"] == "Bust"]
        assert set(busts) <= {f"{round(visitor.bust, 1):g} cm"}
    times = np.array([one for visitor in visitors for one in visitor.times])
    half, most, worst = (float(np.quantile(times, share)) for share in (0.5, 0.95, 1.0))
    print(f"\n20 people, {len(times)} asks: half in {half:.2f} s, 95 % in {most:.2f} s, all in {worst:.2f} s")


def test_a_long_visit_takes_no_more_and_more_memory(tmp_path: Path) -> None:
    """Minutes by PLAINSEAM_VISIT, 60 for the hour that is asked for; 3 otherwise."""
    minutes = float(os.environ.get("PLAINSEAM_VISIT", "3"))
    process, address = page_started(tmp_path)
    held: list[float] = []

    async def visit() -> int:
        end, asks = time.monotonic() + 60 * minutes, 0
        while time.monotonic() < end:
            visitor = Visitor(address, _cookie(address), len(held))
            answers = await visitor.visit(40, 0.0)
            assert all("gave" in answer or "notes" in answer for answer in answers)
            assert not any(answer.get("fault") for answer in answers)
            asks += len(answers)
            held.append(memory_of(process.pid))
        return asks

    try:
        asks = asyncio.run(visit())
    finally:
        process.terminate()
        process.wait(20)
    shown = ", ".join(f"{held[k]:.0f}" for k in np.linspace(0, len(held) - 1, min(8, len(held))).astype(int))
    print(f"\n{minutes:g} minutes, {asks} asks: the page and its workers hold {shown} MB")
