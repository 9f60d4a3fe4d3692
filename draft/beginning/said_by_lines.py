"""What the lines and words of a drawing say of a piece: its name, its grain, and where it lies on a fold."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cached_property
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.beginning.joined import Outline
from draft.beginning.strokes import Stroke, Words
from draft.geometry.cubic import norm
from draft.geometry.flatten import flatten

FOLD = "fold"
"""The edge along which the cloth is doubled."""
_GRAIN = re.compile(r"grain|fadenlauf", re.IGNORECASE)
_FOLDED = re.compile(r"fold|mirror|bruch", re.IGNORECASE)
_D6673_GRAIN, _D6673_MIRROR = "7", "6"
"""Layers of pieces exchanged after ASTM D6673, from memory."""
_PIECE_NAME = "piece name:"
_NEAR = 0.05
"""mm: so near an edge lies to the fold that is drawn for it."""


class Around:
    """An outline with the strokes of its block and all words."""

    def __init__(self, strokes: Sequence[Stroke], words: Sequence[Words], outline: Outline) -> None:
        self.strokes, self.words, self.outline = strokes, words, outline
        self.exchanged = any(one.text.lower().startswith(_PIECE_NAME) for one in words)

    def name(self, first: Stroke) -> str:
        """What the piece calls itself: in words that say so, as its block, by its line's name, or in words on it."""
        for one in self.words:
            if first.piece and one.piece == first.piece and one.text.lower().startswith(_PIECE_NAME):
                return one.text[len(_PIECE_NAME) :].strip()
        if first.piece.startswith("*"):
            return ""
        return first.piece or _given(first.name) or self._words_on() or _given(first.layer)

    def _words_on(self) -> str:
        import shapely

        worded = [one for one in self.words if re.search(r"[^\W\d_]{2}", one.text)]
        return next((one.text for one in worded if self._shape.covers(shapely.Point(one.at))), "")

    def grain(self) -> Floats | None:
        """Which way the line runs that says to be the grain's, up where it can `(2,)`; None where none does."""
        import shapely

        for stroke in self._called(_GRAIN, _D6673_GRAIN):
            ends = stroke.path[[0, -1], [0, 3]]
            chord = ends[1] - ends[0]
            if norm(chord) > 1.0 and self._shape.buffer(1.0).covers(shapely.LineString(ends)):
                way = chord / norm(chord)
                return np.asarray(-way if (round(way[1], 6), way[0]) < (0, 0) else way)
        return None

    def on_fold(self) -> list[bool]:
        """Which segments of the outline lie on a line that says to be a fold."""
        found = np.zeros(len(self.outline.path), dtype=bool)
        for stroke in self._called(_FOLDED, _D6673_MIRROR):
            chord = stroke.path[-1, 3] - stroke.path[0, 0]
            if norm(chord) > 1.0:
                off = aside((self.outline.path - stroke.path[0, 0]).reshape(-1, 2), chord).reshape(-1, 4)
                found |= np.abs(off).max(axis=1) <= _NEAR
        return [bool(one) for one in found]

    def _called(self, word: re.Pattern[str], layer: str) -> list[Stroke]:
        return [
            stroke
            for stroke in self.strokes
            if word.search(f"{stroke.layer} {stroke.name} {stroke.edge}") or (self.exchanged and stroke.layer == layer)
        ]

    @cached_property
    def _shape(self) -> Any:
        import shapely

        return shapely.make_valid(shapely.Polygon(flatten(self.outline.path, 0.05)))


def _given(name: str) -> str:
    """A name that somebody gave, and no program: `back`, not `path1234` or a number."""
    return "" if re.fullmatch(r"[a-z]*[\W_]*\d[\d._-]*", name.lower()) else name


def aside(points: Floats, chord: Floats) -> Floats:
    """How far points `(N, 2)` lie to the left of a line from 0, 0 along `chord` `(2,)`: `(N,)`, mm."""
    return np.asarray((points[:, 1] * chord[0] - points[:, 0] * chord[1]) / norm(chord))
