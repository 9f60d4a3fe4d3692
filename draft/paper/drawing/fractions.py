"""Eighths of an inch or a yard as one sign: `1 1/2` set close is read as eleven halves."""

from __future__ import annotations

import re

_SIGNS = {"1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞"}
_FIGURE = re.compile(r"(?:(\d+) )?(\d+/\d+)")
_AMOUNT = re.compile(rf"(?<![\d/])(?:(\d+) )?({'|'.join(_SIGNS)})(?= (?:in|yd)\b)")


def as_figure(text: str) -> str:
    """A figure of a table as it is set: `38 5/8` as `38⅝`; what is no such fraction as it is."""
    found = _FIGURE.fullmatch(text)
    return f"{found[1] or ''}{_SIGNS[found[2]]}" if found and found[2] in _SIGNS else text


def with_signs(text: str) -> str:
    """Words with the sign for the fraction of each amount of inches or yards; `1/2` written on a notch stays."""
    return _AMOUNT.sub(lambda found: f"{found[1] or ''}{_SIGNS[found[2]]}", text) if "/" in text else text
