"""A studio's settings as they go with a pattern: its mark and its texts, and never its prices."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path

from draft.base.notes import Problems, error
from draft.base.textfile import read_source
from draft.studio.studio import FILE
from draft.studio.studio_file import studio_beside

_PRICES = "prices"


def studio_files(folder: Path) -> dict[str, Path | bytes]:
    """What a folder's studio needs, by names; nothing where it has none. Raises `Problems` for mistakes in its file."""
    studio = studio_beside(folder)
    if studio is None:
        return {}
    found: dict[str, Path | bytes] = {FILE: _without_prices(studio.file)}
    if studio.mark:
        found[studio.mark.name] = studio.mark
    return found


def _without_prices(file: Path) -> bytes:
    """The text of a studio's file but for its tables of prices."""
    text = read_source(file, "studio's file").text
    kept = "".join(_kept(text))
    if _PRICES in tomllib.loads(kept):
        fact = "the prices of this studio stand between its other lines, so they would be handed on"
        raise Problems([error(fact, None, "put them under `[prices]`, `[prices.cloth]` and so on, at the end")])
    return kept.encode()


def _kept(text: str) -> Iterator[str]:
    skipped = False
    for line in text.splitlines(keepends=True):
        if line.lstrip().startswith("["):
            skipped = line.strip(" \t[").split("]")[0].split(".")[0].strip(" \"'") == _PRICES
        if not skipped:
            yield line
