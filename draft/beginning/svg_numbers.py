"""Numbers, transforms and sizes as SVG 1.1 writes them."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

import numpy as np

from draft.base.arrays import Floats

_NUMBER = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
_LIST = re.compile(rf"\s*(?:{_NUMBER}(?:\s*,\s*|\s+|(?=[-+.])|\s*$))*\s*")
_TRANSFORM = re.compile(r"\s*,?\s*(\w+)\s*\(([^()]*)\)\s*")
_SIZE = re.compile(rf"\s*({_NUMBER})\s*(mm|cm|in|pt|pc|q|px|%)?\s*", re.IGNORECASE)
MM: Mapping[str, float] = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25}
PIXEL = 25.4 / 96
"""mm of a CSS pixel (CSS Values and Units 4, section 6.2)."""


def numbers(text: str) -> list[float]:
    """The numbers in a list. Raises ValueError for anything else in it."""
    if not _LIST.fullmatch(text):
        raise ValueError(f"`{text[:30]}` is no list of numbers")
    return [float(found) for found in re.findall(_NUMBER, text)]


def transform_of(text: str) -> Floats:
    """What a list of transforms comes to `(3, 3)`. Raises ValueError for what is none."""
    found, end = np.eye(3), 0
    for part in _TRANSFORM.finditer(text):
        if part.start() != end:
            break
        found, end = found @ _one(part[1], numbers(part[2])), part.end()
    if text[end:].strip():
        raise ValueError(f"`{text[:30]}`")
    return found


def _one(name: str, given: list[float]) -> Floats:
    """One transform; the shapes are those of section 7.6."""
    count = len(given)
    if name == "matrix" and count == 6:
        a, b, c, d, e, f = given
        return np.array([[a, c, e], [b, d, f], [0.0, 0.0, 1.0]])
    if name == "translate" and count in (1, 2):
        return _moved(given[0], given[1] if count == 2 else 0.0)
    if name == "scale" and count in (1, 2):
        return np.diag([given[0], given[-1], 1.0])
    if name == "rotate" and count in (1, 3):
        at = given[1:] or [0.0, 0.0]
        cos, sin = math.cos(math.radians(given[0])), math.sin(math.radians(given[0]))
        turn = np.array([[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]])
        return np.asarray(_moved(*at) @ turn @ _moved(-at[0], -at[1]))
    if name in ("skewX", "skewY") and count == 1:
        lean = math.tan(math.radians(given[0]))
        return np.array([[1.0, lean * (name == "skewX"), 0.0], [lean * (name == "skewY"), 1.0, 0.0], [0.0, 0.0, 1.0]])
    raise ValueError(f"`{name[:20]}` of {count} numbers")


def _moved(x: float, y: float) -> Floats:
    return np.array([[1.0, 0.0, x], [0.0, 1.0, y], [0.0, 0.0, 1.0]])


def size_of(root: Mapping[str, str]) -> tuple[Floats, float | None]:
    """How a drawing's own units lie on its sheet `(3, 3)`, and how long they are in mm; None where it does not say.

    A width in plain numbers or pixels says nothing: programs write it for any unit. Where width and height stretch
    the drawing unlike one another only `preserveAspectRatio="none"` lets them (section 7.8).
    """
    wide, high = _length(root.get("width", "")), _length(root.get("height", ""))
    box = _box(root.get("viewBox", ""))
    if box is None:
        return np.eye(3), PIXEL if wide or high else None
    across, down = (size / side if size else None for size, side in zip((wide, high), box, strict=True))
    if across is None or down is None:
        return np.eye(3), across or down
    if root.get("preserveAspectRatio", "").strip() == "none":
        return np.diag([1.0, down / across, 1.0]), across
    return np.eye(3), min(across, down)


def _length(text: str) -> float | None:
    """A length in mm; None where there is none, or in no unit of length."""
    found = _SIZE.fullmatch(text)
    unit = MM.get((found[2] or "").lower()) if found else None
    return float(found[1]) * unit if found and unit and float(found[1]) > 0 else None


def _box(text: str) -> tuple[float, float] | None:
    try:
        found = numbers(text)
    except ValueError:
        return None
    return (found[2], found[3]) if len(found) == 4 and found[2] > 0 and found[3] > 0 else None
