"""A cutting layout as a maker sees it on her table: cloth, folds and selvedges, and every piece where it lies.

It knows nothing of how the lay was found: it draws plain outlines, y up along the cloth, in mm of cloth.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from draft.paper import font, styles
from draft.paper.drawing import PT, Drawing, Item, Label, Layer, Path, Stroke, chain, strokes
from draft.paper.lay_labels import label
from draft.paper.wording import ENGLISH, Wording

Floats = NDArray[np.float64]
Side = Literal["selvedge", "fold", "meeting", "edge"]

SCALES = (10, 20, 40)
"""The first that keeps the picture within a page: 1 : 10 turns centimetres of cloth into millimetres of paper."""
_TALLEST = 215.0
_WIDEST = 165.0
MARGIN = 14.0
_SIDE = 13.0
"""Beside the cloth, for the words along its sides and its length."""
_TEXT = 9.0 * PT
_LINE = 4.6
RIGHT_SIDE = "#dedede"
WRONG_SIDE = "#f3f3f3"
PIECE = "#ffffff"
_HATCH = 2.2
_SELVEDGE_APART = 0.9

CUT = Stroke(0.4)
CLOTH = Stroke(0.25)
FOLD = Stroke(0.9)
THIN = Stroke(0.18, colour=styles.GREY)
OPENED = Stroke(0.25, (3.0, 1.2))
END = Stroke(0.18, (1.2, 1.2), colour=styles.GREY)


@dataclass(frozen=True)
class LaidPiece:
    """One piece on the table: its outline `(n, 2)`, its number in the cutting list, and its name.

    `up` is 1 or -1 where its upper end points up or down the cloth, 0 where both ends are alike. `opened` is where
    across the table a half was opened out about its fold.
    """

    number: int
    name: str
    ring: Floats
    face_down: bool = False
    up: int = 1
    opened: float | None = None


@dataclass(frozen=True)
class LaidCloth:
    """The cloth on the table, `ends` mm longer than the lay at both ends.

    `sides` are the lines along it, across the table, and what each is. `outline` is a remnant that is no rectangle.
    """

    width: float
    length: float
    ends: float
    sides: tuple[tuple[float, Side], ...]
    right_side_up: bool
    outline: tuple[Floats, ...] = ()


@dataclass(frozen=True)
class Lay:
    """A layout with the words over and under it, each a line."""

    title: str
    above: tuple[str, ...]
    cloth: LaidCloth
    pieces: tuple[LaidPiece, ...]
    below: tuple[str, ...]


def draw_lay(lay: Lay, wording: Wording = ENGLISH) -> Drawing:
    """The layout on a sheet of its own, to scale, its words at their printed size."""
    sheet = _Sheet(lay, wording)
    layers = (Layer("cloth", tuple(sheet.cloth())), Layer("pieces", tuple(sheet.pieces())))
    words = Layer("words", tuple(sheet.words()))
    return Drawing(lay.title, sheet.width, sheet.height, (*layers, words), subtitle=", ".join(lay.above))


class _Sheet:
    """Where everything stands on the sheet."""

    def __init__(self, lay: Lay, wording: Wording) -> None:
        self.lay, self.wording = lay, wording
        whole = lay.cloth.length + 2 * lay.cloth.ends
        fits = (s for s in SCALES if whole / s <= _TALLEST and lay.cloth.width / s <= _WIDEST)
        self.scale = next(fits, SCALES[-1])
        self._left = MARGIN + _SIDE
        self.text_width = max(lay.cloth.width / self.scale + 2 * _SIDE, 120.0)
        self._above = [line for words in lay.above for line in font.wrapped(words, _TEXT, self.text_width)]
        self._below = [line for words in lay.below for line in font.wrapped(words, _TEXT, self.text_width)]
        self._top = MARGIN + 9.0 + _LINE * len(self._above) + 8.0
        self._bottom = self._top + whole / self.scale
        self.width = self.text_width + 2 * MARGIN
        self.height = self._bottom + 13.0 + _LINE * len(self._below) + MARGIN - _LINE

    def on_paper(self, points: Floats) -> Floats:
        """Where points `(..., 2)` of the table come to lie on the sheet."""
        across = self._left + points[..., 0] / self.scale
        along = self._bottom - (points[..., 1] + self.lay.cloth.ends) / self.scale
        return np.stack([across, along], axis=-1)

    def at(self, x: float, y: float) -> Floats:
        """One point of the table on the sheet."""
        return self.on_paper(np.array([x, y]))

    def cloth(self) -> list[Item]:
        """The cloth itself, its cut ends, and the lines along it with their words."""
        cloth = self.lay.cloth
        fill = RIGHT_SIDE if cloth.right_side_up else WRONG_SIDE
        low, high = -cloth.ends, cloth.length + cloth.ends
        frame = np.array([(0, low), (cloth.width, low), (cloth.width, high), (0, high)], dtype=float)
        outlines = cloth.outline or (frame,)
        runs = tuple(chain(self.on_paper(ring), closed=True) for ring in outlines)
        items: list[Item] = [Path(runs, CLOTH, fill, closed=True, id="cloth")]
        if cloth.ends and not cloth.outline:
            items.append(strokes([self._across(0.0), self._across(cloth.length)], END))
        for x, side in cloth.sides:
            items += self._side(x, side, low, high)
        return items

    def _across(self, y: float) -> Floats:
        return self.on_paper(np.array([(0.0, y), (self.lay.cloth.width, y)]))

    def _side(self, x: float, side: Side, low: float, high: float) -> list[Item]:
        line = self.on_paper(np.array([(x, low), (x, high)]))
        shift = np.array([_SELVEDGE_APART, 0.0])
        if side == "edge":
            return []
        if side == "fold":
            items: list[Item] = [strokes([line], FOLD)]
        elif side == "selvedge":
            inward = shift if x <= self.lay.cloth.width / 2 else -shift
            items = [strokes([line, line + inward], CLOTH)]
        else:
            items = [strokes([line - shift / 2, line + shift / 2], CLOTH)]
        return [*items, self._side_words(x, side, line)]

    def _side_words(self, x: float, side: Side, line: Floats) -> Label:
        text = self.wording.say(f"lay.{side}")
        middle = line.mean(axis=0)
        if side == "meeting":
            return Label(text, float(line[1, 0]), float(line[1, 1]) - 2.0, _TEXT, "middle", id=f"side-{side}")
        aside = -2.5 if x <= self.lay.cloth.width / 2 else 2.5 + _TEXT * font.CAP_HEIGHT
        at = (float(middle[0]) + aside, float(middle[1]))
        return Label(text, *at, _TEXT, "middle", angle=270.0, bold=side == "fold", id=f"side-{side}")

    def pieces(self) -> list[Item]:
        """Every piece: white where it lies printed side up, hatched where it lies face down."""
        items: list[Item] = []
        for number, piece in enumerate(self.lay.pieces):
            ring = self.on_paper(piece.ring)
            run = chain(ring, closed=True)
            data = (("number", str(piece.number)), ("face", "down" if piece.face_down else "up"))
            items.append(Path((run,), None, PIECE, closed=True))
            items += _hatched(ring) if piece.face_down else []
            items.append(Path((run,), CUT, closed=True, id=f"piece-{number + 1}", data=data))
            items += self._opened(piece)
            cleared = piece.face_down or piece.opened is not None
            items += label(piece.number, piece.name, ring, piece.up, cleared)
        return items

    def _opened(self, piece: LaidPiece) -> list[Item]:
        """The line about which a half was opened out, kept clear of the words."""
        if piece.opened is None:
            return []
        import shapely

        low, high = piece.ring[:, 1].min(), piece.ring[:, 1].max()
        line = shapely.LineString([(piece.opened, low), (piece.opened, high)])
        inside = line.intersection(shapely.Polygon(piece.ring))
        parts = [part for part in shapely.get_parts(inside) if part.geom_type == "LineString"]
        return [strokes([self.on_paper(shapely.get_coordinates(part)) for part in parts], OPENED)] if parts else []

    def words(self) -> list[Item]:
        """The title, the lines over and under the cloth, and how long and wide it is."""
        large = 15.0 * PT
        title = font.shortened(self.lay.title, large, self.text_width, bold=True)
        items: list[Item] = [Label(title, MARGIN, MARGIN + large * font.CAP_HEIGHT, large, bold=True)]
        items += _lines(self._above, MARGIN + 9.0)
        items += _lines(self._below, self._bottom + 13.0)
        return [*items, *self._measures()]

    def _measures(self) -> list[Item]:
        cloth = self.lay.cloth
        right, bottom = self.at(cloth.width, 0.0), self.at(cloth.width / 2, -cloth.ends)
        low, high = float(right[1]), float(self.at(0.0, cloth.length)[1])
        x = float(right[0]) + 7.5
        y = float(bottom[1]) + 3.0
        left, end = float(self.at(0.0, 0.0)[0]), float(right[0])
        length = self.wording.length(cloth.length)
        return [
            _measure((x, high), (x, low)),
            Label(length, x + 2.0 + _TEXT * font.CAP_HEIGHT, (low + high) / 2, _TEXT, "middle", angle=270.0),
            _measure((left, y), (end, y)),
            Label(self.wording.length(cloth.width), (left + end) / 2, y + 4.5, _TEXT, "middle"),
        ]


def _measure(start: tuple[float, float], end: tuple[float, float]) -> Path:
    """A line between two short strokes square to it."""
    a, b = np.array(start), np.array(end)
    along = (b - a) / max(float(np.hypot(*(b - a))), 1e-9)
    across = 1.2 * np.array([-along[1], along[0]])
    return strokes([[a, b], [a - across, a + across], [b - across, b + across]], THIN)


def _lines(lines: Sequence[str], top: float) -> list[Item]:
    return [Label(line, MARGIN, top + _LINE * k, _TEXT) for k, line in enumerate(lines)]


def _hatched(ring: Floats) -> list[Item]:
    """Slanting lines over a piece that lies face down."""
    import shapely

    low, high = ring.min(axis=0), ring.max(axis=0)
    rise = float(high[1] - low[1])
    starts = np.arange(float(low[0]) - rise, float(high[0]), _HATCH)
    slants = shapely.linestrings([[(x, high[1]), (x + rise, low[1])] for x in starts])
    inside = shapely.get_parts(shapely.intersection(slants, shapely.Polygon(ring)))
    lines = [shapely.get_coordinates(part) for part in inside if part.geom_type == "LineString"]
    return [strokes(lines, THIN)] if lines else []
