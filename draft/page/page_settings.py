"""What a page is started with: where it listens, for whom, and what it may take."""

from __future__ import annotations

import os
from pathlib import Path

from draft.base.record import dataclass

PORT = 8765
LOOPBACK = ("127.0.0.1", "localhost", "[::1]")


@dataclass(frozen=True)
class Settings:
    """One page: for whoever sits at this machine, or `public` for others behind a proxy.

    `key` opens the local page to a browser that was given it; a public page has none, and knows no files.
    """

    port: int = PORT
    host: str = "127.0.0.1"
    key: str = ""
    public: str = ""
    """The address that others see, such as `https://seams.example`; empty for a page of this machine alone."""
    file: Path | None = None
    """The pattern that a designer opened."""
    people: Path | None = None
    """The folder of measures that are kept; None where nothing is kept."""
    hands: int = max(2, min(os.cpu_count() or 2, 8))
    """Worker processes."""
    short: float = 20.0
    """Seconds that a drawing may take, and a pack."""
    long: float = 180.0
    memory: int = 1_600_000_000
    """Bytes that a worker may take."""
    asks_a_second: float = 20.0
    """Of one visitor to a public page, over some seconds."""
    lingers: float = 0.0
    """Seconds after the last reader has left until the page ends by itself; 0 for a page that stays."""
    visitors: int = 200
    """Open pages at a time."""

    @property
    def origins(self) -> frozenset[str]:
        """The addresses that a browser may have this page under."""
        if self.public:
            return frozenset({self.public})
        return frozenset(f"http://{name}:{self.port}" for name in LOOPBACK)

    @property
    def address(self) -> str:
        """The page as its reader opens it."""
        return self.public or f"http://127.0.0.1:{self.port}"
