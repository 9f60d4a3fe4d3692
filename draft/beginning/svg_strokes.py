"""An SVG drawing as strokes: shapes with their transforms and groups, read as SVG 1.1 says; nothing is ever fetched.

It is called in a process of its own, as a few lines of a stranger's can take for ever. Scripts, styles, pictures and
what refers to something else are not read, and are counted; what is hidden or only defined is passed over.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.beginning.strokes import Drawn, Stroke, Words, elliptic, refused, said
from draft.beginning.svg_numbers import numbers, size_of, transform_of
from draft.beginning.svg_path import paths_of
from draft.geometry.cubic import lines_through

_SVG = "{http://www.w3.org/2000/svg}"
_MOST = 200_000
"""Elements: a marker of a hundred pieces in ten sizes has a tenth."""
_DEEPEST = 60
_GROUPS = ("svg", "g", "a", "switch")
_SILENT = (
    "title", "desc", "metadata", "style", "defs", "symbol", "clipPath", "mask", "marker", "pattern", "linearGradient",
    "radialGradient", "filter", "script", "tspan", "namedview", "stop",
)  # fmt: skip
_HIDDEN = re.compile(r"(?:^|;)\s*(?:display\s*:\s*none|visibility\s*:\s*(?:hidden|collapse))")


class SvgError(ValueError):
    """What is no SVG drawing that can be read; its message says why, as the end of a sentence about it."""


def svg_strokes(data: bytes) -> bytes:
    """A drawing as `strokes.said` writes it, or why it cannot be read."""
    try:
        return said(read_svg(data))
    except SvgError as reason:
        return refused(str(reason))
    except ImportError:
        return refused("is read with the library fontTools, which is not installed")


def read_svg(data: bytes) -> Drawn:
    """A drawing, y up. Raises `SvgError` for one that cannot be read, ImportError where the library is missing."""
    root = _root(data)
    scale, unit = size_of(root.attrib)
    reading = _Reading()
    with np.errstate(all="ignore"):
        reading.below(_Place(root, np.diag([1.0, -1.0, 1.0]) @ scale))
    if not np.isfinite([stroke.path.sum() for stroke in reading.strokes]).all():
        raise SvgError("holds numbers that are too large")
    return Drawn(tuple(reading.strokes), tuple(reading.words), unit, dict(reading.left_out), -1.0)


def _root(data: bytes) -> Any:
    from defusedxml import DefusedXmlException, ElementTree

    try:
        root = ElementTree.fromstring(data)
    except DefusedXmlException:
        raise SvgError("declares entities, which are not read") from None
    except (ElementTree.ParseError, ValueError, LookupError) as reason:
        raise SvgError(f"is not well formed: {reason}") from None
    if root.tag not in (f"{_SVG}svg", "svg"):
        raise SvgError("does not begin with `svg`")
    if sum(1 for _ in root.iter()) > _MOST:
        raise SvgError(f"holds more than {_MOST:,} elements")
    return root


@dataclass(frozen=True)
class _Place:
    """An element with what holds for it: its transform `(3, 3)`, its group, its piece and how deep it stands."""

    element: Any
    matrix: Floats
    layer: str = ""
    piece: str = ""
    deep: int = 0


class _Reading:
    """Goes over a drawing and gathers what it holds."""

    def __init__(self) -> None:
        self.strokes: list[Stroke] = []
        self.words: list[Words] = []
        self.left_out: Counter[str] = Counter()

    def below(self, place: _Place) -> None:
        """Everything in a group."""
        if place.deep > _DEEPEST:
            raise SvgError(f"nests groups more than {_DEEPEST} deep")
        for element in place.element:
            if isinstance(element.tag, str) and not _is_hidden(element):
                self._element(element, place)

    def _element(self, element: Any, around: _Place) -> None:
        name = element.tag.removeprefix(_SVG)
        matrix = around.matrix @ _matrix(element)
        if name in _GROUPS and "viewBox" not in element.attrib:
            layer = _called(element) or around.layer
            piece = element.get("data-piece", around.piece)
            self.below(_Place(element, matrix, layer, piece, around.deep + 1))
        elif name == "text":
            self.words.append(_words(element, matrix, around.piece or around.layer))
        elif name in _SHAPES:
            self.strokes += self._strokes(element, name, _Place(element, matrix, around.layer, around.piece))
        elif "}" not in name and name not in _SILENT:
            self.left_out[name] += 1

    def _strokes(self, element: Any, name: str, place: _Place) -> Iterator[Stroke]:
        try:
            paths = _SHAPES[name](element)
        except ValueError as reason:
            called = f" `{element.get('id')[:40]}`" if element.get("id") else ""
            raise SvgError(f"has a {name}{called} that cannot be read: {str(reason)[:60]}") from None
        piece, edge = element.get("data-piece", place.piece), element.get("data-edge", "")
        for path in paths:
            moved = path @ place.matrix[:2, :2].T + place.matrix[:2, 2]
            yield Stroke(moved, piece, place.layer, element.get("id", ""), edge)


def _words(element: Any, matrix: Floats, piece: str) -> Words:
    text = " ".join("".join(element.itertext()).split())
    at = [(numbers(element.get(axis, "0")) or [0.0])[0] for axis in "xy"]
    return Words(text[:200], piece, matrix[:2, :2] @ np.array(at) + matrix[:2, 2])


def _matrix(element: Any) -> Floats:
    try:
        return transform_of(element.get("transform", ""))
    except ValueError as reason:
        raise SvgError(f"has a transform that cannot be read: {str(reason)[:60]}") from None


def _called(element: Any) -> str:
    """What a group is called: a label of whatever kind, or its id."""
    labels = [value for key, value in element.attrib.items() if key.rpartition("}")[2] in ("label", "aria-label")]
    return str(labels[0] if labels else element.get("id", ""))[:80]


def _is_hidden(element: Any) -> bool:
    seen = element.get("display") == "none" or element.get("visibility") in ("hidden", "collapse")
    return seen or bool(_HIDDEN.search(element.get("style", "")))


def _path(element: Any) -> list[Floats]:
    return paths_of(element.get("d", ""))


def _points(element: Any, closed: bool) -> list[Floats]:
    flat = numbers(element.get("points", ""))
    points = np.array(flat[: len(flat) // 2 * 2]).reshape(-1, 2)
    return [lines_through(points, closed)] if len(points) > 1 else []


def _line(element: Any) -> list[Floats]:
    ends = np.array([[_number(element, f"{axis}{k}") for axis in "xy"] for k in (1, 2)])
    return [lines_through(ends)]


def _rect(element: Any) -> list[Floats]:
    if "%" in element.get("width", "") + element.get("height", ""):
        return []  # the sheet's own ground
    x, y, wide, high = (_number(element, key) for key in ("x", "y", "width", "height"))
    rx, ry = element.get("rx"), element.get("ry")
    a = min(_length(rx if rx is not None else ry or "0"), wide / 2)
    b = min(_length(ry if ry is not None else rx or "0"), high / 2)
    if wide <= 0 or high <= 0:
        return []
    arc = f"a{a},{b} 0 0 1 " if a > 0 and b > 0 else ""
    right, down = wide - 2 * a * bool(arc), high - 2 * b * bool(arc)
    if not arc:
        return paths_of(f"M{x},{y} h{right} v{down} h{-right} z")
    turns = (f"{arc}{a},{b}", f"{arc}{-a},{b}", f"{arc}{-a},{-b}", f"{arc}{a},{-b}")
    return paths_of(f"M{x + a},{y} h{right} {turns[0]} v{down} {turns[1]} h{-right} {turns[2]} v{-down} {turns[3]} z")


def _round(element: Any, keys: tuple[str, str]) -> list[Floats]:
    centre = np.array([_number(element, "cx"), _number(element, "cy")])
    a, b = (_number(element, key) for key in keys)
    return [elliptic(centre, np.diag([a, b]), 0.0, 2 * np.pi)] if a > 0 and b > 0 else []


def _number(element: Any, key: str) -> float:
    return _length(element.get(key, "0"))


def _length(text: str) -> float:
    found = numbers(text.removesuffix("px"))
    if len(found) != 1:
        raise ValueError(f"`{text[:30]}` is not a plain number")
    return found[0]


_SHAPES: dict[str, Callable[[Any], list[Floats]]] = {
    "path": _path,
    "polygon": lambda element: _points(element, True),
    "polyline": lambda element: _points(element, False),
    "line": _line,
    "rect": _rect,
    "circle": lambda element: _round(element, ("r", "r")),
    "ellipse": lambda element: _round(element, ("rx", "ry")),
}
