"""Lines across a piece, square to its grain: levels of the body with what the garment measures there, and where the
piece may be lengthened or shortened (common practice).

A level is a crossed ring at its point, for each size. The two lines to be cut between lie in all sizes at the height
of the one in the middle: where just they lie is of no matter. Each size has its own part of them, so that none runs on
where only that size is shown.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Mark, Piece
from draft.geometry.cubic import lines_through
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Path, Stroke, circle
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.piece.level_places import ARM, NEST_ARM, NEST_RING, NEST_STEM, RING, STEM
from draft.paper.piece.piece_lines import FLIP, Outlines

BETWEEN = " · "
_APART = 4.0
"""Between the two lines at which a piece is lengthened, mm."""
_LINE = 1
"""What shapely calls the kind of a line."""

Levels = tuple[tuple[str, tuple[float, ...]], ...]
"""What the finished garment measures at each level of a piece by its mark's name, mm, a figure a size."""


def levels_of(garment: Garment, piece: Piece, bodies: Sequence[int]) -> Levels:
    """The finished measurements that bear the names of a piece's levels."""
    known = {row.name: row for row in garment.finished}
    names = [mark.name for mark in piece.marks if mark.line == "level" and mark.name in known]
    return tuple((name, tuple(float(known[name].values[body]) for body in bodies)) for name in names)


def level_runs(one: Outlines, mark: Mark, point: Floats, small: bool) -> tuple[Floats, ...]:
    """A ring with a long cross at a point `(2,)`, y down, a `small` one in a nest: runs of curves `(n, 4, 2)`."""
    _, across, along = _frame(one, mark)
    ring, arm, stem = (NEST_RING, NEST_ARM, NEST_STEM) if small else (RING, ARM, STEM)
    bars = [[point - reach * way, point + reach * way] for way, reach in ((across, arm), (along, stem))]
    return (circle(float(point[0]), float(point[1]), ring), *map(lines_through, bars))


def level_ends(one: Outlines, mark: Mark, point: Floats) -> tuple[tuple[Floats, Floats], tuple[Floats, Floats]]:
    """The right and the upper end of a level's cross in a nest, y down, each `(2,)` with the way from its middle."""
    _, across, along = _frame(one, mark)
    right, up = across * (1.0 if across[0] > 0 else -1.0), along * (1.0 if along[1] < 0 else -1.0)
    return (point + NEST_ARM * right, right), (point + NEST_STEM * up, up)


def lengthening(outlines: Sequence[Outlines], ends: Sequence[str]) -> list[list[Path]]:
    """The pairs of lines at which a piece may be lengthened or shortened, y down, as far as each size reaches.

    All sizes have them at the same height; `ends` close their ids.
    """
    one, found = outlines[len(outlines) // 2], list[list[Path]]([] for _ in outlines)
    for mark in one.piece.marks:
        if mark.line == "lengthen" and np.isfinite(mark.points[one.body]).all():
            point, across, along = _frame(one, mark)
            shapes = [each.cutting_shape for each in outlines]
            sides = [_within(point + side * along * _APART / 2, across, shapes) for side in (-1, 1)]
            for paths, end, *pair in zip(found, ends, *sides, strict=True):
                runs, name = tuple(run for side in pair for run in side), f"{one.piece.name}.{mark.name}{end}"
                paths.extend([Path(runs, Stroke(line_styles.FINE), id=name)] if runs else [])
    return found


def ends_of_lengthening(mark: Mark, outlines: Sequence[Outlines]) -> Floats:
    """Both ends `(2, 2)` of the upper one of a pair of lines, y down, beside which its words stand."""
    one = outlines[len(outlines) // 2]
    point, across, along = _frame(one, mark)
    up = along if along[1] < 0 else -along
    (runs,) = _within(point + up * _APART / 2, across, [outlines[0].together.cut_of_any])
    return np.asarray(runs[0][0, [0, 3]]) if runs else np.stack([point, point])


def level_words(mark: Mark, levels: Levels, sizes: Sequence[str], wording: Wording) -> list[str]:
    """What stands beside a level: its name, and what the finished garment measures there, in one line or a few."""
    name = capitalised(wording.named(mark.words or mark.name))
    values = dict(levels).get(mark.name)
    if values is None:
        return [name]
    if len(values) == 1:
        return [wording.say("piece.finished_at", name=name, length=wording.length(values[0]))]
    lines = [wording.say("piece.finished", name=name)]
    if wording.units != "in":
        lines.append(_row(sizes, [wording.number(mm / 10, 1) for mm in values], wording.say("units.centimetre")))
    if wording.units != "cm":
        lines.append(_row(sizes, [wording.inch_figure(mm) for mm in values], wording.say("units.inch")))
    return lines


def halved(lines: Sequence[str]) -> list[str]:
    """The same in lines about half as long: rows of figures are parted between two sizes."""
    found = list[str]()
    for line in lines:
        parts = line.split(BETWEEN)
        half = (len(parts) + 1) // 2
        found += [BETWEEN.join(part) for part in (parts[:half], parts[half:]) if part]
    return found


def _row(sizes: Sequence[str], figures: Sequence[str], unit: str) -> str:
    return BETWEEN.join(f"{size} {figure}" for size, figure in zip(sizes, figures, strict=True)) + f" {unit}"


def _frame(one: Outlines, mark: Mark) -> tuple[Floats, Floats, Floats]:
    """A mark's point, and unit vectors across and along the grain `(2,)`, y down."""
    along = one.piece.grain[one.body] * FLIP
    return mark.points[one.body, 0] * FLIP, np.array([-along[1], along[0]]), along


def _within(point: Floats, across: Floats, shapes: Sequence[Any]) -> list[list[Floats]]:
    """A line through a point as far as each of some shapes reaches on either side of it."""
    import shapely

    reach = 10_000.0
    line = shapely.LineString([point - reach * across, point + reach * across])
    parts, of = shapely.get_parts(shapely.intersection(np.array(shapes), line), return_index=True)
    near = (shapely.get_type_id(parts) == _LINE) & (shapely.distance(parts, shapely.Point(point)) < _APART)
    found: list[list[Floats]] = [[] for _ in shapes]
    for part, number in zip(parts[near], of[near].tolist(), strict=True):
        found[number].append(lines_through(shapely.get_coordinates(part)))
    return found
