"""The verb that opens the page: the same engine in a browser, for who sews and for who designs."""

from __future__ import annotations

from importlib.util import find_spec
from typing import TypedDict, Unpack

import click

from draft.base.notes import Problems, error
from draft.command.console import print_text
from draft.command.group import commands

_LINGERS = 60.0
NEEDED = ("starlette", "uvicorn", "websockets", "watchfiles", "jinja2", "markdown_it")


class PageGiven(TypedDict):
    """How the page is opened, as it was typed."""

    port: int | None
    no_open: bool
    until_left: bool
    public: str | None
    host: str | None


@commands.command()
@click.argument("file", required=False)
@click.option("--port", type=click.IntRange(0, 65535), help="Where it listens: else 8765, or a free one.")
@click.option("--no-open", is_flag=True, help="Say the address, and open no browser.")
@click.option("--until-left", is_flag=True, help="End by itself a minute after the last reader has left.")
@click.option("--public", metavar="ADDRESS", help="For others, behind a proxy that has this address: https://...")
@click.option("--host", metavar="ADDRESS", help="With --public: where the proxy finds it; else 127.0.0.1.")
def page(file: str | None, **given: Unpack[PageGiven]) -> None:
    """Open a page in the browser: a garment made to measure by forms, or FILE drawn while it is written."""
    missing = [name for name in NEEDED if find_spec(name) is None]
    if missing:
        fix = "install it with `pip install 'plainseam[page]'`, or in a checkout `pip install '.[page]'`"
        raise Problems([error(f"the page needs {', '.join(missing)}, which is not installed", None, fix)])
    public, host = given["public"], given["host"]
    if host and not public:
        raise click.UsageError("`--host` goes with `--public`: a page of this machine listens to this machine alone")
    from draft.page.page_settings import PORT, Settings
    from draft.page.serving import kept_key, people_folder, serve
    from draft.plan.library import find

    place = find(file).resolve() if file else None
    listen = PORT if given["port"] is None else given["port"]
    if public:
        if place:
            raise click.UsageError("a page for others opens no file of this machine")
        settings = Settings(listen, host or "127.0.0.1", public=_origin(public))
    else:
        lingers = _LINGERS if given["until_left"] else 0.0
        settings = Settings(listen, key=kept_key(), file=place, people=people_folder(), lingers=lingers)
    serve(settings, not (given["no_open"] or public), print_text)


def _origin(text: str) -> str:
    """The address without a path, as browsers name it. Raises UsageError for what is none."""
    address = text.rstrip("/").lower()
    scheme, sign, host = address.partition("://")
    if scheme not in ("http", "https") or not sign or not host or set(host) & set("/?#@ "):
        raise click.UsageError(f"`--public {text}` is no address such as https://seams.example")
    return address
