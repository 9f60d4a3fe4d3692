"""Rows of places for words beside a line, within the piece: from the line's middle outward, and deeper in turn."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry import cubic
from draft.geometry.ruler import Ruler, places_along
from draft.paper.drawing import font
from draft.paper.drawing.drawing import Label
from draft.paper.drawing.room import Spot, corners_of, words_at
from draft.paper.piece.in_turn import Places
from draft.paper.piece.piece_lines import FLIP
from draft.paper.piece.surface import Surface

KEPT = 1.0
"""Words keep so many mm clear of lines and other words."""
_INSIDE = 2.0  # mm from the line
DEEPER: tuple[float, ...] = (0.0, 3.0, 6.0, 10.0, 16.0, 24.0)
"""By so many mm more words are tried in turn."""
SOON, LATER = slice(0, 2), slice(2, None)
"""Most words find room at one of the first depths."""
_PARTS = 0.5 + 0.02 * np.array([s * k for k in range(21) for s in ((1, -1) if k else (1,))])
PLACES = len(_PARTS)
"""So many places along a line are tried at each depth."""


_AIR = 1.5
"""On either side of a seam's letter, mm: right beside other words it would read as one of them."""


@dataclass(frozen=True)
class Said:
    """Words, how large they are in points, and the surface that they stand on."""

    text: str
    points: float
    surface: Surface
    bold: bool = False

    @property
    def size(self) -> float:
        """Of their letters, mm."""
        return self.points * self.surface.enlarged

    @property
    def extent(self) -> tuple[float, float]:
        """Width and height, mm; of a seam's letter with the air that tells it from other words."""
        air = 2 * _AIR * self.surface.enlarged if self.bold else 0.0
        return font.text_width(self.text, self.size, self.bold) + air, self.size * (font.CAP_HEIGHT + font.DESCENT)


@dataclass(frozen=True)
class Row:
    """Points `(n, 2)` of a line, y up, the way from each into the piece, and the line's angle there, in degrees."""

    points: Floats
    inward: Floats
    angles: Floats

    def places(self, words: Said, inside: Any, depths: slice = slice(None)) -> Places:
        """The places for words in a shape at some of the depths: those of the first first."""
        return Places(self.corners(words, DEEPER[depths]), inside)

    def corners(self, words: Said, deeper: Sequence[float]) -> Floats:
        """Of places so deep, and what is kept clear about them, `(k * n, 5, 2)`."""
        level, upright = words.surface.level, words.surface.upright
        angles = np.full(len(self.points), upright) if level else self.angles  # whichever way it is read
        return corners_of(self._middles(words, deeper), np.tile(angles, len(deeper)), *words.extent, KEPT)

    def _middles(self, words: Said, deeper: Sequence[float]) -> Floats:
        reach = np.reshape(words.surface.reach(self.inward * FLIP, *words.extent), (-1, 1))
        deep = np.array(deeper)[:, None, None]
        return np.asarray((self.points + self.inward * (_INSIDE + deep + reach)) * FLIP).reshape(-1, 2)

    def label(self, words: Said, number: int) -> Label:
        """Words in one of the places, counted from the first depth on."""
        depth, at = divmod(number, len(self.points))
        x, y = self._middles(words, DEEPER[depth : depth + 1])[at].tolist()
        angle = words.surface.along(float(self.angles[at]))
        return words_at(Spot(x, y, *words.extent, angle), words.text, words.size, words.bold)


def rows_beside(rulers: Sequence[Ruler], outward: Sequence[float]) -> list[Row]:
    """The rows beside lines that are measured by rulers, the way outward of each given."""
    if not rulers:
        return []
    points, directions = places_along(rulers, [_PARTS * ruler.length for ruler in rulers])
    angles = np.degrees(np.arctan2(-directions[:, 1], directions[:, 0])).reshape(len(rulers), -1)
    inward = -cubic.right_of(directions).reshape(len(rulers), -1, 2) * np.reshape(outward, (-1, 1, 1))
    return [Row(*some) for some in zip(points.reshape(inward.shape), inward, angles, strict=True)]
