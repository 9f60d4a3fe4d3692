"""Colours that stay readable on paper, in print and in greyscale.

The ratio is that of WCAG 2.2 (1.4.3 asks for 4.5 : 1 of text, 1.4.11 for 3 : 1 of lines). It is one of luminances, so
a colour that keeps it on white keeps it where a printer has only black ink.
"""

from __future__ import annotations

import re

from draft.base.notes import Note, Span, error

TEXT, LINES = 4.5, 3.0
_HEX = re.compile(r"#[0-9a-f]{6}")
_SHORT = re.compile(r"#[0-9a-f]{3}")
_STEPS = 256


def contrast(colour: str, other: str = "#ffffff") -> float:
    """The ratio of the luminances of two colours `#rrggbb`, from 1 to 21 (WCAG 2.2, `contrast ratio`)."""
    high, low = sorted((_luminance(colour), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def _luminance(colour: str) -> float:
    """The relative luminance (WCAG 2.2, `relative luminance`)."""
    shares = (value / 255 for value in _values(colour))
    red, green, blue = (s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _values(colour: str) -> tuple[int, int, int]:
    red, green, blue = (int(colour[k : k + 2], 16) for k in (1, 3, 5))
    return red, green, blue


def darker(colour: str, least: float) -> str:
    """The lightest of its darker shades that has this contrast with white, or the colour where it has it."""
    for step in range(_STEPS, -1, -1):
        shade = "#" + "".join(f"{value * step // _STEPS:02x}" for value in _values(colour))
        if contrast(shade) >= least:
            return shade
    return "#000000"


def colour_of(given: object, key: str, least: float, span: Span | None) -> str | Note:
    """A colour as `#rrggbb`, or why it cannot be one."""
    text = given.strip().lower() if isinstance(given, str) else ""
    if _SHORT.fullmatch(text):
        text = "#" + "".join(2 * letter for letter in text[1:])
    if not _HEX.fullmatch(text):
        return error(f"`{key}` is not a colour", span, f'write it as `{key} = "#1d4f4b"`: red, green and blue')
    ratio = contrast(text)
    if ratio < least:
        what = "words" if least == TEXT else "lines"
        fact = f"{text} is too light for {what} on white paper: its contrast is {_down(ratio)} : 1, not {least} : 1"
        return error(fact, span, f'try `{key} = "{darker(text, least)}"`')
    return text


def _down(ratio: float) -> str:
    """With one place behind the point, never rounded up to what it lacks."""
    return f"{int(ratio * 10) / 10:.1f}"
