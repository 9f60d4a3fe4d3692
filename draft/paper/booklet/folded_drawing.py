"""Small drawings of what is folded or laid on its own mirror image, right sides together, to be sewn to itself.

What lies below is grey, for its right side is up; what lies on it is white, and a little aside.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Join, Piece, SidePart
from draft.geometry.cubic import lines_through, norm
from draft.geometry.flatten import polyline
from draft.paper.booklet.set_blocks import SIDE, TALLEST, Block
from draft.paper.drawing.drawing import Item, Path, Stroke

GROUND = "#dedede"
"""The right side of the cloth."""
WRONG = "#ffffff"
ASIDE = 1.1
"""How far the upper layer is shifted, in mm, so that the lower one shows."""
_FAR = 1e5
_LEAST = 1.0  # mm: nearer to one another two points are one
_FLIP = np.array([1.0, -1.0])


def fold_of(piece: Piece, join: Join, body: int) -> Floats | None:
    """Two points `(2, 2)` of the line about which a piece is folded so that both sides of a join meet; None if none.

    The first side lies to its left.
    """
    first, second = (side_ends(piece, parts, body) for parts in (join.first, join.second))
    middles = (first + second) / 2
    apart = norm(second - first)
    far = int(np.argmax(apart))
    if apart[far] < _LEAST:
        return None
    if norm(middles[1] - middles[0]) < _LEAST:  # both sides end in one point: square to what lies between their others
        between = second[far] - first[far]
        middles = np.stack([middles[far], middles[far] + np.array([-between[1], between[0]])])
    way = middles[1] - middles[0]
    off = first.mean(axis=0) - middles[0]
    return middles if way[0] * off[1] - way[1] * off[0] > 0 else middles[::-1]


def side_ends(piece: Piece, parts: Sequence[SidePart], body: int) -> Floats:
    """Where a side of a join begins and ends, `(2, 2)`, y up: all of its edges are of one piece."""
    lines = [piece.edge(part.edge).segments[body] for part in parts]
    begin = lines[0][-1, 3] if parts[0].reverse else lines[0][0, 0]
    end = lines[-1][0, 0] if parts[-1].reverse else lines[-1][-1, 3]
    return np.stack([begin, end])


def folded(outline: Floats, fold: Floats, thick: Sequence[Floats], line: Stroke, seam: Stroke) -> Block | None:
    """A piece folded: its outline `(n, 4, 2)`, the line of the fold and the seam's lines, mm, y up."""
    import shapely

    shape = shapely.Polygon(polyline(outline)).buffer(0)
    upper = shapely.intersection(shape, _half(fold))
    lower = _mirrored(shapely.difference(shape, _half(fold)), fold)
    if not (isinstance(upper, shapely.Polygon) and isinstance(lower, shapely.Polygon)) or upper.is_empty:
        return None
    rings = [lines_through(np.asarray(one.exterior.coords)[:-1], closed=True) for one in (lower, upper)]
    return laid_aside(rings, thick, line, seam)


def ring_folded_flat(long: float, wide: float, line: Stroke) -> Block:
    """A ring of a band, so long round and so wide, mm, folded along its length with its right side out, lying flat."""
    scale = SIDE / 2 / (long / 2)
    size = np.array([long / 2, max(wide / 2, 2.0 / scale)])
    ring = lines_through(np.array([[0.0, 0.0], [size[0], 0.0], size, [0.0, size[1]]]), closed=True)
    items = tuple(Path((ring * scale + ASIDE * k,), line, GROUND, closed=True) for k in (1, 0))
    return Block(items, float(size[1]) * scale + ASIDE)


def both_copies(outline: Floats, thick: Sequence[Floats], line: Stroke, seam: Stroke) -> Block:
    """Both pieces of a pair on one another: the outline `(n, 4, 2)` of one, and the seam's lines, mm, y up."""
    return laid_aside([outline, outline], thick, line, seam)


def _half(fold: Floats) -> Any:
    """All that lies to the left of a line."""
    import shapely

    way = (fold[1] - fold[0]) / norm(fold[1] - fold[0])
    left = np.array([-way[1], way[0]])
    low, high = fold[0] - way * _FAR, fold[0] + way * _FAR
    return shapely.Polygon([low, high, high + left * _FAR, low + left * _FAR])


def _mirrored(shape: Any, fold: Floats) -> Any:
    import shapely

    way = (fold[1] - fold[0]) / norm(fold[1] - fold[0])

    def over(points: Floats) -> Floats:
        off = points - fold[0]
        return np.asarray(fold[0] + 2 * (off @ way)[:, None] * way - off)

    return shapely.transform(shape, over)


def laid_aside(rings: Sequence[Floats], thick: Sequence[Floats], line: Stroke, seam: Stroke) -> Block:
    """The lower of two rings `(n, 4, 2)`, y up, grey, the upper one white and aside, with the seam on it."""
    points = np.concatenate([ring.reshape(-1, 2) for ring in rings]) * _FLIP
    low, high = points.min(axis=0), points.max(axis=0)
    size = np.maximum(high - low, 1.0)
    scale = min((SIDE - ASIDE) / float(size[0]), (TALLEST - ASIDE) / float(size[1]))
    items: list[Item] = [
        Path(((ring * _FLIP - low) * scale + ASIDE * k,), line, fill, closed=True)
        for k, (ring, fill) in enumerate(zip(rings, (GROUND, WRONG), strict=True))
    ]
    items.append(Path(tuple((run * _FLIP - low) * scale + ASIDE for run in thick), seam))
    return Block(tuple(items), float(size[1]) * scale + ASIDE)
