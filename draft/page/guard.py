"""Who may ask the page for anything, and what a browser may do with what it gets.

A page of this machine is opened by its key alone and by no other site's address; a public one gives each visitor a
cookie of her own. Nothing inline runs but what bears the nonce of its answer, and nothing comes from elsewhere.
"""

from __future__ import annotations

import secrets
from html import escape
from http.cookies import CookieError, SimpleCookie
from typing import Any

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import HTMLResponse, PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from draft.page.page_settings import Settings
from draft.page.page_words import page_words

COOKIE = "plainseam"
_UNKNOWN = "Open this page by the address that `plainseam page` shows."
_BARE = {"content-security-policy": "default-src 'none'; frame-ancestors 'none'", "x-content-type-options": "nosniff"}
"""Of a leaf of words alone."""
_YEAR = 365 * 24 * 3600
_OPEN = ("/health", "/enter")
"""What anybody may ask for, who is not known yet."""


class Guard:
    """Stands before everything else of the page."""

    def __init__(self, app: ASGIApp, settings: Settings) -> None:
        self._app, self._settings = app, settings

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let through what is asked rightly; refuse the rest in a sentence."""
        if scope["type"] not in ("http", "websocket"):
            await self._app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refused = self._refusal(scope, headers)
        if refused:
            await _refuse(scope, receive, send, *refused)
            return
        nonce = secrets.token_urlsafe(16)
        known = _visitor(headers)
        is_new = bool(self._settings.public) and not known
        scope["state"] = {**scope.get("state", {}), "nonce": nonce, "visitor": known or secrets.token_urlsafe(24)}

        async def send_guarded(said: Message) -> None:
            if said["type"] == "http.response.start":
                answer = MutableHeaders(scope=said)
                for name, value in self._headers(headers.get("host", ""), nonce).items():
                    answer.setdefault(name, value)
                if is_new and scope["path"] != "/health":
                    answer.append("set-cookie", cookie(scope["state"]["visitor"], secure=True))
            await send(said)

        await self._app(scope, receive, send_guarded)

    def _refusal(self, scope: Scope, headers: Headers) -> tuple[int, str] | None:
        """Why something is not let through: the status, and a sentence."""
        settings, path = self._settings, scope["path"]
        if path == "/health":
            return None
        scheme = "https" if settings.public.startswith("https:") else "http"
        if f"{scheme}://{headers.get('host', '')}" not in settings.origins:
            return 421, "This is not the address of this page."
        origin = headers.get("origin")
        if (origin is None and scope["type"] == "websocket") or (origin is not None and origin not in settings.origins):
            return 403, "Another site asked for this, and this page answers only itself."
        if scope["type"] == "http" and scope["method"] not in ("GET", "HEAD"):
            return 405, "Nothing is sent to this page so."
        if headers.get("sec-fetch-site") in ("cross-site", "same-site") and headers.get("sec-fetch-mode") != "navigate":
            return 403, "Another site asked for this, and this page answers only itself."
        if settings.key and path not in _OPEN and not secrets.compare_digest(_visitor(headers), settings.key):
            return 401, _UNKNOWN
        return None

    def _headers(self, host: str, nonce: str) -> dict[str, str]:
        socket = "wss:" if self._settings.public.startswith("https:") else "ws:"
        policy = "; ".join(
            (
                "default-src 'none'",
                f"script-src 'self' 'nonce-{nonce}'",
                f"style-src 'self' 'nonce-{nonce}'",
                "img-src 'self' blob: data:",
                "font-src 'self'",
                f"connect-src 'self' {socket}//{host}",
                "form-action 'self'",
                "base-uri 'none'",
                "frame-ancestors 'none'",
            )
        )
        return {
            "content-security-policy": policy,
            "x-content-type-options": "nosniff",
            "referrer-policy": "no-referrer",
            "cross-origin-opener-policy": "same-origin",
            "cross-origin-resource-policy": "same-origin",
            "permissions-policy": "camera=(), geolocation=(), microphone=()",
            "cache-control": "no-cache",
        }


def cookie(value: str, secure: bool) -> str:
    """What a browser is to send back: never to another site, and to no script."""
    return f"{COOKIE}={value}; Path=/; Max-Age={_YEAR}; HttpOnly; SameSite=Strict{'; Secure' if secure else ''}"


def _visitor(headers: Headers) -> str:
    try:
        found = SimpleCookie(headers.get("cookie", "")).get(COOKIE)
    except CookieError:
        return ""
    value = found.value if found else ""
    return value if value.isascii() and len(value) <= 64 else ""


async def _refuse(scope: Scope, receive: Receive, send: Send, status: int, why: str) -> None:
    if scope["type"] == "websocket":
        said: dict[str, Any] = {"type": "websocket.close", "code": 4000 + status, "reason": why}
        await send(said)
        return
    headers = Headers(scope=scope)
    if status == 401 and "text/html" in headers.get("accept", ""):
        await HTMLResponse(_to_known(headers), status, _BARE)(scope, receive, send)
        return
    await PlainTextResponse(why + "\n", status)(scope, receive, send)


def _to_known(headers: Headers) -> str:
    """A leaf for whoever comes back by a bookmark: how the page is opened, in her language."""
    language = "de" if headers.get("accept-language", "").lower().startswith("de") else "en"
    say = page_words(language)
    title, told, kept = (escape(say[f"screen.{key}"]) for key in ("locked", "locked_how", "locked_kept"))
    return (
        f'<!doctype html><html lang="{language}"><meta charset="utf-8"><title>plainseam</title>'
        '<meta name="viewport" content="width=device-width"><meta name="color-scheme" content="light dark">'
        f"<main><h1>{title}</h1><p>{told}</p><pre>plainseam page</pre><p>{kept}</p></main></html>"
    )
