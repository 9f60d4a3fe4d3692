"""A hem drawn folded: one end of it, enlarged, with the wrong side of the piece up.

The allowance lies folded on the piece, its right side up and so grey, with the stitches near its raw edge. Of a casing
the elastic is seen where it comes out at the end, and broken lines show where it runs.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import lines_through, unit
from draft.geometry.flatten import polyline
from draft.paper.booklet.folded_drawing import GROUND, WRONG
from draft.paper.booklet.set_blocks import NOTHING, Block
from draft.paper.drawing.drawing import Item, Path, Stroke

_WIDE, _TALL = 30.0, 19.0
"""What the enlarged end takes on the page, mm."""
_SHOWN = 4.5
"""So many times the allowance are shown along the hem."""
_BEYOND = 200.0
_FOLD = Stroke(0.55, cap="round")
_STITCH = Stroke(0.3, (1.0, 0.7))
_BROKEN = Stroke(0.15, (1.6, 1.0), "#999999")
"""Where the piece goes on beyond the drawing."""
HIDDEN = Stroke(0.22, (0.5, 0.6))
_FREE = 0.12
"""Elastic is narrower than its casing by so much of the hem on either side."""
_NEAR_EDGE = 3.0  # mm of the cloth: from the raw edge to the stitches


def hem_end(outline: Floats, hem: Floats, width: float, line: Stroke, elastic: bool = False) -> Block:
    """One end of a hem turned up by `width` mm: the piece's cutting line and the hem's line `(n, 4, 2)`, mm, y down.

    It is a casing if `elastic` runs in it.
    """
    import shapely

    shape = shapely.Polygon(polyline(outline)).buffer(0)
    along = _carried_on(polyline(hem))
    inner, outer = _sides(shape, along, width)
    body = _largest(shape.difference(outer.buffer(0.05)))
    flap = _largest(body.intersection(inner))
    if body.is_empty or flap.is_empty:
        return NOTHING
    row = shapely.LineString(along).buffer(max(width - _NEAR_EDGE, width / 2), cap_style="flat").boundary
    window, turn = _window(polyline(hem), body, width)
    strip = _elastic(shape, along, width) if elastic else shapely.Polygon()
    return _drawn(body, flap, row.intersection(flap.buffer(-0.3)), shapely.LineString(along), window, turn, line, strip)


def _elastic(shape: Any, along: Floats, width: float) -> Any:
    """What lies between the fold of a casing and its stitches, and goes on beyond its ends."""
    import shapely

    free = _FREE * width
    inner, _ = _sides(shape, along, max(width - _NEAR_EDGE, width / 2) - free)
    return _largest(inner.difference(shapely.LineString(along).buffer(free, cap_style="flat")))


def _carried_on(points: Floats) -> Floats:
    """A line `(n, 2)` carried straight on at both ends."""
    first = points[0] + unit(points[0] - points[1]) * _BEYOND
    last = points[-1] + unit(points[-1] - points[-2]) * _BEYOND
    return np.concatenate([[first], points, [last]])


def _sides(shape: Any, along: Floats, width: float) -> tuple[Any, Any]:
    """The strip of the hem's width on the piece, and all that lies beyond the hem."""
    import shapely

    line = shapely.LineString(along)
    strips = [line.buffer(sign * width, single_sided=True) for sign in (1, -1)]
    wide = [line.buffer(sign * width * 4, single_sided=True).intersection(shape).area for sign in (1, -1)]
    inside = int(np.argmax(wide))
    beyond = line.buffer((1, -1)[1 - inside] * width * 2, single_sided=True)
    return strips[inside], beyond


def _window(hem: Floats, body: Any, width: float) -> tuple[Any, Floats]:
    """The part of the piece that is shown, as a box along the hem from just outside one end, and its frame `(3, 2)`.

    The frame is the box's lower left corner, its way along the hem, and its way into the piece.
    """
    import shapely

    ends = [(line[0], _way(line, _SHOWN * width)) for line in (hem, hem[::-1])]
    corner, way = max(ends, key=lambda end: float(end[0][0]))
    up = np.array([way[1], -way[0]])
    middle = np.array(body.centroid.coords[0])
    up = up if float(np.dot(middle - corner, up)) > 0 else -up
    long = min(_SHOWN * width, float(np.hypot(*(hem[-1] - hem[0]))) * 0.7)
    tall = long * _TALL / _WIDE
    low = corner - way * width * 0.7 - up * width * 0.25
    box = shapely.Polygon([low, low + way * long, low + way * long + up * tall, low + up * tall])
    return box, np.stack([low, way, up])


def _way(hem: Floats, shown: float) -> Floats:
    """The way `(2,)` of a hem's line `(n, 2)` from its start, over the stretch of it that is shown."""
    gone = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(hem, axis=0).T))])
    reach = min(shown, float(gone[-1]))
    return np.asarray(unit(np.array([np.interp(reach, gone, hem[:, axis]) for axis in (0, 1)]) - hem[0]))


def _drawn(body: Any, flap: Any, row: Any, fold: Any, window: Any, frame: Floats, line: Stroke, elastic: Any) -> Block:
    low, way, up = frame
    ring = np.asarray(window.exterior.coords)
    scale = _WIDE / float(np.hypot(*(ring[1] - ring[0])))
    tall = float(np.hypot(*(ring[2] - ring[1]))) * scale

    def placed(points: Floats) -> Floats:
        """Along the hem to the left, into the piece up."""
        off = points - low
        return np.stack([_WIDE - (off @ way) * scale, tall - (off @ up) * scale], axis=-1)

    items = list[Item]()
    for shape, fill in ((body, WRONG), (flap, GROUND)):
        seen = _largest(shape.intersection(window))
        if seen.is_empty:
            return NOTHING
        items.append(
            Path((lines_through(placed(np.asarray(seen.exterior.coords)[:-1]), closed=True),), None, fill, closed=True)
        )
        items.append(Path(_runs(shape.boundary.intersection(window), placed), line))
    items.append(Path(_runs(window.exterior.intersection(body.buffer(-0.5)), placed), _BROKEN))
    items.append(Path(_runs(fold.intersection(body.buffer(1.0)).intersection(window), placed), _FOLD))
    items.append(Path(_runs(row.intersection(window), placed), _STITCH))
    items.append(Path(_runs(elastic.boundary.intersection(window).intersection(flap), placed), HIDDEN))
    items.append(Path(_runs(elastic.intersection(window).difference(body.buffer(0.1)).boundary, placed), line))
    return Block(tuple(item for item in items if not isinstance(item, Path) or item.runs), tall)


def _runs(shape: Any, placed: Any) -> tuple[Floats, ...]:
    import shapely

    lines = [part for part in shapely.get_parts(shapely.line_merge(shape)) if part.geom_type == "LineString"]
    return tuple(lines_through(placed(np.asarray(part.coords))) for part in lines if part.length > 0.5)


def _largest(shape: Any) -> Any:
    import shapely

    parts: Sequence[Any] = [part for part in shapely.get_parts(shape) if part.geom_type == "Polygon"]
    return max(parts, key=lambda part: float(part.area), default=shapely.Polygon())
