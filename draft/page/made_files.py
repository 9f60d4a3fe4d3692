"""Files made for somebody to download: kept for a while in a folder of this run alone, under a secret name."""

from __future__ import annotations

import secrets
import shutil
import tempfile
import time
from collections.abc import Mapping
from pathlib import Path

from draft.base.record import dataclass

LASTS = 1800.0
"""Seconds."""
OF_ONE = 6
"""Makings of one visitor that are there at a time."""


@dataclass(frozen=True)
class Made:
    """What one ask made: whose it is, when, and its files by their names."""

    owner: str
    at: float
    files: Mapping[str, Path]


class MadeFiles:
    """All that was made in this run; `close` takes it away."""

    def __init__(self) -> None:
        self._folder = Path(tempfile.mkdtemp(prefix="plainseam-page-"))
        self._made: dict[str, Made] = {}

    def keep(self, owner: str, files: Mapping[str, bytes]) -> list[dict[str, object]]:
        """Keep files for their owner; gives each one's `name`, `size` in bytes and `href`."""
        self._forget(owner)
        ticket = secrets.token_urlsafe(16)
        folder = self._folder / ticket
        folder.mkdir()
        places: dict[str, Path] = {}
        for number, (name, data) in enumerate(files.items()):
            places[name] = folder / str(number)  # what somebody else called it is never a path
            places[name].write_bytes(data)
        self._made[ticket] = Made(owner, time.monotonic(), places)
        return [
            {"name": name, "size": len(data), "href": f"/made/{ticket}/{number}"}
            for number, (name, data) in enumerate(files.items())
        ]

    def find(self, owner: str, ticket: str, number: int) -> tuple[str, Path] | None:
        """The name and place of a file; None for anybody but its owner, and once it is gone."""
        made = self._made.get(ticket)
        if made is None or made.owner != owner or not 0 <= number < len(made.files):
            return None
        return list(made.files.items())[number]

    def close(self) -> None:
        """Take everything away."""
        self._made.clear()
        shutil.rmtree(self._folder, ignore_errors=True)

    def _forget(self, owner: str) -> None:
        """What is old, and what its owner has made before the last few."""
        now = time.monotonic()
        mine = [ticket for ticket, made in self._made.items() if made.owner == owner]
        old = [ticket for ticket, made in self._made.items() if now - made.at > LASTS]
        for ticket in {*old, *mine[: max(0, len(mine) - OF_ONE + 1)]}:
            del self._made[ticket]
            shutil.rmtree(self._folder / ticket, ignore_errors=True)
