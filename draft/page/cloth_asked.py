"""The cloth of a form: one of the usual ones by its name, or figures that somebody measured."""

from __future__ import annotations

import hashlib
import json
import tempfile
from functools import cache
from pathlib import Path
from typing import Any

from draft.base.notes import Problems, error
from draft.base.plainly import sentence
from draft.fabrics.properties import PROPERTIES
from draft.page.bench import Bench

USUAL = ("stable", "moderate", "stretchy", "very_stretchy", "rib")


def cloth_asked(asked: Any, bench: Bench) -> str | None:
    """What a request calls the cloth: None for the pattern's own, a usual one's name, or a file of the figures given.

    Raises Problems for a cloth that is not known; what figures can be true is told where they are read.
    """
    if not isinstance(asked, dict) or not asked:
        return None
    name = str(asked.get("name") or "")
    if name and name not in USUAL:
        fact, plainly = f"there is no cloth called `{name[:40]}` here", sentence("no_such_cloth")
        raise Problems([error(fact, None, "choose one, or give its figures", plainly=plainly)])
    figures = {key: str(asked[key])[:40] for key in PROPERTIES if asked.get(key)}
    if not figures:
        return name or None
    text = "\n".join(['name = "her cloth"', *(f"{key} = {json.dumps(value)}" for key, value in figures.items())])
    return bench.keep(("cloth", text), lambda: _written(text))


def _written(text: str) -> str:
    place = Path(_folder().name) / f"{hashlib.sha256(text.encode()).hexdigest()[:16]}.toml"
    place.write_text(text, "utf-8")
    return str(place)


@cache
def _folder() -> tempfile.TemporaryDirectory[str]:
    """A folder of this process, which goes with it."""
    return tempfile.TemporaryDirectory(prefix="plainseam-cloth-")
