"""Words along an edge, inside its piece: what it is gathered to, the letter of its seam, that it is a hem."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Bools
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry import cubic
from draft.geometry.ruler import Ruler, places_on
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import label_spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.in_turn import Places, first_places
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.rows_beside import DEEPER, KEPT, LATER, PLACES, SOON, Row, Said, rows_beside
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST
from draft.seams.hem_names import called_on_paper
from draft.seams.joins_in_order import edge_letters
from draft.seams.sides import sewn_length

_WORDS = SMALLEST * PT
_LETTER = 11.0 * PT
"""A seam's letter is looked for, and so is a little larger than other words along an edge."""
_FAR = 18.0
"""An edge that lies so many mm from that of the size before is no longer one of a bundle: it has letters of its own."""

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
        (row,) = rows_beside([one.sewing_ruler(edge.name)], [one.outward])
        labels = (_beside(row, Said(text, _WORDS, surface), [inside], clutter) for text in texts)
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
    rows = rows_beside([one.sewing_ruler(edge.name) for edge in edges], [one.outward] * len(edges))
    words = [_words_along(one.piece, edge, said, wording, surface) for edge in edges]
    first = first_places([row.places(some, insides[0], SOON) for row, some in zip(rows, words, strict=True)], clutter)
    for edge, row, some, place in zip(edges, rows, words, first, strict=True):
        name = called_on_paper(one.piece, edge)
        if edge.name not in said and name in hemmed:
            continue
        label = None
        if hems is not None and edge.name not in said:
            label = beside_cut(outlines, edge, some, hems, clutter)
        label = label or (row.label(some, place[0]) if place else _beside(row, some, insides, clutter, True))
        if label:
            hemmed |= {name} if _is_hem(edge) else set()
            found.append(label)
            clutter.take(label_spot(label).shape(KEPT))
    return found


def _is_hem(edge: Edge) -> bool:
    return edge.turned_up and edge.allowance > 0


def _words_along(piece: Piece, edge: Edge, said: Mapping[str, str], wording: Wording, surface: Surface) -> Said:
    """The letter of an edge that is sewn, the name of one that is hemmed."""
    if edge.name in said:
        return Said(said[edge.name], _LETTER, surface, bold=True)
    return Said(wording.edge(called_on_paper(piece, edge)), _WORDS, surface)


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
    rows = rows_beside(rulers, [outlines[size].outward for size, *_ in again])
    words = [Said(said, _LETTER, surface, bold=True) for *_, said in again]
    shapes = [outlines[size].sewing_shape for size, *_ in again]
    first = first_places([r.places(w, shape, SOON) for r, w, shape in zip(rows, words, shapes, strict=True)], clutter)
    for row, some, shape, (size, *_), place in zip(rows, words, shapes, again, first, strict=True):
        label = row.label(some, place[0]) if place else _beside(row, some, [shape], clutter, True)
        if label:
            clutter.take(label_spot(label).shape(KEPT))
            found[size].append(label)
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


def _beside(row: Row, words: Said, insides: Sequence[Any], clutter: Clutter, looked_at: bool = False) -> Label | None:
    """Words in a row, clear of the clutter, in the first shape that has room; what is near in that was looked at."""
    for inside in insides:
        depths = (LATER,) if looked_at and inside is insides[0] else (SOON, LATER)
        for some in depths:
            (place,) = first_places([row.places(words, inside, some)], clutter)
            if place:
                return row.label(words, (some.start or 0) * PLACES + place[0])
    return None


def beside_cut(outlines: Sequence[Outlines], edge: Edge, words: Said, inside: Any, clutter: Clutter) -> Label | None:
    """Words along the cutting line of an edge, that of the size which lies furthest in."""
    lines = [(one, line) for one in outlines for own, line in one.cutting_edges if own.name == edge.name]
    rulers = Ruler.each([line * FLIP for _, line in lines])
    rows = rows_beside(rulers, [one.outward for one, _ in lines])
    for depth in range(len(DEEPER)) if rows else ():
        places = Places(np.concatenate([row.corners(words, DEEPER[depth : depth + 1]) for row in rows]), inside)
        (place,) = first_places([places], clutter)
        if place:
            return rows[place[0] // PLACES].label(words, depth * PLACES + place[0] % PLACES)
    return None
