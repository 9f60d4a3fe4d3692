"""The page put together: what a browser may ask for by an address, and the line that it asks everything else by."""

from __future__ import annotations

import asyncio
import contextlib
import secrets
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, select_autoescape
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Mount, Route, WebSocketRoute
from starlette.staticfiles import StaticFiles
from starlette.websockets import WebSocket

from draft.page.crew import Crew
from draft.page.editor_files import editor_files, editor_map
from draft.page.guard import Guard, cookie
from draft.page.live_line import Line
from draft.page.made_files import MadeFiles
from draft.page.page_settings import Settings
from draft.page.page_words import page_words
from draft.page.watching import watched
from draft.paper.drawing.spoken_languages import languages

HERE = Path(__file__).parent


class Site:
    """One page with its workers, its open lines, and what it made."""

    def __init__(self, settings: Settings, crew: Crew | None = None) -> None:
        self.settings = settings
        self.crew = crew or Crew(settings)
        self.made = MadeFiles()
        self.lines: set[Line] = set()
        self.left = asyncio.Event()
        self._leaves = Environment(
            loader=FileSystemLoader(HERE / "templates"), autoescape=select_autoescape(default=True)
        )

    def app(self) -> Guard:
        """The whole, as a server takes it."""
        return Guard(Starlette(routes=self._routes(), lifespan=self._lasting), self.settings)

    def _routes(self) -> list[Route | Mount | WebSocketRoute]:
        fonts = Path(__file__).parent.parent / "paper" / "font"
        return [
            Route("/", self._leaf("sewing.html")),
            Route("/design", self._leaf("design.html")),
            Route("/enter", self._enter),
            Route("/health", self._health),
            Route("/words/{language}.json", self._words),
            Route("/made/{ticket}/{number:int}", self._take),
            WebSocketRoute("/live", self._live),
            Mount("/static", StaticFiles(directory=HERE / "static")),
            Route("/editor/{name:path}", self._editor_file),
            Mount("/font", StaticFiles(directory=fonts)),
        ]

    @contextlib.asynccontextmanager
    async def _lasting(self, _app: Starlette) -> AsyncIterator[None]:
        await self.crew.start()
        watching = asyncio.create_task(watched(self.settings.file, self._tell))
        try:
            yield
        finally:
            watching.cancel()
            await self.crew.stop()
            self.made.close()

    async def _tell(self, said: dict[str, Any]) -> None:
        await asyncio.gather(*(line.say(said) for line in list(self.lines)))

    # ---- by an address

    def _leaf(self, name: str) -> Any:
        async def shown(request: Request) -> Response:
            file = self.settings.file
            words = {
                "editor": editor_map(),
                "nonce": request.state.nonce,
                "languages": languages(),
                "file": file.name if file else "",
                "keeps": self.settings.people is not None,
            }
            return Response(self._leaves.get_template(name).render(words), media_type="text/html")

        return shown

    async def _enter(self, request: Request) -> Response:
        """The key in the address is taken out of it at once, and kept by the browser alone."""
        given = request.query_params.get("key", "")
        if not self.settings.key or not secrets.compare_digest(given.encode(), self.settings.key.encode()):
            return PlainTextResponse("Open this page by the address that `plainseam page` shows.\n", 401)
        answer = RedirectResponse("/design" if self.settings.file else "/", 303)
        answer.headers.append("set-cookie", cookie(self.settings.key, secure=False))
        return answer

    async def _health(self, _request: Request) -> Response:
        ready = 0 if self.crew.is_ending else self.crew.ready
        return JSONResponse({"ready": ready > 0, "workers": ready}, 200 if ready else 503)

    async def _words(self, request: Request) -> Response:
        language = request.path_params["language"]
        if language not in languages():
            return PlainTextResponse("There are no words in this language.\n", 404)
        return JSONResponse(page_words(language))

    async def _editor_file(self, request: Request) -> Response:
        """A module of the editor, under the name that it is imported by."""
        found = (editor_files() or {}).get(request.path_params["name"].removesuffix(".js"))
        if found is None:
            return PlainTextResponse("There is no such part of the editor.\n", 404)
        return FileResponse(found, media_type="text/javascript")

    async def _take(self, request: Request) -> Response:
        found = self.made.find(request.state.visitor, request.path_params["ticket"], request.path_params["number"])
        if found is None:
            return PlainTextResponse("This file is gone: make it again.\n", 404)
        name, place = found
        return FileResponse(place, filename=Path(name).name, content_disposition_type="attachment")

    async def _live(self, socket: WebSocket) -> None:
        if len(self.lines) >= self.settings.visitors:
            await socket.close(1013, "too many people are here: come again a little later")
            return
        line = Line(socket, self.crew, self.made, self.settings)
        self.lines.add(line)
        try:
            await line.serve()
        finally:
            self.lines.discard(line)
            if self.settings.lingers and not self.lines:
                asyncio.get_running_loop().call_later(self.settings.lingers, self._leave)

    def _leave(self) -> None:
        """Nobody has come back meanwhile."""
        if not self.lines:
            self.left.set()
