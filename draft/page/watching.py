"""The file that a designer has open, followed on the disk: each time it is saved all open pages are told its text."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

from draft.base.envelope import within
from draft.base.notes import Problems
from draft.base.textfile import read_source

Tell = Callable[[dict[str, Any]], Awaitable[None]]


async def watched(file: Path | None, tell: Tell) -> None:
    """Tell the text whenever the file has changed, for as long as this runs; nothing where there is none.

    Nor for one in an envelope, which is read and never changed.
    """
    if file is None or within(file):
        return
    from watchfiles import awatch  # an extra's, and only where a file is open

    whole = file.resolve()
    async for _changes in awatch(whole.parent, watch_filter=lambda _change, path: Path(path) == whole, step=30):
        try:
            text = read_source(whole, "pattern").text
        except Problems:
            continue  # it is just being written, or gone: what is shown stays
        await tell({"kind": "file", "text": text, "file": whole.name})
