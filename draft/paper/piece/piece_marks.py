"""Marks inside a piece: drill marks, and lines on which something is placed, with the designer's words beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from draft.garment.garment import Mark
from draft.garment.marks import places
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path, Stroke, circle
from draft.paper.drawing.room import Spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece.fastenings import fastening
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.surface import Surface
from draft.paper.piece.tags import Clutter
from draft.paper.piece.title_block import SMALLEST

_RADIUS = 2.0
_CROSS = 3.5
_LINE = (5.0, 1.2, 1.2, 1.2)
_SIZE = SMALLEST * PT
_REACHES = (1.5, 4.0, 8.0, 14.0, 22.0)
"""From a mark to its words, in mm: the nearest that is free."""


def mark_items(one: Outlines, index: int, end: str) -> list[Path]:
    """The marks of one size, y down; `end` closes each id. A mark that the body lacks is left out."""
    colour = line_styles.cutting_stroke(index).colour
    found = []
    for mark in one.piece.marks:
        points = mark.points[one.body] * FLIP
        if np.isfinite(points).all():
            data = (("piece", one.piece.name), ("mark", mark.name), ("size", one.size), ("source", str(mark.span)))
            stroke = Stroke(line_styles.FINE, () if mark.drill else _LINE, colour)
            runs = _runs(mark, one.body)
            found.append(Path(runs, stroke, id=f"{one.piece.name}.{mark.name}{end}", data=data))
    return found


def _runs(mark: Mark, body: int) -> tuple[Any, ...]:
    if mark.fastening:
        return fastening(mark, body)
    if mark.drill:
        return tuple(run for point in places(mark, body) * FLIP for run in _drill(point))
    return (lines_through(mark.points[body] * FLIP),)


def _drill(point: Any) -> tuple[Any, ...]:
    """A ring with a cross through it."""
    x, y = (float(at) for at in point)
    cross = [((x - _CROSS, y), (x + _CROSS, y)), ((x, y - _CROSS), (x, y + _CROSS))]
    return (circle(x, y, _RADIUS), *(lines_through(line) for line in cross))


def mark_words(
    outlines: Sequence[Outlines], inside: Any, taken: Sequence[Any], wording: Wording, surface: Surface
) -> list[Item]:
    """The words of each mark, once for all sizes, where they fit beside the mark of the size in the middle."""
    one, found, clutter = outlines[len(outlines) // 2], list[Item](), Clutter(taken)
    for mark in one.piece.marks:
        text = wording.named(mark.words or mark.name)
        for spot in _spots_of(mark, one.body, text, surface):
            shape = spot.shape(0.8)
            if clutter.free(np.array([shape])).all() and inside.contains(shape):
                clutter.take(shape)
                size = _SIZE * surface.enlarged
                at = spot.at(0, spot.height / 2 - size * font.DESCENT)
                found.append(Label(text, *at, size, "middle", spot.angle))
                break
    return found


def _spots_of(mark: Mark, body: int, text: str, surface: Surface) -> Iterator[Spot]:
    """Places about a mark: beside each point of its row in turn, or along its line."""
    if not mark.drill:
        yield from spots_about(mark.points[body] * FLIP, text, surface)
    for point in places(mark, body) * FLIP if mark.drill else ():
        yield from spots_about(point[None], text, surface)


def spots_about(points: Any, text: str, surface: Surface) -> list[Spot]:
    """Places for words about a point `(1, 2)` or along a line `(n, 2)`, y down, the nearest first."""
    drill = len(points) == 1
    size = _SIZE * surface.enlarged
    width, height = font.text_width(text, size), size * (font.CAP_HEIGHT + font.DESCENT)
    if not np.isfinite(points).all():
        return []
    begin, end = _longest_leg(points)
    way = end - begin
    angle = surface.upright if drill else surface.readable(float(np.degrees(np.arctan2(way[1], way[0]))))
    x, y = (begin + end) / 2
    middle = Spot(float(x), float(y), 0, 0, angle)
    found = []
    for reach in _REACHES:
        beside = _CROSS + reach + width / 2
        across = reach + height / 2 + (_CROSS if drill else 0.0)
        sides = [(beside, 0.0), (-beside, 0.0)] if drill else []
        found += [Spot(*middle.at(*at), width, height, angle) for at in (*sides, (0.0, -across), (0.0, across))]
    return found


def _longest_leg(points: Any) -> tuple[Any, Any]:
    """Both ends of the longest straight part of a line through points: words run along it. A point has itself."""
    if len(points) == 1:
        return points[0], points[0]
    k = int(np.argmax(np.hypot(*np.diff(points, axis=0).T)))
    return points[k], points[k + 1]
