"""What a designer drafted, as she would see it on her table: points with their names, lines, darts, pleats.

Lines say how long they are, and how long once darts and pleats are shut; darts how wide, and their angle; pleats how
wide they are.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import plain
from draft.base.record import dataclass
from draft.base.units import in_centimetres
from draft.geometry.cubic import cross, dot, lines_through
from draft.geometry.length import length, point_at, tangent_at
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Path, Stroke, Turn, circle
from draft.paper.pictures.clear_labels import WAYS, ClearLabels, Places
from draft.paper.piece.piece_lines import FLIP

OUTLINE, LINE, DART = Stroke(0.5), Stroke(0.25, (4.0, 1.5)), Stroke(0.25)
_PLEAT = (DART, DART, Stroke(0.25, (3.0, 1.5)))
BEFORE = Stroke(0.25, colour="#a0a0a0")
_EDGE_INK = line_styles.RUST
_MARGIN = 15.0
_TITLE, _NAME, _TEXT = 28 * PT, 14 * PT, 11 * PT
_TOP = _MARGIN + _TITLE + 3.2 * _NAME
_DOT = 0.9
_SHARES = (0.5, 0.38, 0.62, 0.25, 0.75, 0.12, 0.88)
"""Of a line, where its name may stand."""


@dataclass(frozen=True)
class WorkingSheet:
    """One block or piece for one body, y up: edges, lines and the paper before its moves `(n, 4, 2)`, points `(2,)`.

    A dart is its two legs, to its point and back, `(2, 4, 2)`; one inside four, from one side round to that again,
    `(4, 4, 2)`; a pleat its two lines and the fold between `(3, 2, 2)`.
    """

    name: str
    title: str
    edges: Sequence[tuple[str, Floats]]
    lines: Sequence[tuple[str, Floats]] = ()
    points: Sequence[tuple[str, Floats]] = ()
    darts: Sequence[tuple[str, Floats]] = ()
    inner_darts: Sequence[tuple[str, Floats]] = ()
    pleats: Sequence[tuple[str, Floats]] = ()
    before: Sequence[Floats] = ()
    sewn: Mapping[str, float] = field(default_factory=dict)
    """How long an edge is in mm once its darts and pleats are shut."""


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
    found += [Path((legs * FLIP,), DART) for _, legs in (*sheet.darts, *sheet.inner_darts)]
    for _, pleat in sheet.pleats:
        found += [Path((lines_through(line * FLIP),), stroke) for line, stroke in zip(pleat, _PLEAT, strict=True)]
    found += [
        Path((circle(float(at[0]), -float(at[1]), _DOT),), fill=OUTLINE.colour, closed=True) for _, at in sheet.points
    ]
    found += _labels(sheet)
    return found


def _labels(sheet: WorkingSheet) -> list[Item]:
    """Every line with its length, every dart with its width and angle, every point with its name."""
    runs = [run * FLIP for _, run in (*sheet.edges, *sheet.lines)]
    runs += [legs * FLIP for _, legs in (*sheet.darts, *sheet.inner_darts)]
    runs += [lines_through(line * FLIP) for _, lines in sheet.pleats for line in lines]
    labels = ClearLabels.over(_TEXT, runs, [at * FLIP for _, at in sheet.points], _DOT)
    found: list[Item] = []
    for name, legs in sheet.darts:
        found += labels.set(_dart_words(name, legs), _along(legs[:1]), _EDGE_INK)
    for name, legs in sheet.inner_darts:
        found += labels.set(_inner_dart_words(name, legs), _along(legs[1:2]), _EDGE_INK)
    for name, lines in sheet.pleats:
        found += labels.set(_pleat_words(name, lines), _along(lines_through(lines[1])), _EDGE_INK)
    for name, run in (*sheet.edges, *sheet.lines):
        found += labels.set(_line_words(name, run, sheet.sewn.get(name)), _along(run), _EDGE_INK)
    for name, at in sheet.points:
        found += labels.set(plain(name), [(at * FLIP, WAYS)], OUTLINE.colour)
    return found


def _line_words(name: str, run: Floats, sewn: float | None) -> str:
    """`waist  24.1 cm, sewn 20.3 cm`."""
    words = f"{plain(name)}  {in_centimetres(float(length(run[None])[0]))}"
    return words if sewn is None else f"{words}, sewn {in_centimetres(sewn)}"


def _dart_words(name: str, legs: Floats) -> str:
    """`bust dart  3.2 cm, 11 deg`: how wide it is at its edge, and the angle at its point."""
    mouths, tip = legs[[0, 1], [0, 3]], legs[0, 3]
    first, last = mouths - tip
    angle = abs(np.degrees(np.arctan2(cross(first, last), dot(first, last))))
    return f"{plain(name)}  {in_centimetres(float(np.hypot(*(mouths[1] - mouths[0]))))}, {angle:.1f} deg"


def _inner_dart_words(name: str, legs: Floats) -> str:
    """`back dart  3.2 cm`: how wide it is where it is widest."""
    return f"{plain(name)}  {in_centimetres(float(np.hypot(*(legs[2, 0] - legs[0, 0]))))}"


def _pleat_words(name: str, lines: Floats) -> str:
    """`pleat  4 cm`: how wide it is at its edge."""
    return f"{plain(name)}  {in_centimetres(float(np.hypot(*(lines[1, 0] - lines[0, 0]))))}"


def _along(run: Floats) -> Places:
    """Places beside a line, from its middle towards its ends, and square off it before other ways."""
    path, whole = run[None], length(run[None])
    found = []
    for share in _SHARES:
        middle, way = point_at(path, whole * share)[0] * FLIP, tangent_at(path, whole * share)[0] * FLIP
        square = np.array([-way[1], way[0]])
        found.append((middle, (square, -square, *WAYS)))
    return found


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
