"""Words along an edge, inside its piece: what it is gathered to, the letter of its seam, that it is a hem."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry import cubic
from draft.geometry.ruler import Ruler
from draft.paper.drawing import font
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
_AIR = 1.5  # mm more on either side of a seam's letter, which beside other words would read as one of theirs
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
        labels = (_beside(outlines, edge, _Said(text, _WORDS), [inside], clutter, surface) for text in texts)
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

    said, piece, clutter = dict(seams), outlines[0].piece, Clutter(list(taken))
    found, hemmed = list[Label](), set[str]()
    for inside in (*insides, *([hems] if hems is not None else [])):
        shapely.prepare(inside)
    for edge in [edge for edge in piece.edges if not edge.on_fold]:
        hem = edge.turned_up and edge.allowance > 0
        name = called_on_paper(piece, edge)
        words = _Said(wording.edge(name), _WORDS) if hem and name not in hemmed else None
        if edge.name in said:
            words = _Said(said[edge.name], _LETTER, bold=True)
        label = words and _beside(outlines, edge, words, insides, clutter, surface)
        if words and hem and hems is not None and edge.name not in said:
            label = _beside_cut(outlines, edge, words, hems, clutter, surface) or label
        if label:
            hemmed |= {name} if hem else set()
            found.append(label)
            clutter.take(label_spot(label).shape(_KEPT))
    return found


def letters_again(
    outlines: Sequence[Outlines], seams: SeamWords, clutter: Clutter, surface: Surface
) -> list[list[Label]]:
    """For each size the letters of its edges that lie far from those of the size before: a band's ends, say."""
    found: list[list[Label]] = [[] for _ in outlines]
    for name, said in seams:
        for size, one in enumerate(outlines[1:], 1):
            if not _is_far(one, outlines[size - 1], name):
                continue
            words = _Said(said, _LETTER, bold=True)
            label = _beside([one], one.piece.edge(name), words, [one.sewing_shape], clutter, surface)
            if label is not None:
                clutter.take(label_spot(label).shape(_KEPT))
                found[size].append(label)
    return found


def _is_far(one: Outlines, before: Outlines, edge: str) -> bool:
    """Whether a sewn edge lies far off that of the size before, or beyond its end."""
    ruler, other = one.sewing_ruler(edge), before.sewing_ruler(edge)
    (point, way), (last, _) = ruler.place(ruler.length / 2), other.place(other.length / 2)
    aside, along = float(cubic.cross(cubic.unit(way), point - last)), float(cubic.dot(cubic.unit(way), point - last))
    return abs(aside) > _FAR or abs(along) > max(_FAR, other.length / 2 + ruler.length / 2)


@dataclass(frozen=True)
class _Said:
    """Words and how they are set."""

    text: str
    points: float
    bold: bool = False


def _beside(
    outlines: Sequence[Outlines], edge: Edge, words: _Said, insides: Sequence[Any], clutter: Clutter, surface: Surface
) -> Label | None:
    """Words along an edge of the smallest size, clear of the clutter, in the first of the shapes that has room."""
    one, size = outlines[0], words.points * surface.enlarged
    width, height = font.text_width(words.text, size, words.bold), size * (font.CAP_HEIGHT + font.DESCENT)
    width += 2 * _AIR * surface.enlarged if words.bold else 0.0
    row = _Row.beside(one.sewing_ruler(edge.name), one.outward, surface)
    for inside in insides:
        for deeper in _DEEPER:
            spot = row.first_free(_INSIDE + deeper, width, height, inside, clutter)
            if spot is not None:
                return words_at(spot, words.text, size, words.bold)
    return None


def _beside_cut(
    outlines: Sequence[Outlines], edge: Edge, words: _Said, inside: Any, clutter: Clutter, surface: Surface
) -> Label | None:
    """Words along the cutting line of an edge, that of the size which lies furthest in."""
    size = words.points * surface.enlarged
    width, height = font.text_width(words.text, size, words.bold), size * (font.CAP_HEIGHT + font.DESCENT)
    lines = [(one, line) for one in outlines for own, line in one.cutting_edges if own.name == edge.name]
    rows = [_Row.beside(Ruler(line * FLIP), one.outward, surface) for one, line in lines]
    for deeper in _DEEPER:
        spots = (row.first_free(_INSIDE + deeper, width, height, inside, clutter) for row in rows)
        spot = next((spot for spot in spots if spot is not None), None)
        if spot is not None:
            return words_at(spot, words.text, size, words.bold)
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

    @classmethod
    def beside(cls, ruler: Ruler, outward: float, surface: Surface) -> _Row:
        points, directions = ruler.places(_PARTS * ruler.length)
        angles = np.degrees(np.arctan2(-directions[:, 1], directions[:, 0]))
        return cls(points, -cubic.right_of(directions) * outward, angles, surface)

    def first_free(self, deep: float, width: float, height: float, inside: Any, clutter: Clutter) -> Spot | None:
        """The first place so deep within the edge that lies in a shape and touches nothing."""
        import shapely

        reach = np.reshape(self.surface.reach(self.inward * FLIP, width, height), (-1, 1))
        middles = (self.points + self.inward * (deep + reach)) * FLIP
        level = self.surface.level  # else the rectangle is the same whichever way it is read
        angles = np.full(len(middles), self.surface.upright) if level else self.angles
        shapes = rectangles(middles, angles, width, height, _KEPT)
        fits = shapely.contains(inside, shapes)
        fits[fits] = clutter.free(shapes[fits])
        if not fits.any():
            return None
        first = int(fits.argmax())
        x, y = middles[first].tolist()
        return Spot(x, y, width, height, self.surface.along(float(self.angles[first])))
