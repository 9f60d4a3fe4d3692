"""Many visitors of one page at once, and one for a long time: what `tests/page/test_many_visitors.py` measures.

Traffic goes to a page that was started for it on this machine, in a number of asks that is set beforehand.
"""

from __future__ import annotations

import asyncio
import json
import random
import time
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from websockets.asyncio.client import ClientConnection, connect

GARMENTS = ("marlpit", "tidemill", "ropewalk", "roundhouse", "netloft")
STYLES = {"marlpit": ("neckline", ("crew", "scoop", "boat", "vee")), "tidemill": ("neckline", ("crew", "scoop"))}


class Visitor:
    """One browser's line to a page, with a person whose measures nobody else has."""

    def __init__(self, address: str, cookie: str, number: int) -> None:
        self.address, self.cookie, self.number = address, cookie, number
        self.chance = random.Random(number)
        self.bust = 84 + number % 40 + number / 1000
        self.times: list[float] = []

    def asked(self) -> dict[str, Any]:
        """What a form asks after a change."""
        garment = self.chance.choice(GARMENTS)
        measures = {
            "bust_girth": f"{self.bust:.3f} cm",
            "waist_girth": f"{self.bust - 16 + self.chance.uniform(-3, 3):.1f} cm",
            "hip_girth": f"{self.bust + 7 + self.chance.uniform(-3, 3):.1f} cm",
            "stature": f"{self.chance.uniform(155, 178):.0f} cm",
        }
        name, options = STYLES.get(garment, ("", ()))
        styles = {name: self.chance.choice(options)} if name else {}
        return {"garment": garment, "measures": measures, "styles": styles, "units": "cm"}

    async def ask(self, line: ClientConnection, number: int, verb: str, asked: dict[str, Any]) -> dict[str, Any]:
        """One ask and its answer."""
        begun = time.perf_counter()
        await line.send(json.dumps({"n": number, "verb": verb, "asked": asked}))
        while True:
            said = json.loads(await asyncio.wait_for(line.recv(), 120))
            if said.get("n") == number and "step" not in said:
                self.times.append(time.perf_counter() - begun)
                return dict(said)

    async def visit(self, asks: int, pause: float) -> list[dict[str, Any]]:
        """So many changes with a breath between, each looked at as it is drawn and as it sits."""
        place = urlsplit(self.address)
        headers = {"Cookie": self.cookie, "Origin": f"http://{place.netloc}"}
        found = []
        async with connect(f"ws://{place.netloc}/live", additional_headers=headers, max_size=None) as line:
            for number in range(asks):
                asked = self.asked()
                verb = ("drawn", "sit")[number % 2]
                said = await self.ask(line, number, verb, asked)
                found.append({"verb": verb, **said})
                await asyncio.sleep(pause * self.chance.uniform(0.5, 1.5))
        return found


def memory_of(process: int) -> float:
    """What a process and its children hold, MB; 0 where this system does not tell."""
    whole = 0.0
    for number in (process, *_children(process)):
        try:
            status = Path(f"/proc/{number}/status").read_text()
        except OSError:
            continue
        whole += sum(float(line.split()[1]) / 1000 for line in status.splitlines() if line.startswith("VmRSS"))
    return whole


def _children(process: int) -> list[int]:
    try:
        return [int(one) for one in Path(f"/proc/{process}/task/{process}/children").read_text().split()]
    except OSError:
        return []
