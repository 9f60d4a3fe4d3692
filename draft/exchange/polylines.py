"""The lines of a piece in one size as other machines take them: polylines in mm, y up, half of what is on a fold."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Notch, Piece, Takeup
from draft.garment.marks import buttonhole, dart_legs, inner_legs, places
from draft.geometry.area import outline_area
from draft.geometry.cubic import cross, dot, end_tangent, norm, start_tangent, unit
from draft.geometry.flatten import flatten
from draft.geometry.outline_parts import ON_LINE
from draft.geometry.ruler import Ruler
from draft.paper.piece.notch_lines import notch_line, notch_lines
from draft.paper.piece.piece_lines import FLIP, Outlines

TOLERANCE = 0.1
"""mm from a curve to its chords: a cutter's knife and its cloth give way by more (common practice)."""

CORNER = np.radians(3.0)
"""Where an outline turns by more from segment to segment it turns a corner; less is the joint of a smooth line."""

SAME = 1e-6  # mm: two points nearer than this are one
_GRAIN = 0.8  # of the room along the grain
_LONGEST_GRAIN = 400.0  # mm: longer is no easier to lay along the cloth


BAR = 5.0
"""The bars at the ends of a buttonhole, in mm."""


@dataclass(frozen=True)
class PiecePolylines:
    """Lines `(n, 2)` of a piece: its boundary without the first point again, with which of its points are corners."""

    piece: Piece
    size: str
    boundary: Floats
    corners: Any
    """Which points of the boundary are corners: a mask `(n,)`."""
    sewing: tuple[Floats, ...]
    closed: bool
    """Whether the sewing line runs all round: it is open where the piece lies on a fold."""
    notches: Floats
    snips: Floats
    """How deep each notch goes in, mm, and at what angle to the x axis, degrees: `(n, 2)`."""
    grain: Floats
    fold: Floats | None
    inner: tuple[Floats, ...]
    drills: Floats


def polylines_of(garment: Garment, piece: Piece, body: int) -> PiecePolylines:
    """The lines of a piece for one body."""
    one = Outlines.of(garment, piece, body)
    boundary, corners = _boundary(_counterclockwise(one.cutting * FLIP))
    sewing, strokes = _sewing(piece, body), _strokes(one)
    return PiecePolylines(
        piece,
        one.size,
        boundary,
        corners,
        sewing,
        not piece.on_fold,
        strokes[:, 0],
        _snips(strokes),
        _grain(one),
        _fold(one, boundary),
        (*_folds(one), *_placements(piece, body)),
        np.concatenate([_drills(piece, body), *_dart_points(one)]),
    )


def _boundary(cutting: Floats) -> tuple[Floats, Any]:
    """The cutting line as points, and which of them are corners."""
    path = cutting[norm(cutting[:, 3] - cutting[:, 0]) > SAME]
    runs = [flatten(segment[None], TOLERANCE)[:-1] for segment in path]
    arriving, leaving = np.roll(end_tangent(path), 1, axis=0), start_tangent(path)
    corners = np.zeros(sum(map(len, runs)), dtype=bool)
    first = np.cumsum([0, *map(len, runs[:-1])])
    corners[first] = np.abs(np.arctan2(cross(arriving, leaving), dot(arriving, leaving))) > CORNER
    return np.concatenate(runs), corners


def _sewing(piece: Piece, body: int) -> tuple[Floats, ...]:
    """The sewing line without the fold, in unbroken runs; all of it in one where there is no fold."""
    runs: list[list[Floats]] = [[]]
    for edge in _from_fold(piece):
        if edge.on_fold:
            runs.append([])
        else:
            line = flatten(edge.segments[body], TOLERANCE)
            runs[-1].append(line[1:] if runs[-1] else line)
    return tuple(np.concatenate(run) for run in runs if run)


def _from_fold(piece: Piece) -> tuple[Edge, ...]:
    """The edges in order, beginning behind a fold where there is one."""
    on_fold = [k for k, edge in enumerate(piece.edges) if edge.on_fold]
    first = on_fold[0] + 1 if on_fold else 0
    return piece.edges[first:] + piece.edges[:first]


def _counterclockwise(outline: Floats) -> Floats:
    """An outline `(n, 4, 2)` run round so that the piece is on its left, as every boundary is."""
    return outline if outline_area(outline) > 0 else outline[::-1, ::-1]


def _strokes(one: Outlines) -> Floats:
    """The notches, one for each stroke, and those at the mouths of darts: from the boundary inwards `(n, 2, 2)`."""
    found = []
    for notch in one.piece.notches:
        if np.isfinite(notch.at[one.body]):
            found += [stroke[0, [0, 3]] for stroke in _of_notch(one, notch)]
    for takeup in one.piece.takeups:
        if _is_there(one, takeup):
            found += [stroke[0, [0, 3]] for stroke in _at_mouth(one, takeup)]
    return np.array(found).reshape(-1, 2, 2)


def _of_notch(one: Outlines, notch: Notch) -> tuple[Floats, ...]:
    return notch_lines(one.piece, one.body, notch, one.cutting_ring, one.outward)


def _at_mouth(one: Outlines, takeup: Takeup) -> list[Floats]:
    edge, ruler = one.piece.edge(takeup.edge), Ruler(one.piece.edge(takeup.edge).segments[one.body])
    ends = [float(takeup.at[one.body] + side * takeup.width[one.body] / 2) for side in (-1, 1)]
    return [notch_line(ruler, at, edge.allowance, one.cutting_ring, one.outward) for at in ends]


def _is_there(one: Outlines, takeup: Takeup) -> bool:
    known = np.isfinite([takeup.at[one.body], takeup.width[one.body]]).all()
    return bool(known and takeup.width[one.body] > 0)


def _snips(strokes: Floats) -> Floats:
    ways = strokes[:, 1] - strokes[:, 0]
    return np.stack([norm(ways), np.degrees(np.arctan2(ways[:, 1], ways[:, 0])) % 360.0], axis=-1)


def _grain(one: Outlines) -> Floats:
    """A line along the grain through the middle of the piece, well inside it: `(2, 2)`."""
    import shapely

    along = one.piece.grain[one.body]
    inside = one.sewing_shape
    middle = np.array(inside.representative_point().coords[0]) * FLIP
    ray = shapely.LineString([(middle - 1e4 * along) * FLIP, (middle + 1e4 * along) * FLIP])
    parts = [part for part in shapely.get_parts(shapely.intersection(ray, inside)) if part.length > 0]
    longest = max(parts, key=lambda part: part.length)
    ends = np.array(longest.coords)[[0, -1]] * FLIP
    centre, reach = ends.mean(axis=0), min(_GRAIN * longest.length, _LONGEST_GRAIN) / 2
    return np.stack([centre - reach * along, centre + reach * along])


def _fold(one: Outlines, boundary: Floats) -> Floats | None:
    """The mirror line from end to end of the boundary along the fold: `(2, 2)`."""
    if one.fold is None:
        return None
    start, end = (np.asarray(point) * FLIP for point in one.fold)
    along = unit(end - start)
    on_fold = boundary[np.abs(cross(along, boundary - start)) < ON_LINE]
    reach = dot(along, on_fold - start)
    return np.stack([start + float(reach.min()) * along, start + float(reach.max()) * along])


def _folds(one: Outlines) -> list[Floats]:
    """The legs of darts, and the lines of pleats."""
    found = []
    for takeup in one.piece.takeups:
        if _is_there(one, takeup):
            found += _dart(one, takeup) if takeup.to is not None else _pleat(one, takeup)
    for dart in one.piece.inner_darts:
        if np.isfinite(dart.at[one.body]).all() and dart.width[one.body] > 0:
            first, last, last_again, first_again = inner_legs(dart, one.body)
            found.append(_flat([first, last[:, ::-1], last_again, first_again[:, ::-1]]))
    return found


def _dart(one: Outlines, takeup: Takeup) -> list[Floats]:
    assert takeup.to is not None
    ruler, half = Ruler(one.piece.edge(takeup.edge).segments[one.body]), takeup.width[one.body] / 2
    mouths = np.stack([ruler.place(float(takeup.at[one.body] + side))[0] for side in (-half, half)])
    first, last = dart_legs(takeup, mouths, one.body)
    return [_flat([first, last[:, ::-1]])]


def _flat(legs: list[Floats]) -> Floats:
    """Legs `(1, 4, 2)` end to end as one polyline."""
    return flatten(np.concatenate(legs), TOLERANCE)


def _pleat(one: Outlines, takeup: Takeup) -> list[Floats]:
    ruler, half = Ruler(one.piece.edge(takeup.edge).segments[one.body]), takeup.width[one.body] / 2
    depth = float(takeup.length[one.body]) if takeup.length is not None else 0.0
    lines = []
    for side in (-half, half):
        point, way = ruler.place(float(takeup.at[one.body] + side))
        inwards = np.array([-way[1], way[0]]) * one.outward
        lines.append(np.stack([point, point + depth * inwards]))
    return lines


def _placements(piece: Piece, body: int) -> list[Floats]:
    drawn = [mark for mark in piece.marks if not mark.drill and mark.line in ("", "fold")]
    lines = [mark.points[body] for mark in drawn if np.isfinite(mark.points[body]).all()]
    holes = [line for mark in piece.marks if mark.fastening == "buttonhole" for line in buttonhole(mark, body, BAR)]
    return lines + holes


def _drills(piece: Piece, body: int) -> Floats:
    """Where something is marked at a point: also buttons and snaps, and where a buttonhole's button sits."""
    found = [places(mark, body) for mark in piece.marks if mark.drill]
    return np.concatenate([np.zeros((0, 2)), *found])


def _dart_points(one: Outlines) -> list[Floats]:
    """Where darts are drilled: at their points, those within a piece also where they are widest."""
    body = one.body
    found = [takeup.to[body][None] for takeup in one.piece.takeups if takeup.to is not None and _is_there(one, takeup)]
    for dart in one.piece.inner_darts:
        if np.isfinite(dart.at[body]).all() and dart.width[body] > 0:
            legs = inner_legs(dart, body)
            found.append(np.stack([legs[0][0, 0], legs[1][0, 0], legs[0][-1, 3], legs[2][-1, 3]]))
    return [np.unique(np.round(points, 4), axis=0) for points in found]
