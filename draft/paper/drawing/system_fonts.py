"""Which font of the user's or the system's has a letter: `PLAINSEAM_FONTS` first, then where systems keep theirs.

Only looked at for letters that the carried font lacks. Which fonts there are differs from machine to machine, so such
words may be drawn a little differently on another.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from draft.base.disk import is_file

CHOSEN = "PLAINSEAM_FONTS"
"""Files or folders of fonts, parted as the system parts paths."""
_ENDINGS = (".ttf", ".otf", ".ttc", ".otc")
_MOST = 3000
"""Fonts looked at."""
_LARGEST = 100_000_000
_LAST = (
    *("bold", "black", "heavy", "italic", "oblique", "mono", "condensed", "light", "thin", "serif", "extra", "math"),
    *("rashi", "kufi", "nastaliq", "looped", "display", "medium"),
)
"""Of two fonts with a letter the one is taken whose name has fewer of these: upright, of the usual weight and hand."""


def with_letter(letter: str, first: str = "") -> str:
    """The file of a font that has a letter, `first` if that has it; nothing if there is none."""
    return first if has(first, letter) else _found(letter)


def has(file: str, letter: str) -> bool:
    """Whether a file is a font that has a letter."""
    return is_file(Path(file)) and ord(letter) in _letters(file)


def can_shape() -> bool:
    """Whether words can be shaped at all."""
    try:
        import uharfbuzz  # noqa: F401
    except ImportError:
        return False
    return True


@cache
def opened(file: str) -> Any:
    """The font in a file."""
    import uharfbuzz as hb

    return hb.Font(hb.Face(hb.Blob.from_file_path(file)))


@cache
def _found(letter: str) -> str:
    return next((file for file in _files() if ord(letter) in _letters(file)), "") if can_shape() else ""


@cache
def _letters(file: str) -> Any:
    """The letters of a font; none of a file that is no font, or draws its letters as pictures alone."""
    import uharfbuzz as hb

    try:
        face = opened(file).face
        return set(face.unicodes) if {"glyf", "CFF ", "CFF2"} & set(face.table_tags) else set()
    except (hb.HarfBuzzError, OSError, ValueError, UnicodeError):
        return set()


@cache
def _files() -> tuple[str, ...]:
    """All fonts, those that the user chose first, the plainest of the others before the rest."""
    chosen = [Path(part) for part in os.environ.get(CHOSEN, "").split(os.pathsep) if part]
    own = [
        str(file) for place in chosen for file in ([place] if is_file(place) else sorted(_within(place), key=_plainest))
    ]
    others = sorted((file for place in _places() for file in _within(place)), key=_plainest)
    return tuple(dict.fromkeys([*own, *map(str, others)]))[:_MOST]


def _plainest(file: Path) -> tuple[int, int, str]:
    name = file.stem.lower()
    return sum(word in name for word in _LAST), len(name), str(file)


def _within(place: Path) -> Iterator[Path]:
    for folder, _, names in os.walk(place):
        for name in names:
            file = Path(folder) / name
            if name.lower().endswith(_ENDINGS) and is_file(file) and file.stat().st_size <= _LARGEST:
                yield file


def _places() -> list[Path]:
    home = Path.home()
    if sys.platform == "win32":
        local = Path(os.environ.get("LOCALAPPDATA", str(home)))
        return [Path(os.environ.get("WINDIR", r"C:\Windows")) / "Fonts", local / "Microsoft" / "Windows" / "Fonts"]
    if sys.platform == "darwin":
        return [home / "Library" / "Fonts", Path("/Library/Fonts"), Path("/System/Library/Fonts")]
    return [
        home / ".local" / "share" / "fonts",
        home / ".fonts",
        Path("/usr/local/share/fonts"),
        Path("/usr/share/fonts"),
    ]
