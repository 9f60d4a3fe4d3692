"""A cutting layout as a maker sees it on her table: cloth, folds and selvedges, and every piece where it lies.

It knows nothing of how the lay was found: it draws plain outlines, y up along the cloth, in mm of cloth.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal, TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Path, Stroke, Turn, straight_lines
from draft.paper.drawing.sold import as_sold
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.pictures.hatching import THIN, hatched, lines_of
from draft.paper.pictures.lay_labels import piece_label, side_label
from draft.paper.pictures.repeat_lines import drawn_repeat, meeting_dots
from draft.paper.pictures.selvedges import kept_free

ClothSide = Literal["selvedge", "fold", "meeting", "edge"]

SCALES = (10, 15, 20, 25, 30)
"""The first that keeps the picture within a page, or the last: 1 : 10 turns centimetres of cloth into millimetres."""
_SMALL_SCALES = (10, 12, 15, 18, 20, 22, 25, 28, 30, 35, 40, 50)
"""Those of a picture among others, which is told no scale."""
_TALLEST = 215.0
_WIDEST = 165.0
MARGIN = 14.0
_SIDE = 13.0
"""Beside the cloth, for the words along its sides and its length."""
_TEXT = 9.0 * PT
_LINE = 4.6
_PAUSE = 0.6
"""Lines left free between the cutting list and the meaning of the signs."""
_UNDER = 16.0
_OVER = 4.0  # mm above the cloth, for a word on the line where two edges meet
_LONG_LIST = 12
"""A longer list stands beside the cloth and not under it, and the cloth is drawn so much taller, mm."""
_TALLER = 45.0
_BESIDE, _LEAST_BESIDE = 170.0, 60.0
"""Cloth and list together are so wide then, mm, if that leaves the list so much."""
RIGHT_SIDE = "#dedede"
WRONG_SIDE = "#f3f3f3"
PIECE = "#ffffff"
_SELVEDGE_APART = 0.9

CUT = Stroke(0.4)
CLOTH = Stroke(0.25)
FOLD = Stroke(0.9)
OPENED = Stroke(0.25, (3.0, 1.2))
END = Stroke(0.4, (0.01, 1.4), colour=line_styles.GREY, cap="round")


@dataclass(frozen=True)
class LaidPiece:
    """One piece on the table: its outline `(n, 2)`, its number in the cutting list, and its name.

    `up` is 1 or -1 where its upper end points up or down the cloth, 0 where both ends are alike. `opened` are two
    points `(2, 2)` of the line about which a half was opened out.
    """

    number: int
    name: str
    ring: Floats
    face_down: bool = False
    up: int = 1
    opened: Floats | None = None
    size: str = ""
    """Its size, where several are laid at once."""
    meets: Floats | None = None
    """Points `(n, 2)` at which it meets its neighbours on striped or checked cloth."""

    @property
    def called(self) -> str:
        """What it is called by: `3`, or `3 M`."""
        return f"{self.number} {self.size}".rstrip()


@dataclass(frozen=True)
class LaidCloth:
    """The cloth on the table, `ends` mm longer than the lay at both ends.

    `sides` are the lines along it, across the table, and what each is. `outline` is a remnant that is no rectangle.
    `selvedge` mm are kept free along each selvedge.
    """

    width: float
    length: float
    ends: float
    sides: tuple[tuple[float, ClothSide], ...]
    right_side_up: bool
    outline: tuple[Floats, ...] = ()
    selvedge: float = 0.0
    lines: tuple[Floats, ...] = ()
    """Where its stripes or checks return, lines `(2, 2)`."""


@dataclass(frozen=True)
class LayPicture:
    """A lay with the words over it, the cutting list, and what its signs mean: each a line."""

    title: str
    above: tuple[str, ...]
    cloth: LaidCloth
    pieces: tuple[LaidPiece, ...]
    listed: tuple[str, ...]
    legend: tuple[str, ...]
    kind: str = ""
    """In a word or two, what tells it from another of the same sizes: `folded once`."""


def draw_lay(picture: LayPicture, wording: Wording = ENGLISH, tallest: float = _TALLEST) -> Drawing:
    """The lay on a sheet of its own, to scale, its words at their printed size; its cloth within so many mm."""
    diagram = _Diagram(picture, wording, tallest)
    drawn = {"cloth": diagram.cloth(), "pieces": diagram.pieces(), "sides": diagram.sides(), "words": diagram.words()}
    layers = tuple(Layer(name, tuple(items)) for name, items in drawn.items())
    return Drawing(picture.title, diagram.width, diagram.height, layers, subtitle=", ".join(picture.above))


Drawn: TypeAlias = dict[tuple[int, int], Drawing]
"""Drawings of lays that are kept while they are, by the lay and its scale."""


def lay_alone(picture: LayPicture, wording: Wording, width: float, tallest: float, drawn: Drawn) -> Drawing:
    """The cloth with its pieces, its sides and its measures, as large as fits into so many mm; its words come apart.

    `drawn` has those of the same width and wording: one that fits at the same scale is not drawn again.
    """
    bare = replace(picture, above=(), listed=(), legend=())
    diagram = _Diagram(bare, wording, tallest, width - 2 * _SIDE, _SMALL_SCALES)
    key = (id(picture), diagram.scale)
    if key not in drawn:
        drawn[key] = _alone(picture, diagram)
    return drawn[key]


def _alone(picture: LayPicture, diagram: _Diagram) -> Drawing:
    items = [*diagram.cloth(), *diagram.pieces(), *diagram.sides(), *diagram.measures()]
    aside = Turn(0, -MARGIN, -diagram.top + _OVER)
    lowest = max((item.y for item in items if isinstance(item, Label)), default=0.0) + _TEXT * font.DESCENT
    height = max(diagram.bottom - diagram.top + _UNDER - 7.0, lowest - diagram.top) + _OVER
    layer = Layer("lay", tuple(item.moved(aside) for item in items))
    return Drawing(picture.title, picture.cloth.width / diagram.scale + 2 * _SIDE, height, (layer,))


class _Diagram:
    """Where everything stands on the sheet."""

    def __init__(
        self, picture: LayPicture, wording: Wording, tallest: float, widest: float = _WIDEST,
        scales: Sequence[int] = SCALES,
    ) -> None:  # fmt: skip
        self.picture, self.wording = picture, wording
        whole = picture.cloth.length + 2 * picture.cloth.ends
        long_list = len(picture.listed) > _LONG_LIST
        tallest = min(tallest + _TALLER, _TALLEST) if long_list else tallest
        fits = (s for s in scales if whole / s <= tallest and picture.cloth.width / s <= widest)
        self.scale = next(fits, scales[-1])
        self._left = MARGIN + _SIDE
        broad = picture.cloth.width / self.scale + 2 * _SIDE
        self._beside = broad + _LINE if long_list and _BESIDE - broad >= _LEAST_BESIDE else 0.0
        self.text_width = _BESIDE if self._beside else max(broad, 120.0)
        self._above = self._wrapped(picture.above, self.text_width)
        self._listed = self._wrapped(picture.listed, self.text_width - self._beside)
        self._legend = self._wrapped(picture.legend, self.text_width - self._beside)
        self.top = MARGIN + 9.0 + _LINE * len(self._above) + 8.0
        self.bottom = self.top + whole / self.scale
        self.width = self.text_width + 2 * MARGIN
        lines = len(self._listed) + len(self._legend) + (_PAUSE if self._legend else 0)
        self._list_top = self.top + _LINE / 2 if self._beside else self.bottom + _UNDER
        self.height = max(self._list_top + _LINE * lines, self.bottom + _UNDER) + MARGIN - _LINE

    @staticmethod
    def _wrapped(texts: Sequence[str], width: float) -> list[str]:
        return [line for words in texts for line in font.wrapped(words, _TEXT, width)]

    def on_paper(self, points: Floats) -> Floats:
        """Where points `(..., 2)` of the table come to lie on the sheet."""
        across = self._left + points[..., 0] / self.scale
        along = self.bottom - (points[..., 1] + self.picture.cloth.ends) / self.scale
        return np.stack([across, along], axis=-1)

    def at(self, x: float, y: float) -> Floats:
        """One point of the table on the sheet."""
        return self.on_paper(np.array([x, y]))

    def cloth(self) -> list[Item]:
        """The cloth itself, and where its cut ends are kept free."""
        cloth = self.picture.cloth
        fill = RIGHT_SIDE if cloth.right_side_up else WRONG_SIDE
        low, high = -cloth.ends, cloth.length + cloth.ends
        frame = np.array([(0, low), (cloth.width, low), (cloth.width, high), (0, high)], dtype=float)
        outlines = cloth.outline or (frame,)
        runs = tuple(lines_through(self.on_paper(ring), closed=True) for ring in outlines)
        items: list[Item] = [Path(runs, CLOTH, fill, closed=True, id="cloth")]
        items += drawn_repeat([self.on_paper(line) for line in cloth.lines])
        if cloth.ends and not cloth.outline:
            items.append(straight_lines([self._across(0.0), self._across(cloth.length)], END))
        if margins := self._margins():
            items.append(straight_lines(margins, END))
        return items

    def _margins(self) -> list[Floats]:
        """The lines beside the selvedges up to which pieces may lie."""
        cloth = self.picture.cloth
        low, high = -cloth.ends, cloth.length + cloth.ends
        lines = kept_free(cloth.sides, cloth.width, cloth.selvedge)
        return [self.on_paper(np.array([(x, low), (x, high)])) for x in lines]

    def sides(self) -> list[Item]:
        """The lines along the cloth with their words."""
        low, high = -self.picture.cloth.ends, self.picture.cloth.length + self.picture.cloth.ends
        return [item for x, side in self.picture.cloth.sides for item in self._side(x, side, low, high)]

    def _across(self, y: float) -> Floats:
        return self.on_paper(np.array([(0.0, y), (self.picture.cloth.width, y)]))

    def _side(self, x: float, side: ClothSide, low: float, high: float) -> list[Item]:
        line = self.on_paper(np.array([(x, low), (x, high)]))
        shift = np.array([_SELVEDGE_APART, 0.0])
        if side == "edge":
            return []
        if side == "fold":
            items: list[Item] = [straight_lines([line], FOLD)]
        elif side == "selvedge":
            outward = -shift if x <= self.picture.cloth.width / 2 else shift
            items = [straight_lines([line, line + outward], CLOTH)]
        else:
            items = [straight_lines([line - shift / 2, line + shift / 2], CLOTH)]
        words = self.wording.say(f"lay.{side}")
        return [*items, side_label(words, side, line, x <= self.picture.cloth.width / 2)]

    def pieces(self) -> list[Item]:
        """Every piece: white where it lies printed side up, hatched where it lies face down."""
        items: list[Item] = []
        for number, piece in enumerate(self.picture.pieces):
            ring = self.on_paper(piece.ring)
            run = lines_through(ring, closed=True)
            data = (("number", str(piece.number)), ("face", "down" if piece.face_down else "up"))
            items.append(Path((run,), None, PIECE, closed=True))
            items += hatched(ring) if piece.face_down else []
            items.append(Path((run,), CUT, closed=True, id=f"piece-{number + 1}", data=data))
            items += self._opened(piece)
            items += meeting_dots(self.on_paper(piece.meets)) if piece.meets is not None else []
            cleared = piece.face_down or piece.opened is not None
            items += piece_label(piece.called, piece.name, ring, piece.up, cleared)
        return items

    def _opened(self, piece: LaidPiece) -> list[Item]:
        """The line about which a half was opened out, kept clear of the words."""
        if piece.opened is None:
            return []
        import shapely

        start, end = piece.opened
        beyond = (end - start) * np.ptp(piece.ring, axis=0).sum() / max(float(np.hypot(*(end - start))), 1e-9)
        line = shapely.LineString([start - beyond, end + beyond])
        lines = lines_of(line.intersection(shapely.Polygon(piece.ring)))
        return [straight_lines([self.on_paper(part) for part in lines], OPENED)] if lines else []

    def words(self) -> list[Item]:
        """The title, the lines over and under the cloth, and how long and wide it is."""
        large = 15.0 * PT
        title = font.fitted_text(self.picture.title, large, self.text_width, bold=True)
        items: list[Item] = [Label(title, MARGIN, MARGIN + large * font.CAP_HEIGHT, large, bold=True)]
        items += _lines(self._above, MARGIN + 9.0)
        items += _lines(self._listed, self._list_top, self._beside)
        items += _lines(self._legend, self._list_top + _LINE * (len(self._listed) + _PAUSE), self._beside)
        return [*items, *self.measures()]

    def measures(self) -> list[Item]:
        """How long the cloth is and how wide it lies."""
        cloth = self.picture.cloth
        low, high = float(self.at(0.0, 0.0)[1]), float(self.at(0.0, cloth.length)[1])
        x = float(self.at(cloth.width, 0.0)[0]) + 7.5
        length = as_sold(cloth.length, self.wording)
        items: list[Item] = [
            _measure((x, high), (x, low)),
            Label(length, x + 2.0 + _TEXT * font.CAP_HEIGHT, (low + high) / 2, _TEXT, "middle", angle=270.0),
        ]
        parts = [0.0, *(x for x, side in cloth.sides if side == "meeting"), cloth.width]
        for left, right in pairwise(parts):
            items += self._across_words(left, right)
        return items

    def _across_words(self, left: float, right: float) -> list[Item]:
        """How wide the cloth lies between two places across it."""
        start, end = (self.at(x, -self.picture.cloth.ends) + np.array([0.0, 3.0]) for x in (left, right))
        middle, y = float(start[0] + end[0]) / 2, float(start[1]) + 4.5
        lines = font.wrapped(as_sold(right - left, self.wording), _TEXT, float(end[0] - start[0]))
        return [
            _measure((float(start[0]), float(start[1])), (float(end[0]), float(end[1]))),
            *(Label(line, middle, y + _LINE * k, _TEXT, "middle") for k, line in enumerate(lines)),
        ]


def _measure(start: tuple[float, float], end: tuple[float, float]) -> Path:
    """A line between two short strokes square to it."""
    a, b = np.array(start), np.array(end)
    along = (b - a) / max(float(np.hypot(*(b - a))), 1e-9)
    across = 1.2 * np.array([-along[1], along[0]])
    return straight_lines([[a, b], [a - across, a + across], [b - across, b + across]], THIN)


def _lines(lines: Sequence[str], top: float, beside: float = 0.0) -> list[Item]:
    return [Label(line, MARGIN + beside, top + _LINE * k, _TEXT) for k, line in enumerate(lines)]
