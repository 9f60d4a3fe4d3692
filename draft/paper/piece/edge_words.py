"""Words along an edge, inside its piece: what it is gathered to, the letter of its seam, that it is a hem."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain, repeat
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry import cubic
from draft.geometry.ruler import Ruler, places_along, places_on
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import Spot, label_spot, rectangles, words_at
from draft.paper.drawing.wording import Wording
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST
from draft.seams.hem_names import called_on_paper
from draft.seams.joins_in_order import edge_letters
from draft.seams.sides import sewn_length

_WORDS = SMALLEST * PT
_LETTER = 11.0 * PT
"""A seam's letter is looked for, and so is a little larger than other words along an edge."""
_INSIDE = 2.0  # mm from the sewing line
_DEEPER = (0.0, 3.0, 6.0, 10.0, 16.0, 24.0)
_FAR = 18.0
"""An edge that lies so many mm from that of the size before is no longer one of a bundle: it has letters of its own."""
_KEPT = 1.0  # mm that words keep clear of lines and other words

SeamWords = tuple[tuple[str, str], ...]
"""The letters of each edge by its name."""


def seams_of(garment: Garment, piece: Piece) -> SeamWords:
    """The letters of the seams that each edge of a piece is sewn in, such as `A` or `A, C`."""
    return tuple((edge, said) for (name, edge), said in edge_letters(garment).items() if name == piece.name)


def gathered(
    outlines: Sequence[Outlines], inside: Any, taken: Sequence[Any], wording: Wording, surface: Surface
) -> list[Label]:
    """Words along each edge that is gathered or drawn in by elastic, inside the shape and clear of what is taken.

    They are of one size with the length.
    """
    one, found = outlines[0], list[Label]()
    edges = [e for e in one.piece.edges if not (e.gathered is None and e.elastic is None and e.drawn_up is None)]
    clutter = Clutter(taken if edges else [])
    for edge in edges:
        said = wording.gather if edge.elastic is None else wording.elastic
        texts = (said(_drawn_to(one, edge) if len(outlines) == 1 else None), said(None))
        row = _rows([one.sewing_ruler(edge.name)], [one.outward], surface)[0]
        labels = (_set(_Wish(row, _Said(text, _WORDS, surface), [inside]), clutter) for text in texts)
        found += [label for label in labels if label][:1]
    return found


def _drawn_to(one: Outlines, edge: Edge) -> float:
    """What is said of an edge that is drawn in, mm: the length of its elastic, or that to which it is gathered."""
    if edge.elastic is not None:
        return float(edge.elastic[one.body]) * (2 if one.piece.on_fold else 1)
    return float((sewn_length(one.piece, edge) if edge.drawn_up is None else edge.drawn_up)[one.body])


def seam_words(
    outlines: Sequence[Outlines],
    seams: SeamWords,
    insides: Sequence[Any],
    hems: Any,
    taken: Iterable[Any],
    wording: Wording,
    surface: Surface,
) -> list[Label]:
    """The letter along each edge that is sewn, and the name along each that is hemmed, once for all sizes.

    They stand in the first of the shapes `insides` in which they find room. Where only cutting lines are drawn, `hems`
    is the shape within them: a hem's name stands near where it is cut.
    """
    import shapely

    said, one, clutter = dict(seams), outlines[0], Clutter(list(taken))
    found, hemmed = list[Label](), set[str]()
    for inside in (*insides, *([hems] if hems is not None else [])):
        shapely.prepare(inside)
    edges = [edge for edge in one.piece.edges if not edge.on_fold and (edge.name in said or _is_hem(edge))]
    rows = _rows([one.sewing_ruler(edge.name) for edge in edges], [one.outward] * len(edges), surface)
    words = [_words_along(one.piece, edge, said, wording, surface) for edge in edges]
    wishes = [_Wish(row, some, insides) for row, some in zip(rows, words, strict=True)]
    for edge, wish, looked in zip(edges, wishes, _looked_at(wishes, clutter), strict=True):
        name = called_on_paper(one.piece, edge)
        if edge.name not in said and name in hemmed:
            continue
        label = None
        if hems is not None and edge.name not in said:
            label = _beside_cut(outlines, edge, wish.words, hems, clutter, surface)
        label = label or _set(wish, clutter, looked)
        if label:
            hemmed |= {name} if _is_hem(edge) else set()
            found.append(label)
            clutter.take(label_spot(label).shape(_KEPT))
    return found


def _is_hem(edge: Edge) -> bool:
    return edge.turned_up and edge.allowance > 0


def _words_along(piece: Piece, edge: Edge, said: Mapping[str, str], wording: Wording, surface: Surface) -> _Said:
    """The letter of an edge that is sewn, the name of one that is hemmed."""
    if edge.name in said:
        return _Said(said[edge.name], _LETTER, surface, bold=True)
    return _Said(wording.edge(called_on_paper(piece, edge)), _WORDS, surface)


def letters_again(
    outlines: Sequence[Outlines], seams: SeamWords, clutter: Clutter, surface: Surface
) -> list[list[Label]]:
    """For each size the letters of its edges that lie far from those of the size before: a band's ends, say."""
    found: list[list[Label]] = [[] for _ in outlines]
    far = _far(outlines, [name for name, _ in seams])
    again = [(size, *seams[edge]) for edge, size in zip(*np.nonzero(far), strict=True)]
    if not again:
        return found
    rulers = [outlines[size].sewing_ruler(name) for size, name, _ in again]
    rows = _rows(rulers, [outlines[size].outward for size, *_ in again], surface)
    wishes = [
        _Wish(row, _Said(said, _LETTER, surface, bold=True), [outlines[size].sewing_shape])
        for row, (size, _, said) in zip(rows, again, strict=True)
    ]
    for wish, looked, (size, *_) in zip(wishes, _looked_at(wishes, clutter), again, strict=True):
        label = _set(wish, clutter, looked)
        if label is not None:
            clutter.take(label_spot(label).shape(_KEPT))
            found[size].append(replace(label, colour=line_styles.cutting_stroke(size).colour))
    return found


def _far(outlines: Sequence[Outlines], edges: Sequence[str]) -> Bools:
    """Which sewn edges lie far off those of the size before, or beyond their ends: `(edges, sizes)`."""
    found = np.zeros((len(edges), len(outlines)), dtype=bool)
    if not found.size:
        return found
    rulers = [one.sewing_ruler(edge) for edge in edges for one in outlines]
    points, ways = places_on(rulers, [np.array([ruler.length / 2]) for ruler in rulers])
    points, ways = (some.reshape(len(edges), -1, 2) for some in (points, ways))
    halves = np.array([ruler.length / 2 for ruler in rulers]).reshape(found.shape)
    off, way = points[:, 1:] - points[:, :-1], cubic.unit(ways[:, 1:])
    aside, along = np.abs(cubic.cross(way, off)), np.abs(cubic.dot(way, off))
    found[:, 1:] = (aside > _FAR) | (along > np.maximum(_FAR, halves[:, :-1] + halves[:, 1:]))
    return found


@dataclass(frozen=True)
class _Said:
    """Words and how they are set."""

    text: str
    points: float
    surface: Surface
    bold: bool = False

    @property
    def size(self) -> float:
        """Of their letters, mm."""
        return self.points * self.surface.enlarged

    @property
    def width(self) -> float:
        """In mm."""
        return font.text_width(self.text, self.size, self.bold)

    @property
    def height(self) -> float:
        """In mm."""
        return self.size * (font.CAP_HEIGHT + font.DESCENT)


@dataclass(frozen=True)
class _Wish:
    """Words wished for in a row of places, in the first of the shapes `insides` that has room."""

    row: _Row
    words: _Said
    insides: Sequence[Any]


def _set(wish: _Wish, clutter: Clutter, looked: _Looked | None = None) -> Label | None:
    """Words clear of the clutter: where they were looked for already, else in the nearest places, and then deeper."""
    for looked_at in chain([looked] if looked else _looked_at([wish], clutter), _deeper(wish, clutter)):
        number = clutter.first_apart(looked_at.shapes, looked_at.good)
        if number is not None:
            return wish.row.set(wish.words, looked_at.middles[number], number)
    return None


@dataclass(frozen=True)
class _Looked:
    """Places `(n, 2)`, their shapes `(n,)`, and which are in their shape and clear of all lines `(n,)`."""

    middles: Floats
    shapes: Any
    good: Bools


def _looked_at(wishes: Sequence[_Wish], clutter: Clutter) -> list[_Looked]:
    """The nearest places of all wishes, looked at at once."""
    return _looked(wishes, [(_DEEPER[:1], wish.insides[0]) for wish in wishes], clutter)


def _deeper(wish: _Wish, clutter: Clutter) -> Iterator[_Looked]:
    """All others of one."""
    for inside, deeper in zip(wish.insides, chain([_DEEPER[1:]], repeat(_DEEPER)), strict=False):
        yield from _looked([wish], [(deeper, inside)], clutter)


def _looked(
    wishes: Sequence[_Wish], where: Sequence[tuple[Sequence[float], Any]], clutter: Clutter
) -> list[_Looked]:
    """For each wish its places at some depths, those of the first depth first, and whether they are good in a shape."""
    import shapely

    if not wishes:
        return []
    parts = [
        (wish.row.middles(deep, wish.words), np.tile(wish.row.turns, len(deep)), wish.words.width, wish.words.height)
        for wish, (deep, _) in zip(wishes, where, strict=True)
    ]
    counts = [len(middles) for middles, *_ in parts]
    middles, angles = np.concatenate([part[0] for part in parts]), np.concatenate([part[1] for part in parts])
    wide, high = (np.repeat([part[k] for part in parts], counts) for k in (2, 3))
    shapes = rectangles(middles, angles, wide, high, _KEPT)
    good = shapely.contains(np.repeat(np.array([inside for _, inside in where]), counts), shapes)
    good[good] = clutter.off_lines(shapes[good])
    ends = np.cumsum(counts)[:-1]
    every = zip(np.split(middles, ends), np.split(shapes, ends), np.split(good, ends), strict=True)
    return [_Looked(*some) for some in every]


def _beside_cut(
    outlines: Sequence[Outlines], edge: Edge, words: _Said, inside: Any, clutter: Clutter, surface: Surface
) -> Label | None:
    """Words along the cutting line of an edge, that of the size which lies furthest in."""
    lines = [(one, line) for one in outlines for own, line in one.cutting_edges if own.name == edge.name]
    rulers = Ruler.each([line * FLIP for _, line in lines])
    wishes = [_Wish(row, words, [inside]) for row in _rows(rulers, [one.outward for one, _ in lines], surface)]
    for deeper in _DEEPER if wishes else ():
        for wish, looked in zip(wishes, _looked(wishes, [((deeper,), inside)] * len(wishes), clutter), strict=True):
            number = clutter.first_apart(looked.shapes, looked.good)
            if number is not None:
                return wish.row.set(words, looked.middles[number], number)
    return None


_PARTS = 0.5 + 0.02 * np.array([s * k for k in range(21) for s in ((1, -1) if k else (1,))])
"""Of an edge's length: places for words, from its middle outward."""


@dataclass(frozen=True)
class _Row:
    """Points `(n, 2)` of an edge, y up, the way from each into the piece, and the edge's angle there, in degrees."""

    points: Floats
    inward: Floats
    angles: Floats
    surface: Surface

    @property
    def turns(self) -> Floats:
        """How words stand there, in degrees `(n,)`: the rectangle is the same whichever way it is read."""
        return np.full(len(self.points), self.surface.upright) if self.surface.level else self.angles

    def middles(self, deeper: Sequence[float], words: _Said) -> Floats:
        """Of words so deep within the edge, depth by depth, `(k * n, 2)`."""
        reach = np.reshape(self.surface.reach(self.inward * FLIP, words.width, words.height), (-1, 1))
        deep = np.array(deeper)[:, None, None]
        return np.asarray((self.points + self.inward * (_INSIDE + deep + reach)) * FLIP).reshape(-1, 2)

    def set(self, words: _Said, middle: Floats, number: int) -> Label:
        """Words about one of the middles."""
        x, y = middle.tolist()
        angle = self.surface.along(float(self.angles[number % len(self.angles)]))
        return words_at(Spot(x, y, words.width, words.height, angle), words.text, words.size, words.bold)


def _rows(rulers: Sequence[Ruler], outward: Sequence[float], surface: Surface) -> list[_Row]:
    """The rows beside lines that are measured by rulers, the way outward of each given."""
    if not rulers:
        return []
    points, directions = places_along(rulers, [_PARTS * ruler.length for ruler in rulers])
    angles = np.degrees(np.arctan2(-directions[:, 1], directions[:, 0])).reshape(len(rulers), -1)
    inward = -cubic.right_of(directions).reshape(len(rulers), -1, 2) * np.reshape(outward, (-1, 1, 1))
    return [_Row(*some, surface) for some in zip(points.reshape(inward.shape), inward, angles, strict=True)]
