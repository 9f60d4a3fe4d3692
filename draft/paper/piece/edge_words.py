"""Words along an edge, inside its piece: what it is gathered to, the letter of its seam, that it is a hem."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any

import numpy as np

from draft.garment.garment import Edge, Garment, Piece
from draft.geometry import cubic
from draft.geometry.ruler import Ruler
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import Spot, label_spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece.piece_lines import Outlines
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST
from draft.seams.joins_in_order import seam_letters
from draft.seams.sides import sewn_length

_WORDS = SMALLEST * PT
_LETTER = 11.0 * PT
"""A seam's letter is looked for, and so is a little larger than other words along an edge."""
_INSIDE = 2.0  # mm from the sewing line
_DEEPER = (0.0, 3.0, 6.0, 10.0, 16.0, 24.0)
_KEPT = 1.0  # mm that words keep clear of lines and other words

SeamWords = tuple[tuple[str, str], ...]
"""The letters of each edge by its name."""


def seams_of(garment: Garment, piece: Piece) -> SeamWords:
    """The letters of the seams that each edge of a piece is sewn in, such as `A` or `A, C`."""
    return _letters(garment).get(piece.name, ())


@lru_cache(maxsize=4)
def _letters(garment: Garment) -> dict[str, SeamWords]:
    letters = seam_letters(garment)
    found: dict[str, dict[str, list[str]]] = {}
    for join in garment.joins:
        own = join.first if join.onto else (*join.first, *join.second)
        for part in own:
            known = found.setdefault(part.piece, {}).setdefault(part.edge, [])
            if letters[join.name] not in known:
                known.append(letters[join.name])
    return {
        piece: tuple((edge, ", ".join(sorted(some, key=lambda one: (len(one), one)))) for edge, some in edges.items())
        for piece, edges in found.items()
    }


def gathered(
    outlines: Sequence[Outlines], inside: Any, taken: Sequence[Any], wording: Wording, surface: Surface
) -> list[Label]:
    """Words along each edge that is gathered or drawn in by elastic, inside the shape and clear of what is taken.

    They are of one size with the length.
    """
    one, found = outlines[0], list[Label]()
    for edge in one.piece.edges:
        if all(said is None for said in (edge.gathered, edge.elastic, edge.drawn_up)):
            continue
        said = wording.gather if edge.elastic is None else wording.elastic
        texts = (said(_drawn_to(one, edge) if len(outlines) == 1 else None), said(None))
        labels = (_beside(outlines, edge, text, _WORDS, False, inside, taken, surface) for text in texts)
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
    taken: Iterable[Any],
    wording: Wording,
    surface: Surface,
) -> list[Label]:
    """The letter along each edge that is sewn, and the name along each that is hemmed, once for all sizes.

    They stand in the first of the shapes `insides` in which they find room.
    """
    said, piece = dict(seams), outlines[0].piece
    found, all_taken = list[Label](), list(taken)
    for edge in [edge for edge in piece.edges if not edge.on_fold]:
        hem = edge.turned_up and edge.allowance > 0
        text = said.get(edge.name) or (wording.edge(edge.name) if hem else "")
        size, bold = (_LETTER, True) if edge.name in said else (_WORDS, False)
        tries = (_beside(outlines, edge, text, size, bold, inside, all_taken, surface) for inside in insides if text)
        label = next((label for label in tries if label), None)
        if label:
            found.append(label)
            all_taken.append(label_spot(label).shape(_KEPT))
    return found


def _beside(
    outlines: Sequence[Outlines],
    edge: Edge,
    text: str,
    points: float,
    bold: bool,
    inside: Any,
    taken: Sequence[Any],
    surface: Surface,
) -> Label | None:
    """Words along an edge of the smallest size, inside a shape and clear of what is taken."""
    import shapely

    one, size = outlines[0], points * surface.enlarged
    tree = shapely.STRtree(list(taken))
    width, height = font.text_width(text, size, bold), size * (font.CAP_HEIGHT + font.DESCENT)
    spots = _spots(one.sewing_ruler(edge.name), one.outward, width, height, surface)
    shapes = np.array([spot.shape(_KEPT) for spot in spots])
    fits = shapely.contains(inside, shapes)
    fits[tree.query(shapes, predicate="intersects")[0]] = False
    if not fits.any():
        return None
    spot = spots[int(fits.argmax())]
    return Label(text, *spot.at(0, height / 2 - size * font.DESCENT), size, "middle", spot.angle, bold=bold)


def _spots(ruler: Ruler, outward: float, width: float, height: float, surface: Surface) -> list[Spot]:
    """Places within the edge, y down, from its middle outward."""
    parts = 0.5 + 0.02 * np.array([s * k for k in range(21) for s in ((1, -1) if k else (1,))])
    points, directions = ruler.places(parts * ruler.length)
    found = []
    for deeper in _DEEPER:
        middles = points - cubic.right_of(directions) * outward * (_INSIDE + deeper + height / 2)
        for (x, y), (right, up) in zip(middles, directions, strict=True):
            angle = surface.readable(float(np.degrees(np.arctan2(-up, right))))
            found.append(Spot(float(x), float(-y), width, height, angle))
    return found
