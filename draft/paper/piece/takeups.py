"""Darts and pleats (common practice).

A dart has its two legs, a ring at its point, and a notch where each leg meets the cutting line; one inside a piece has
four legs, and rings at its two points and where it is widest. Where darts of several sizes would lie across one another
only both ends of each leg are drawn. A pleat has its two lines, and the line that it folds on between them, dashed;
where those of several sizes would lie among one another only its notches are drawn, which say what is laid on what.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import combinations
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import InnerDart, Takeup
from draft.garment.marks import dart_legs, inner_legs, widest
from draft.geometry import cubic
from draft.geometry.cubic import lines_through
from draft.geometry.flatten import polyline_each
from draft.geometry.tangle import part_from
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Path, Stroke, circle
from draft.paper.piece.notch_lines import NOTCH, notch_line
from draft.paper.piece.piece_lines import FLIP, Outlines

RING = 1.5
_HEAD = 3.0
_SAME = 0.3
"""Pleats of two sizes that lie no further from one another than this, mm, are one."""
FOLD_DASH = (3.0, 1.5)
END = 12.0
"""Of a leg that is not drawn whole so many mm are at either end."""


def crossing(outlines: Sequence[Outlines]) -> frozenset[str]:
    """The names of the darts and pleats whose lines in one size lie across, or among, those in another."""
    if len(outlines) < 2:
        return frozenset()
    legs, pleats = [_legs_of(one) for one in outlines], [_pleats_of(one) for one in outlines]
    return _meeting(legs, _cross) | _meeting(pleats, _lie_among)


def _meeting(every: Sequence[dict[str, Any]], meet: Callable[[Any, Any], bool]) -> frozenset[str]:
    """The names of what meets in any two sizes, of the shapes of each size by their names."""
    names = {name for some in every for name in some}
    pairs = [(name, a[name], b[name]) for name in names for a, b in combinations(every, 2) if name in a and name in b]
    return frozenset(name for name, one, other in pairs if meet(one, other))


def _cross(first: Any, second: Any) -> bool:
    import shapely

    return bool(shapely.crosses(first[:, None], second[None]).any())


def _lie_among(first: Any, second: Any) -> bool:
    """Whether two shapes overlap and are not one."""
    return bool(first.intersects(second)) and first.hausdorff_distance(second) > _SAME


def _pleats_of(one: Outlines) -> dict[str, Any]:
    """What lies between the lines of each pleat by its name, as a shapely shape."""
    import shapely

    found = [takeup for takeup in one.piece.takeups if takeup.to is None and one.has(takeup)]
    lines = {pleat.name: [line[0, [0, 3]] for line in _pleat(one, pleat)[0][:2]] for pleat in found}
    return {name: shapely.MultiPoint(np.concatenate(both)).convex_hull for name, both in lines.items()}


def _legs_of(one: Outlines) -> dict[str, Any]:
    """The legs of each dart by its name, as shapely lines."""
    import shapely

    found = {t.name: _dart(one, t)[0] for t in one.piece.takeups if t.to is not None and one.has(t)}
    found |= {dart.name: tuple(inner_legs(dart, one.body)) for dart in one.piece.inner_darts if one.has(dart)}
    return {name: np.array([shapely.LineString(leg) for leg in polyline_each(legs)]) for name, legs in found.items()}


def takeup_items(one: Outlines, index: int, end: str, crossed: frozenset[str] = frozenset()) -> list[Path]:
    """The darts and pleats of one size, y down; `end` closes each id. Of darts that are `crossed` only legs' ends."""
    found: list[Path] = []
    for takeup in one.piece.takeups:
        if one.has(takeup):
            found += _drawn(one, takeup, _fine(index), end, takeup.name in crossed)
    for dart in one.piece.inner_darts:
        if one.has(dart):
            found += _inner(one, dart, _fine(index), end, dart.name in crossed)
    return found


def _fine(index: int) -> Stroke:
    """The line of a size, in its own dashes, as thin as what is not cut."""
    return replace(line_styles.cutting_stroke(index), width=line_styles.FINE)


def _ends_of(legs: Sequence[Floats]) -> tuple[Floats, ...]:
    """Both ends of each leg `(1, 4, 2)`; a short one whole."""
    found = list[Floats]()
    for leg in legs:
        share = END / max(float(cubic.norm(leg[0, 3] - leg[0, 0])), 1e-9)
        found += [leg] if share > 0.4 else [part_from(leg, 0.0, share), part_from(leg, 1.0 - share, 1.0)]
    return tuple(found)


def _inner(one: Outlines, dart: InnerDart, stroke: Stroke, end: str, crossed: bool) -> list[Path]:
    """Its four legs, and rings to be drilled at both points and where it is widest."""
    name, data = f"{one.piece.name}.{dart.name}", one.data(dart.line, dart.span)
    tips, sides = (dart.to[one.body], dart.other[one.body]), widest(dart, one.body)
    legs = tuple(leg * FLIP for leg in inner_legs(dart, one.body))
    legs, stroke = (_ends_of(legs), _finer(stroke)) if crossed else (legs, stroke)
    rings = [circle(float(x), float(y), RING) for x, y in (at * FLIP for at in (*tips, *sides))]
    return [
        Path(legs, stroke, id=f"{name}{end}", data=data),
        Path(tuple(rings), Stroke(line_styles.FINE, colour=stroke.colour), id=f"{name}.signs{end}", data=data),
    ]


def _finer(stroke: Stroke) -> Stroke:
    """The same dashes half as long, so that a short line shows which they are."""
    return replace(stroke, dash=tuple(part / 2 if part > 1.0 else part for part in stroke.dash))


def _drawn(one: Outlines, takeup: Takeup, stroke: Stroke, end: str, crossed: bool) -> list[Path]:
    """Its lines in the dashes of its size; a ring and notches are too short for them."""
    name, data = f"{one.piece.name}.{takeup.name}", one.data(takeup.edge, takeup.span)
    if takeup.to is None and crossed:
        return [
            Path(_notches(one, takeup), Stroke(line_styles.SIGN, colour=stroke.colour), id=f"{name}{end}", data=data)
        ]
    lines, signs, dashed = (*_dart(one, takeup), ()) if takeup.to is not None else _pleat(one, takeup)
    lines, stroke = (_ends_of(lines), _finer(stroke)) if crossed else (lines, stroke)
    sign = Stroke(line_styles.FINE, colour=stroke.colour)
    found = [
        Path(lines, stroke, id=f"{name}{end}", data=data),
        Path((*signs, *_notches(one, takeup)), sign, id=f"{name}.signs{end}", data=data),
    ]
    if dashed:
        found.append(Path(dashed, replace(sign, dash=FOLD_DASH), id=f"{name}.middle{end}", data=data))
    return found


def _sides(takeup: Takeup, body: int) -> tuple[float, float]:
    at, half = float(takeup.at[body]), float(takeup.width[body]) / 2
    return at - half, at + half


def _dart(one: Outlines, takeup: Takeup) -> tuple[tuple[Floats, ...], tuple[Floats, ...]]:
    assert takeup.to is not None
    ruler = one.sewing_ruler(takeup.edge)
    tip = takeup.to[one.body]
    mouths = np.stack([ruler.place(at)[0] for at in _sides(takeup, one.body)])
    legs = tuple(leg * FLIP for leg in dart_legs(takeup, mouths, one.body))
    x, y = tip * FLIP
    return legs, (circle(float(x), float(y), RING),)


def _pleat(one: Outlines, takeup: Takeup) -> tuple[tuple[Floats, ...], tuple[Floats, ...], tuple[Floats, ...]]:
    ruler = one.sewing_ruler(takeup.edge)
    depth = float(takeup.length[one.body]) if takeup.length is not None else NOTCH
    first, second = _sides(takeup, one.body)
    lines = []
    for at in (first, second, (first + second) / 2):
        point, direction = ruler.place(at)
        lines.append(lines_through([point, point - cubic.right_of(direction) * one.outward * depth]) * FLIP)
    arrow = _arrow(lines[0], lines[1], bool(takeup.pressed[one.body] > 0)) if takeup.pressed is not None else ()
    return tuple(lines[:2]), arrow, tuple(lines[2:])


def pleat_sides(one: Outlines, takeup: Takeup) -> tuple[Floats, Floats]:
    """The line on which a pleat is folded and the one on which that is laid, `(2, 2)` each, y down."""
    assert takeup.pressed is not None
    first, second = (line[0, [0, 3]] for line in _pleat(one, takeup)[0][:2])
    return (first, second) if takeup.pressed[one.body] > 0 else (second, first)


def _arrow(first: Floats, second: Floats, to_second: bool) -> tuple[Floats, ...]:
    """Which way a pleat is laid: from one of its lines to the other, in the middle of both."""
    begin, end = (cubic.point(line[0], 0.5) for line in ((first, second) if to_second else (second, first)))
    way = (end - begin) / max(float(np.hypot(*(end - begin))), 1e-9) * _HEAD
    aside = np.array([-way[1], way[0]]) / 2
    return (lines_through([begin, end]), lines_through([end - way + aside, end, end - way - aside]))


def pleat_notches(one: Outlines, takeup: Takeup) -> tuple[Floats, Floats]:
    """The notches of a pleat, both ends `(2, 2)` of each, y down: where it is folded, and where that is laid."""
    first, second = (line[0, [0, 3]] for line in _notches(one, takeup))
    forward = takeup.pressed is None or takeup.pressed[one.body] > 0
    return (first, second) if forward else (second, first)


def _notches(one: Outlines, takeup: Takeup) -> tuple[Floats, ...]:
    edge, ruler = one.piece.edge(takeup.edge), one.sewing_ruler(takeup.edge)
    return tuple(
        notch_line(ruler, at, edge.allowance, one.cutting_ring, one.outward) * FLIP for at in _sides(takeup, one.body)
    )
