"""The data of an SVG path as strokes, by the parser of the library fontTools; arcs after SVG 1.1, appendix F.6."""

from __future__ import annotations

import math

import numpy as np

from draft.base.arrays import Floats
from draft.beginning.strokes import elliptic
from draft.geometry.cubic import line

_Point = tuple[float, float]


def paths_of(data: str) -> list[Floats]:
    """The strokes `(S, 4, 2)` of a path's data.

    Raises ValueError for what is no such data, and ImportError where the library is missing.
    """
    from fontTools.svgLib.path.parser import parse_path

    pen = _Pen()
    try:
        with np.errstate(all="ignore"):  # numbers without end are refused by who looks at all of them
            parse_path(data, pen)
    except ImportError:
        raise
    except Exception as reason:  # the parser knows no error of its own
        raise ValueError(str(reason)) from None
    pen.endPath()
    return pen.found


class _Pen:
    """What the parser draws with: it gathers cubics."""

    def __init__(self) -> None:
        self.found: list[Floats] = []
        self.parts: list[Floats] = []
        self.begin: _Point = (0.0, 0.0)
        self.at: _Point = (0.0, 0.0)

    def moveTo(self, to: _Point) -> None:  # noqa: N802 - the parser's names
        """Begin a stroke."""
        self.endPath()
        self.begin = self.at = to

    def lineTo(self, to: _Point) -> None:  # noqa: N802
        """A straight line, if it has any length."""
        if to != self.at:
            self._add(line(self.at, to)[None], to)

    def curveTo(self, *points: _Point) -> None:  # noqa: N802
        """A cubic by its handles and its end."""
        self._add(np.array([[self.at, *points]]), points[-1])

    def qCurveTo(self, handle: _Point, to: _Point) -> None:  # noqa: N802
        """A quadratic, which is a cubic whose handles are two thirds of the way."""
        a, h, b = np.array(self.at), np.array(handle), np.array(to)
        self._add(np.array([[a, a + (h - a) * 2 / 3, b + (h - b) * 2 / 3, b]]), to)

    def arcTo(self, rx: float, ry: float, rotation: float, large: bool, sweep: bool, to: _Point) -> None:  # noqa: N802
        """A part of an ellipse."""
        if to == self.at:
            return
        if not rx or not ry:
            self.lineTo(to)
        else:
            self._add(_arc(self.at, to, abs(rx), abs(ry), math.radians(rotation), (bool(large), bool(sweep))), to)

    def closePath(self) -> None:  # noqa: N802
        """Back to where the stroke began."""
        self.lineTo(self.begin)
        self.endPath()
        self.at = self.begin

    def endPath(self) -> None:  # noqa: N802
        """A stroke that stays open."""
        if self.parts:
            self.found.append(np.concatenate(self.parts))
        self.parts = []

    def _add(self, path: Floats, to: _Point) -> None:
        path[0, 0], path[-1, 3] = self.at, to
        self.parts.append(path)
        self.at = to


def _arc(start: _Point, end: _Point, rx: float, ry: float, turned: float, flags: tuple[bool, bool]) -> Floats:
    """An arc from end to end, made of its centre: F.6.5 and F.6.6 of SVG 1.1."""
    axes = np.array([[math.cos(turned), math.sin(turned)], [-math.sin(turned), math.cos(turned)]])
    first, last = np.array(start), np.array(end)
    x, y = axes @ ((first - last) / 2)
    grown = math.sqrt(max(1.0, (x / rx) ** 2 + (y / ry) ** 2))
    rx, ry = rx * grown, ry * grown
    below = (rx * y) ** 2 + (ry * x) ** 2
    root = math.sqrt(max(0.0, (rx * ry) ** 2 / below - 1)) * (1 if flags[0] != flags[1] else -1)
    offset = root * np.array([rx * y / ry, -ry * x / rx])
    centre = offset @ axes + (first + last) / 2
    begin = math.atan2((y - offset[1]) / ry, (x - offset[0]) / rx)
    sweep = math.atan2((-y - offset[1]) / ry, (-x - offset[0]) / rx) - begin
    sweep = sweep % math.tau if flags[1] else -(-sweep % math.tau)
    return elliptic(centre, axes * np.array([[rx], [ry]]), begin, sweep)
