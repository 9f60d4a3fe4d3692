"""Darts and pleats (common practice).

A dart has its two legs, a ring at its point, and a notch where each leg meets the cutting line; one inside a piece has
four legs, and rings at its two points and where it is widest. A pleat has its two
lines, and the line that it folds on between them, dashed.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import InnerDart, Takeup
from draft.garment.marks import widest
from draft.geometry import cubic
from draft.geometry.cubic import lines_through
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Path, Stroke, circle
from draft.paper.piece.notch_lines import NOTCH, notch_line
from draft.paper.piece.piece_lines import FLIP, Outlines

RING = 1.5
_HEAD = 3.0
FOLD_DASH = (3.0, 1.5)


def takeup_items(one: Outlines, index: int, end: str) -> list[Path]:
    """The darts and pleats of one size, y down; `end` closes each id."""
    found: list[Path] = []
    for takeup in one.piece.takeups:
        if one.has(takeup):
            found += _drawn(one, takeup, _fine(index), end)
    for dart in one.piece.inner_darts:
        if one.has(dart):
            found += _inner(one, dart, _fine(index), end)
    return found


def _fine(index: int) -> Stroke:
    """The line of a size, in its own dashes, as thin as what is not cut."""
    return replace(line_styles.cutting_stroke(index), width=line_styles.FINE)


def _inner(one: Outlines, dart: InnerDart, stroke: Stroke, end: str) -> list[Path]:
    """Its four legs, and rings to be drilled at both points and where it is widest."""
    name, data = f"{one.piece.name}.{dart.name}", one.data(dart.line, dart.span)
    tips, sides = (dart.to[one.body], dart.other[one.body]), widest(dart, one.body)
    legs = [lines_through([side, tip]) * FLIP for tip in tips for side in sides]
    rings = [circle(float(x), float(y), RING) for x, y in (at * FLIP for at in (*tips, *sides))]
    return [
        Path(tuple(legs), stroke, id=f"{name}{end}", data=data),
        Path(tuple(rings), Stroke(line_styles.FINE, colour=stroke.colour), id=f"{name}.signs{end}", data=data),
    ]


def _drawn(one: Outlines, takeup: Takeup, stroke: Stroke, end: str) -> list[Path]:
    """Its lines in the dashes of its size; a ring and notches are too short for them."""
    name, data = f"{one.piece.name}.{takeup.name}", one.data(takeup.edge, takeup.span)
    lines, signs, dashed = (*_dart(one, takeup), ()) if takeup.to is not None else _pleat(one, takeup)
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
    legs = tuple(lines_through([ruler.place(at)[0], tip]) * FLIP for at in _sides(takeup, one.body))
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


def _notches(one: Outlines, takeup: Takeup) -> tuple[Floats, ...]:
    edge, ruler = one.piece.edge(takeup.edge), one.sewing_ruler(takeup.edge)
    return tuple(
        notch_line(ruler, at, edge.allowance, one.cutting_ring, one.outward) * FLIP for at in _sides(takeup, one.body)
    )
