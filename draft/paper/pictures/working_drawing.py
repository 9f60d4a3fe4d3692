"""What a designer drafted, as she would see it on her table: points with their names, construction lines, darts.

Labels are set one by one, each at the first place round its point where it covers neither another label nor a point,
and crosses as few lines as can be; one that has to go further away gets a leader.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import field

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.base.units import in_centimetres
from draft.geometry.cubic import lines_through
from draft.geometry.flatten import sample
from draft.geometry.length import length, point_at, tangent_at
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Path, Stroke, Turn, circle
from draft.paper.piece.piece_lines import FLIP

OUTLINE, LINE, DART = Stroke(0.5), Stroke(0.25, (4.0, 1.5)), Stroke(0.25)
BEFORE = Stroke(0.25, colour="#a0a0a0")
_LEADER = Stroke(0.12, colour="#707070")
_EDGE_INK = line_styles.INKS[2]
_MARGIN = 15.0
_TITLE, _NAME, _TEXT = 28 * PT, 14 * PT, 11 * PT
_TOP = _MARGIN + _TITLE + 3.2 * _NAME
_DOT = 0.9
_AWAY = (2.0, 4.0, 7.0, 11.0, 16.0, 22.0, 30.0)  # mm from a point to its label, the nearest first
_WAYS = tuple(np.array([np.cos(a), np.sin(a)]) for a in np.radians([20, -20, 160, 200, 60, -60, 120, 240, 90, 270]))


@dataclass(frozen=True)
class WorkingSheet:
    """One block or piece for one body, y up: edges, lines and the paper before its moves `(n, 4, 2)`, points `(2,)`.

    A dart is its two legs and its point between them, `(3, 2)`.
    """

    name: str
    title: str
    edges: Sequence[tuple[str, Floats]]
    lines: Sequence[tuple[str, Floats]] = ()
    points: Sequence[tuple[str, Floats]] = ()
    darts: Sequence[tuple[str, Floats]] = ()
    before: Sequence[Floats] = ()


def working_drawing(sheet: WorkingSheet, title: str, size: str) -> Drawing:
    """One sheet for one size."""
    items = _sheet(sheet)
    box = _box(items)
    turn = Turn(0, _MARGIN - float(box[0, 0]), _TOP - float(box[0, 1]))
    heading = (
        Label(sheet.title, _MARGIN, _MARGIN + _TITLE, _TITLE, bold=True),
        Label(f"{title}: as drafted, {size}", _MARGIN, _MARGIN + _TITLE + 1.6 * _NAME, _NAME),
    )
    wide = max(float(box[1, 0] - box[0, 0]), 160.0) + 2 * _MARGIN
    layers = (Layer(sheet.name, tuple(item.moved(turn) for item in items)), Layer("heading", heading))
    return Drawing(sheet.title, wide, _TOP + float(box[1, 1] - box[0, 1]) + _MARGIN, layers)


def _sheet(sheet: WorkingSheet) -> list[Item]:
    found: list[Item] = [Path((run * FLIP,), BEFORE) for run in sheet.before]
    for lines, stroke in ((sheet.edges, OUTLINE), (sheet.lines, LINE)):
        found += [
            Path((run * FLIP,), stroke, id=f"{sheet.name}.{name}", data=(("piece", sheet.name), ("edge", name)))
            for name, run in lines
        ]
    found += [Path((lines_through(legs * FLIP),), DART) for _, legs in sheet.darts]
    found += [
        Path((circle(float(at[0]), -float(at[1]), _DOT),), fill=OUTLINE.colour, closed=True) for _, at in sheet.points
    ]
    labels = _Labels(sheet)
    for name, run in (*sheet.edges, *sheet.lines):
        found += labels.along(name, run)
    for name, legs in sheet.darts:
        found += labels.at(name, (legs[0] + legs[1] + legs[2]) / 3, _EDGE_INK)
    for name, at in sheet.points:
        found += labels.at(name, at)
    return found


@dataclass
class _Labels:
    """The labels of one sheet, y down, each clear of those that were set before it."""

    sheet: WorkingSheet
    boxes: list[Floats] = field(default_factory=list)
    """Left, top, right and bottom of each."""

    def __post_init__(self) -> None:
        runs = [run for _, run in (*self.sheet.edges, *self.sheet.lines)]
        runs += [lines_through(legs) for _, legs in self.sheet.darts]
        self.inked = np.concatenate([sample(run[None], 24)[0] * FLIP for run in runs] or [np.zeros((0, 2))])
        for _, at in self.sheet.points:
            x, y = at * FLIP
            self.boxes.append(np.array([x - _DOT, y - _DOT, x + _DOT, y + _DOT]))

    def at(self, name: str, place: Floats, colour: str = OUTLINE.colour) -> list[Item]:
        """The name of a point beside it."""
        return self._set(name.replace("_", " "), place * FLIP, _WAYS, colour)

    def along(self, name: str, run: Floats) -> list[Item]:
        """The name of a line and how long it is, beside its middle."""
        path = run[None]
        whole = length(path)
        middle, way = point_at(path, whole / 2)[0] * FLIP, tangent_at(path, whole / 2)[0] * FLIP
        square = np.array([-way[1], way[0]])
        words = f"{name.replace('_', ' ')}  {in_centimetres(float(whole[0]))}"
        return self._set(words, middle, (square, -square, *_WAYS), _EDGE_INK)

    def _set(self, words: str, at: Floats, ways: Iterable[Floats], colour: str) -> list[Item]:
        wide, high = font.text_width(words, _TEXT), _TEXT * font.CAP_HEIGHT
        chosen, least, leader = None, np.inf, False
        for away in _AWAY:
            for way in ways:
                box = _beside(at, way * away, wide, high)
                if any(_overlap(box, other) for other in self.boxes):
                    continue
                crossed = self._crossed(box) + away / 100
                if crossed < least:
                    chosen, least, leader = box, crossed, away > 7.0
            if least < 1.0:
                break
        box = chosen if chosen is not None else _beside(at, np.array([0.0, _AWAY[-1]]), wide, high)
        self.boxes.append(box)
        found: list[Item] = [Label(words, float(box[0]), float(box[3]), _TEXT, colour=colour)]
        if leader or chosen is None:
            end = np.clip(at, box[:2], box[2:])
            found.append(Path((lines_through([at, end]),), _LEADER))
        return found

    def _crossed(self, box: Floats) -> int:
        inside = (self.inked >= box[:2]).all(axis=1) & (self.inked <= box[2:]).all(axis=1)
        return int(inside.sum())


def _beside(at: Floats, way: Floats, wide: float, high: float) -> Floats:
    """The box of a label that lies so far from a point, on whichever side the way points to."""
    x, y = at + way
    left = x if way[0] > 0.3 * abs(way[1]) else x - wide if way[0] < -0.3 * abs(way[1]) else x - wide / 2
    top = y - high if way[1] < -0.3 * abs(way[0]) else y if way[1] > 0.3 * abs(way[0]) else y - high / 2
    return np.array([left, top, left + wide, top + high])


def _overlap(one: Floats, other: Floats, gap: float = 0.4) -> bool:
    return bool(np.all(one[:2] - gap < other[2:]) and np.all(other[:2] - gap < one[2:]))


def _box(items: Sequence[Item]) -> Floats:
    corners = []
    for item in items:
        if isinstance(item, Label):
            wide = font.text_width(item.text, item.size, item.bold)
            corners.append(np.array([[item.x, item.y - item.size], [item.x + wide, item.y]]))
        else:
            corners.append(item.box())
    found = np.array(corners)
    return np.stack([found[:, 0].min(axis=0), found[:, 1].max(axis=0)])
