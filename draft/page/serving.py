"""The page started and ended: its port, its key, the browser."""

from __future__ import annotations

import asyncio
import contextlib
import os
import secrets
import socket
import sys
import threading
import time
import webbrowser
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import platformdirs

from draft.base.notes import Problems, error
from draft.page.crew import Crew
from draft.page.page_settings import PORT, Settings

_ENDING = 5
"""Seconds that open lines have to hang up."""


def serve(settings: Settings, open_browser: bool, tell: Callable[[str], object]) -> None:
    """Serve until the keyboard's interrupt, or the system's word to end. Raises `Problems` where no port can be had."""
    listening = _listening(settings)
    settings = replace(settings, port=listening.getsockname()[1])
    with contextlib.suppress(KeyboardInterrupt):
        _run(settings, listening, open_browser, tell)


def _run(settings: Settings, listening: socket.socket, open_browser: bool, tell: Callable[[str], object]) -> None:
    address = f"{settings.address}/enter?key={settings.key}" if settings.key else settings.address
    tell(f"the page is at {address}")
    if settings.public:
        tell(f"its proxy finds it at http://{settings.host}:{settings.port}")
    tell("leave it with Ctrl-C")
    if open_browser:
        threading.Thread(target=_show, args=(settings.port, address), daemon=True).start()
    asyncio.run(_served(settings, listening))


async def _served(settings: Settings, listening: socket.socket) -> None:
    """Serve until it is told to end, or the last reader has left a page that does not stay.

    The workers are started first, and find their way while the server's own libraries are read.
    """
    crew = Crew(settings)
    await crew.start()
    import uvicorn

    from draft.page.gentle_end import GentleServer
    from draft.page.site import Site

    site = Site(settings, crew)
    config = uvicorn.Config(
        site.app(),
        log_level="warning",
        access_log=False,  # addresses say who makes what
        server_header=False,
        date_header=False,
        ws="websockets-sansio",
        ws_max_size=2_000_000,
        timeout_graceful_shutdown=_ENDING,
        proxy_headers=False,
        limit_concurrency=settings.visitors * 4,
    )
    server = GentleServer(config, crew, settings) if settings.public else uvicorn.Server(config)

    async def wait() -> None:
        await site.left.wait()
        server.should_exit = True

    waiting = asyncio.create_task(wait())
    try:
        await server.serve(sockets=[listening])
    finally:
        waiting.cancel()
        await crew.stop()


def kept_key() -> str:
    """The key of this user's pages: the same each time, so that a bookmark opens; in a file that nobody else reads."""
    place = Path(platformdirs.user_state_dir("plainseam", appauthor=False)) / "page-key"
    with contextlib.suppress(OSError, UnicodeDecodeError):
        found = place.read_text("ascii").strip()
        if len(found) >= 32 and found.isascii() and found.replace("-", "").replace("_", "").isalnum():
            return found
    key = secrets.token_urlsafe(32)
    with contextlib.suppress(OSError):
        place.parent.mkdir(parents=True, exist_ok=True)
        with os.fdopen(os.open(place, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w") as file:
            file.write(key)
    return key


def people_folder() -> Path:
    """Where the measures of people are kept on this machine."""
    return Path(platformdirs.user_data_dir("plainseam", appauthor=False)) / "people"


def _listening(settings: Settings) -> socket.socket:
    """A socket that listens: at the port asked for, or at a free one where the usual is taken."""
    wanted = (settings.port, 0) if settings.port == PORT and not settings.public else (settings.port,)
    for port in wanted:
        listening = socket.socket(socket.AF_INET6 if ":" in settings.host else socket.AF_INET)
        try:
            if sys.platform != "win32":
                listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            listening.bind((settings.host, port))
            listening.listen(128)  # who comes before the server is up waits for it
        except (OSError, OverflowError) as taken:
            listening.close()
            reason = getattr(taken, "strerror", None) or "no such port"
            continue
        return listening
    fact = f"nothing can listen at {settings.host}, port {settings.port}: {str(reason).lower()}"
    raise Problems([error(fact, None, "give another with `--port 8766`")])


def _show(port: int, address: str) -> None:
    """Open the browser once there is somebody who answers."""
    for _ in range(200):
        with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", port), timeout=0.5):
            break
        time.sleep(0.05)
    webbrowser.open(address)
