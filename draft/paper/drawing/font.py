"""The carried font: how wide its words are, and how the library that draws designers' pictures is made to use it.

The files in `font/` are a subset of Inter under the SIL Open Font License, renamed; `tests/paper/bake_font.py` makes
them. One font everywhere means that a label fits on every machine because it fits on this one.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import json
import re
import sys
from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from pathlib import Path

FAMILY = "Plainseam Sans"
FALLBACK = "sans-serif"
OTHERS = "Inter, Helvetica, Arial"
"""Families that a reader may have and whose words are no longer, for files that only name their font."""
CAP_HEIGHT = 0.727
"""Height of a capital letter, in ems (the font's OS/2 table: 2048 of 2816)."""
DESCENT = 0.21
"""Depth of the longest descender below the baseline, in ems, rounded up (`j`, `p`, `Q`)."""

BOX = (-84, -257, 1243, 983)
"""Left, lowest, right and highest of all its letters, in thousandths of an em (the fonts' `head` tables)."""
FILES = {"regular": "PlainseamSans-Regular.otf", "bold": "PlainseamSans-Bold.otf"}

_TABULAR = 0xF630
"""The code of the digit 0 as wide as all others."""
_IN_CELLS = {ord("0") + k: _TABULAR + k for k in range(10)}
_SAID = {chr(code): chr(plain) for plain, code in _IN_CELLS.items()}
_FOLDER = Path(__file__).parent.parent / "font"


def text_width(text: str, size: float, bold: bool = False) -> float:
    """How long a line of words is, in the unit of `size` (one em)."""
    return _thousandths(text, bold) * size / 1000


@lru_cache(maxsize=4096)
def _thousandths(text: str, bold: bool) -> int:
    """The width of a line of words in thousandths of an em."""
    widths = _widths()["bold" if bold else "regular"]
    try:
        return sum(map(widths.__getitem__, text))
    except KeyError:
        return _width_of_runs(text, widths)


def _width_of_runs(text: str, widths: Mapping[str, int]) -> int:
    """The same of words with letters of other fonts, and of boxes for what no font has."""
    from draft.paper.drawing.scripts import drawn, visual_runs

    wide = 0.0
    for run in visual_runs(text, letters()):
        wide += 1000 * drawn(run).width if run.file else sum(map(widths.__getitem__, run.text))
    return round(wide)


def in_cells(text: str) -> str:
    """The same with digits that are all as wide, so that figures stand below one another."""
    return text.translate(_IN_CELLS)


def said(letter: str) -> str:
    """What a letter of the font says: digits that are all as wide have codes of a private area."""
    return _SAID.get(letter, letter)


@cache
def letters() -> frozenset[str]:
    """The letters that the carried font has."""
    return frozenset(_widths()["regular"])


def glyph(letter: str) -> int:
    """The number of a letter's outline in both faces; 0, an empty box, for one that the font lacks."""
    return _widths()["glyphs"].get(letter, 0)


def file(face: str) -> Path:
    """Where a face is kept."""
    return _FOLDER / FILES[face]


def wrapped(text: str, size: float, width: float, bold: bool = False) -> list[str]:
    """The text in lines no longer than `width`; a single word that is longer keeps a line to itself.

    Scripts that are written without blanks are parted between any two letters.
    """
    return list(_wrapped(text, size, width, bold))


@lru_cache(maxsize=2048)  # what is laid out in several ways says the same in each
def _wrapped(text: str, size: float, width: float, bold: bool) -> tuple[str, ...]:
    lines: list[str] = []
    so_far, blank = 0, _thousandths(" ", bold)
    own = letters().issuperset(text)  # beside letters of another font a blank is as wide as there
    for word, apart in _words(text):
        more, gap = _thousandths(word, bold), blank if apart else 0
        longer = f"{lines[-1]} {word}" if lines and apart else "".join([*lines[-1:], word])
        whole = so_far + gap + more if own else _thousandths(longer, bold)
        if lines and whole * size / 1000 <= width:
            lines[-1], so_far = longer, whole
        else:
            lines.append(word)
            so_far = more
    return tuple(lines)


_UNPARTED = "\u2e80"
"""From here on stand the ideographs of East Asia, their signs and syllables (Unicode)."""
_NOT_FIRST = "、。，．：；！？）］｝」』】〉》・ー"
"""Signs that begin no line there (common practice)."""


def _words(text: str) -> Iterator[tuple[str, bool]]:
    """The parts between which a line may end, and whether a blank stands before each."""
    for word in _kept_figures(text):
        if word.isascii() or max(word) < _UNPARTED:
            yield word, True
            continue
        parts = list[str]()
        for letter in word:
            alone = letter >= _UNPARTED and letter not in _NOT_FIRST
            if parts and not alone and (letter in _NOT_FIRST or parts[-1][-1] < _UNPARTED):
                parts[-1] += letter
            else:
                parts.append(letter)
        yield from ((part, not k) for k, part in enumerate(parts))


_FIGURE = re.compile(
    r"(?<=[\d½¼¾⅛⅜⅝⅞]) (?=\d+/\d|%|(?:in|cm|mm|m|yd|deg|°|Zoll|Grad)\b)|(?<=[±×]) (?=\d)"
    r"|(?<=[A-Z\d]) (?=– [A-Z\d]+\b)|(?<=[A-Z\d] –) (?=[A-Z\d]+\b)"
)
"""A blank within a figure: before its fraction or its unit, behind its sign, or in a range such as `L – 3XL`."""
_KEPT = "\ue000"  # of a private area: no text has it


def _kept_figures(text: str) -> list[str]:
    """The words of a text; `7 7/8 in` and `± 2 %` are one."""
    if not any(letter.isdigit() for letter in text):
        return text.split()
    return [word.replace(_KEPT, " ") for word in _FIGURE.sub(_KEPT, text).split()]


def fitted_text(text: str, size: float, width: float, bold: bool = False) -> str:
    """The text, or as much of its beginning as fits with an ellipsis."""
    if text_width(text, size, bold) <= width:
        return text
    while text and text_width(text + "…", size, bold) > width:
        text = text[:-1]
    return text.rstrip() + "…"


def fitted_parts(text: str, size: float, width: float, between: str = " · ") -> str:
    """As many parts of the text, from its beginning, as fit whole; of the first alone as much as fits."""
    parts = text.split(between)
    while len(parts) > 1 and text_width(between.join(parts), size) > width:
        parts.pop()
    return fitted_text(between.join(parts), size, width)


@cache
def _widths() -> dict[str, dict[str, int]]:
    table: dict[str, dict[str, int]] = json.loads((_FOLDER / "widths.json").read_text("ascii"))
    return table


@cache
def register() -> bool:
    """Make the font known to the drawing library, for this process only. False where that is not possible.

    Without it the library takes the system's own sans serif, and labels may be a little wider or narrower.
    """
    files = [file(face) for face in FILES]
    add = {"win32": _add_on_windows, "darwin": _add_on_macos}.get(sys.platform, _add_with_fontconfig)
    try:
        return min(add(str(path)) for path in files)  # every file is tried, also after one that fails
    except (OSError, AttributeError, TypeError):
        return False


def _add_with_fontconfig(file: str) -> bool:
    library = ctypes.CDLL(ctypes.util.find_library("fontconfig") or "libfontconfig.so.1")
    add = library.FcConfigAppFontAddFile
    add.argtypes, add.restype = [ctypes.c_void_p, ctypes.c_char_p], ctypes.c_int
    return bool(add(None, file.encode()))


def _add_on_windows(file: str) -> bool:
    private = 0x10  # FR_PRIVATE, wingdi.h (from memory): only this process sees the font
    return bool(getattr(ctypes, "windll").gdi32.AddFontResourceExW(file, private, 0))  # noqa: B009 - not on Linux


def _add_on_macos(file: str) -> bool:
    """CoreText's `CTFontManagerRegisterFontsForURL` for this process (scope 1); from memory, not tried on a Mac."""
    text = ctypes.CDLL(ctypes.util.find_library("CoreText") or "CoreText")
    core = ctypes.CDLL(ctypes.util.find_library("CoreFoundation") or "CoreFoundation")
    path = file.encode()
    core.CFURLCreateFromFileSystemRepresentation.restype = ctypes.c_void_p
    core.CFURLCreateFromFileSystemRepresentation.argtypes = [
        ctypes.c_void_p,
        ctypes.c_char_p,
        ctypes.c_long,
        ctypes.c_bool,
    ]
    url = core.CFURLCreateFromFileSystemRepresentation(None, path, len(path), False)
    text.CTFontManagerRegisterFontsForURL.restype = ctypes.c_bool
    text.CTFontManagerRegisterFontsForURL.argtypes = [ctypes.c_void_p, ctypes.c_uint32, ctypes.c_void_p]
    done = bool(text.CTFontManagerRegisterFontsForURL(url, 1, None))
    return _add_with_fontconfig(file) or done
