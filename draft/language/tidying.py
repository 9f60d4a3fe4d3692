"""Files made tidy in their place."""

from __future__ import annotations

from pathlib import Path

from draft.base.output import replace_file
from draft.base.textfile import read_data, source_of
from draft.language.tidy import tidy

WHAT = "piece file"


def tidy_file(path: Path, check: bool) -> bool:
    """Tidy a file, or with `check` only look; True if there is or was anything to change. Raises `Problems`."""
    data = read_data(path, WHAT)
    after, differs = tidy_text(data, str(path), path.name)
    if differs and not check:
        replace_file(path, after)
    return differs


def tidy_text(data: bytes, whole: str, name: str = "") -> tuple[bytes, bool]:
    """A text's bytes made tidy, and whether they differ. Its line ends stay as they are."""
    source = source_of(data, whole, WHAT, name or whole)
    text = tidy(source)
    if text == source.text:
        return data, False
    ends = "\r\n" if b"\r\n" in data else "\n"
    return text.replace("\n", ends).encode(), True
