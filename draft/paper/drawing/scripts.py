"""Words in letters that the carried font lacks: shaped, in their direction, in a font of the user's or the system's.

Each run of such letters is drawn as outlines, so that nothing of a font that is not ours is put into a document; what
the words are stands beside them for search and for who listens. The carried font keeps the letters that it has.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import line, lines_through
from draft.paper.drawing import system_fonts
from draft.paper.drawing.direction import MARK, RIGHT, from_left

BOX = "box"
"""In the place of a font: letters that none has, each as an empty box."""
_BOX_WIDE, _BOX_HIGH, _BOX_LINE, _BOX_AIR = 0.6, 0.7, 0.05, 0.08
"""Of such a box, in ems."""
_PAIRS = "()[]{}<>«»‹›"
_MIRRORED = str.maketrans(_PAIRS, "".join(_PAIRS[k ^ 1] for k in range(len(_PAIRS))))


@dataclass(frozen=True)
class Run:
    """Letters of one direction and one font, from left to right on paper: of the carried one where `file` is empty."""

    text: str
    file: str = ""
    rightward: bool = True


@dataclass(frozen=True, eq=False)
class Drawn:
    """A run as outlines `(n, 4, 2)`, y up from the baseline, and its width, both in ems."""

    outlines: tuple[Floats, ...]
    width: float


def visual_runs(text: str, known: frozenset[str]) -> list[Run]:
    """The text in runs as they stand on paper from left to right; `known` are the letters of the carried font.

    A line's own direction is that of its first letter that has one. Figures keep theirs; what has none goes with its
    neighbours where both agree, else with the line: the plain part of the rules of Unicode, without nesting.
    """
    base, found = from_left(text), list[list[Run]]()
    for part, rightward in _parted(text.replace(MARK, ""), base):
        runs = list(_by_font(part, known, rightward))
        found.append(runs if rightward else [_turned(run) for run in runs[::-1]])
    return [run for runs in (found if base else found[::-1]) for run in runs]


def _turned(run: Run) -> Run:
    """A run that is read from the right: letters of the carried font, which nothing shapes, in the order on paper."""
    return run if run.file else Run(run.text[::-1].translate(_MIRRORED), "", run.rightward)


def _parted(text: str, base: bool) -> list[tuple[str, bool]]:
    """Parts of one direction, in the order of the text."""
    ways = [_way(letter) for letter in text]
    for k, way in enumerate(ways):
        if way is None:
            before = ways[k - 1] if k else base
            after = next((other for other in ways[k + 1 :] if other is not None), base)
            ways[k] = before if before == after else base
    parts: list[tuple[str, bool]] = []
    for letter, way in zip(text, ways, strict=True):
        if parts and parts[-1][1] == way:
            parts[-1] = (parts[-1][0] + letter, parts[-1][1])
        else:
            parts.append((letter, bool(way)))
    return parts


def _way(letter: str) -> bool | None:
    kind = unicodedata.bidirectional(letter)
    return True if kind in ("L", "EN", "AN") else False if kind in RIGHT else None


def _by_font(text: str, known: frozenset[str], rightward: bool) -> Iterator[Run]:
    """Runs of one font each; marks that sit on letters go with them."""
    last, so_far = "", ""
    for letter in text:
        joined = letter.isspace() or bool(unicodedata.combining(letter))
        file = last if joined and system_fonts.has(last, letter) else ""
        if not file and letter not in known:
            file = system_fonts.with_letter(letter, last) or BOX
        if so_far and file != last:
            yield Run(so_far, last, rightward)
            so_far = ""
        so_far, last = so_far + letter, file
    if so_far:
        yield Run(so_far, last, rightward)


def said_in(run: Run) -> list[str]:
    """What a run says, in parts from left to right on paper: letter by letter where it is read from the right.

    What reads a page turns such a line about itself, letter by letter.
    """
    if run.rightward:
        return [run.text]
    parts: list[str] = []
    for letter in run.text:
        if parts and unicodedata.combining(letter):
            parts[-1] += letter
        else:
            parts.append(letter)
    return parts[::-1]


@lru_cache(maxsize=512)
def drawn(run: Run) -> Drawn:
    """The outlines of a run that is not of the carried font."""
    if run.file == BOX:
        return _boxes(len(run.text))
    import uharfbuzz as hb

    font = system_fonts.opened(run.file)
    buffer = hb.Buffer()
    buffer.add_str(run.text)
    buffer.guess_segment_properties()
    buffer.direction = "ltr" if run.rightward else "rtl"
    hb.shape(font, buffer)
    pen, em = _Pen(), float(font.face.upem)
    x = 0.0
    for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        pen.origin = np.array([x + place.x_offset, place.y_offset], dtype=float)
        font.draw_glyph_with_pen(info.codepoint, pen)
        x += place.x_advance
    return Drawn(tuple(np.array(contour) / em for contour in pen.contours if contour), x / em)


def _boxes(count: int) -> Drawn:
    """Empty boxes, an outer and an inner outline each, in opposite directions."""
    step, found = _BOX_WIDE + 2 * _BOX_AIR, list[Floats]()
    for k in range(count):
        left, right = k * step + _BOX_AIR, (k + 1) * step - _BOX_AIR
        for inset in (0.0, _BOX_LINE):
            a, b, low, high = left + inset, right - inset, inset, _BOX_HIGH - inset
            corners = [(a, low), (b, low), (b, high), (a, high)]
            found.append(lines_through(corners[:: -1 if inset else 1], closed=True))
    return Drawn(tuple(found), count * step)


class _Pen:
    """Takes outlines of glyphs as cubic segments."""

    def __init__(self) -> None:
        self.origin = np.zeros(2)
        self.contours: list[list[Floats]] = []
        self._at = np.zeros(2)

    def moveTo(self, point: Any) -> None:  # noqa: N802 - the names that the library calls
        self.contours.append([])
        self._at = self._start = self._to(point)

    def lineTo(self, point: Any) -> None:  # noqa: N802
        self._add(np.asarray(line(self._at, self._to(point))))

    def curveTo(self, *points: Any) -> None:  # noqa: N802
        self._add(np.stack([self._at, *map(self._to, points)]))

    def qCurveTo(self, *points: Any) -> None:  # noqa: N802
        control, end = map(self._to, points)
        self._add(np.stack([self._at, (self._at + 2 * control) / 3, (end + 2 * control) / 3, end]))

    def closePath(self) -> None:  # noqa: N802
        if np.any(self._at != self._start):
            self._add(np.asarray(line(self._at, self._start)))

    def endPath(self) -> None:  # noqa: N802
        self.closePath()

    def _to(self, point: Any) -> Floats:
        return np.asarray(self.origin + np.array(point, dtype=float))

    def _add(self, segment: Floats) -> None:
        self.contours[-1].append(segment)
        self._at = segment[3]
