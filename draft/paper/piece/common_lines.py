"""Edges at which all sizes of a nest are cut alike: without a word nobody knows whose line she sees there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from draft.garment.garment import Edge
from draft.geometry.flatten import polyline
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import label_spot
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.edge_words import beside_cut
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.rows_beside import KEPT, Said
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST

_ALIKE = 0.3
"""Lines of sizes no further apart than this, mm, are printed as one."""
_LEAST, _MOST = 60.0, 0.9
"""An edge of at least so many mm is told of, if so much of it is alike."""
_SAMPLES = 12


def names_on_common_lines(
    outlines: Sequence[Outlines], within: Any, taken: Iterable[Any], surface: Surface
) -> list[Label]:
    """`XS – 3XL` along each edge that all sizes share, inside a shape and clear of what is taken.

    Nothing where they share all edges: the piece says for which sizes it is.
    """
    edges = [edge for edge in outlines[0].piece.edges if not edge.on_fold]
    if len(outlines) < 2 or surface.level or within is None or within.is_empty:
        return []
    alike = [edge for edge in edges if _alike(outlines, edge)]
    if not alike or len(alike) == len(edges):
        return []
    words = Said(f"{outlines[0].size} – {outlines[-1].size}", SMALLEST * PT, surface, bold=True)
    clutter, found = Clutter(list(taken)), list[Label]()
    for edge in alike:
        label = beside_cut(outlines, edge, words, within, clutter)
        if label:
            found.append(label)
            clutter.take(label_spot(label).shape(KEPT))
    return found


def _alike(outlines: Sequence[Outlines], edge: Edge) -> bool:
    """Whether the cutting line of the first size lies on those of all others, nearly all along."""
    import shapely

    drawn = [polyline(line) * FLIP for own, line in outlines[0].cutting_edges if own.name == edge.name]
    line = shapely.LineString(drawn[0]) if drawn else None
    if line is None or line.length < _LEAST:
        return False
    points = shapely.line_interpolate_point(line, (np.arange(_SAMPLES) + 0.5) / _SAMPLES, normalized=True)
    rings = np.array([one.cutting_ring for one in outlines[1:]])
    return bool(((shapely.distance(rings[:, None], points) < _ALIKE).all(axis=0)).mean() >= _MOST)
