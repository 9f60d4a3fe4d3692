"""Marks inside a piece: drill marks, and lines on which something is placed, with the designer's words beside them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Mark
from draft.garment.marks import places
from draft.geometry.cubic import lines_through, unit
from draft.geometry.flatten import polyline
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path, Stroke, circle
from draft.paper.drawing.room import CLEAR, Room, Spot, spot_shapes
from draft.paper.drawing.wording import Wording
from draft.paper.piece.across_lines import Levels, ends_of_lengthening, halved, level_runs, level_words
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.fastenings import fastening
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.shared_folds import fold_ends, is_shared, parts_of_fold
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST
from draft.paper.piece.together import Together

_RADIUS = 2.0
_CROSS = 3.5
_LINE = (5.0, 1.2, 1.2, 1.2)
_SIZE = SMALLEST * PT
_LEADING = 1.35
_MATCH_MARK = 12.0
"""Wide lines of words keep so many mm from the edge of a page, where its match marks need room."""
_ON_SEAM = 0.1
"""A point no further than this from the sewing line, mm, lies on it."""
_KEPT = 0.8
"""Words keep so many mm clear of lines and other words."""
_BESIDE = 40.0
"""How far beside a level, mm, room is looked for first."""
_REACHES = (1.5, 4.0, 8.0, 14.0, 22.0)
"""From a mark to its words, in mm: the nearest that is free."""


def mark_items(together: Together, index: int, end: str) -> list[Path]:
    """The marks of one size, y down; `end` closes each id. A mark that the body lacks is left out.

    In a nest, a line on which something is placed has the dashes of its size; a fold that all share is not of one size.
    """
    one, own = together.outlines[index], line_styles.cutting_stroke(index)
    found = []
    for mark in one.piece.marks:
        points = mark.points[one.body] * FLIP
        if np.isfinite(points).all() and mark.line != "lengthen" and not is_shared(mark, together.outlines):
            data = (("piece", one.piece.name), ("mark", mark.name), ("size", one.size), ("source", mark.span.beside))
            stroke = Stroke(line_styles.FINE, _dash(mark), own.colour)
            if together.is_nest and not (mark.drill or mark.fastening or mark.line):
                stroke = replace(own, width=line_styles.FINE)
            found.append(Path(_runs(mark, together, index), stroke, id=f"{one.piece.name}.{mark.name}{end}", data=data))
    return found


def _dash(mark: Mark) -> tuple[float, ...]:
    return () if mark.drill or mark.line == "level" else line_styles.FOLD.dash if mark.line else _LINE


def _runs(mark: Mark, together: Together, index: int) -> tuple[Any, ...]:
    one = together.outlines[index]
    body = one.body
    if mark.line == "level":
        return level_runs(one, mark, together.level(mark, index), together.is_nest)
    if mark.fastening:
        return fastening(mark, body)
    if mark.drill:
        return tuple(run for point in places(mark, body) * FLIP for run in _drill(point))
    if mark.line == "fold":
        return tuple(map(lines_through, fold_ends(mark.points[body] * FLIP)))
    return (lines_through(_to_cutting_line(mark.points[body] * FLIP, one)),)


def _to_cutting_line(points: Floats, one: Outlines) -> Floats:
    """A line `(n, 2)` whose ends on the sewing line are carried on to where the piece is cut."""
    begin, end = _carried(points[0], points[0] - points[1], one), _carried(points[-1], points[-1] - points[-2], one)
    return np.concatenate([begin, points, end])


def _carried(point: Floats, way: Floats, one: Outlines) -> Floats:
    """Where a line that ends at a point of the sewing line meets the cutting line `(1, 2)`, or nothing `(0, 2)`."""
    import shapely

    reach = 2.0 * max(edge.allowance for edge in one.piece.edges)
    if not reach or shapely.LineString(polyline(one.sewing)).distance(shapely.Point(point)) > _ON_SEAM:
        return np.zeros((0, 2))
    ahead = unit(way)
    ray = shapely.LineString([(point + _ON_SEAM * ahead) * FLIP, (point + reach * ahead) * FLIP])
    met = shapely.get_coordinates(shapely.intersection(ray, one.cutting_ring)) * FLIP
    return np.asarray(met[np.argsort(np.hypot(*(met - point).T))][:1])


def _drill(point: Any) -> tuple[Any, ...]:
    """A ring with a cross through it."""
    x, y = (float(at) for at in point)
    cross = [((x - _CROSS, y), (x + _CROSS, y)), ((x, y - _CROSS), (x, y + _CROSS))]
    return (circle(x, y, _RADIUS), *(lines_through(line) for line in cross))


def mark_words(
    together: Together,
    levels: Levels,
    inside: Any,
    taken: Sequence[Any],
    wording: Wording,
    surface: Surface,
) -> list[Item]:
    """The words of each mark, once for all sizes, where they fit beside the mark of the size in the middle."""
    found, clutter = list[Item](), Clutter(taken)
    for mark in together.outlines[0].piece.marks:
        texts = _texts(mark, levels, [one.size for one in together.outlines], wording)
        if mark.line == "level" and len(texts) > 1:
            where = surface.off(inside, _MATCH_MARK)
            found += _by_level(mark, together, texts, where, clutter, surface)
        elif is_shared(mark, together.outlines):
            for begin, end in parts_of_fold(mark, together.outlines):
                middle = (begin + end) / 2
                parts = [np.stack(ends) for ends in ((begin, end), (begin, middle), (middle, end))]
                spots = [spots_about(part, texts, surface) for part in parts]
                found += first_free(texts, spots, inside, clutter, surface)
        elif mark.fastening:
            found += _of_fastening(mark, together, texts, inside, clutter, surface)
        else:
            found += first_free(texts, _spots_of(mark, together, texts, surface), inside, clutter, surface)
    return found


def _of_fastening(
    mark: Mark, together: Together, texts: Sequence[str], inside: Any, clutter: Clutter, surface: Surface
) -> list[Label]:
    """What a fastening says in one line or two, upright or, on a narrow piece, turned."""
    parted = [f"{line}:" if k < text.count(": ") else line for text in texts for k, line in enumerate(text.split(": "))]
    for turned in (surface, replace(surface, quarters=surface.quarters + 1)) if not surface.level else (surface,):
        for lines in (texts, parted):
            found = first_free(lines, _spots_of(mark, together, lines, turned), inside, clutter, turned)
            if found:
                return found
    return []


def _by_level(
    mark: Mark, together: Together, texts: Sequence[str], inside: Any, clutter: Clutter, surface: Surface
) -> list[Label]:
    """What a level says of several sizes: beside it, near it, in lines half as long, or wherever there is room."""
    near = _about(mark, together, texts, inside, surface)
    for lines, part in ((texts, near), (halved(texts), near), (texts, inside)):
        rows = chain(
            _spots_of(mark, together, lines, surface), _elsewhere(mark, together, lines, part, clutter, surface)
        )
        found = first_free(lines, rows, inside, clutter, surface)
        if found:
            return found
    return []


def first_free(
    texts: Sequence[str], rows: Iterable[Sequence[Spot]], inside: Any, clutter: Clutter, surface: Surface
) -> list[Label]:
    """Lines of words in the first place that lies in a shape and is clear of the clutter, and then part of that."""
    import shapely

    for spots in rows:
        shapes = spot_shapes(spots, _KEPT)
        fits = clutter.off_lines(shapes)
        fits[fits] = shapely.contains(inside, shapes[fits])
        number = clutter.first_apart(shapes, fits)
        if number is not None:
            clutter.take(shapes[number])
            return _set(texts, spots[number], surface)
    return []


def _about(mark: Mark, together: Together, texts: Sequence[str], inside: Any, surface: Surface) -> Any:
    """So much of a shape as lies about a level."""
    import shapely

    point = together.level(mark, together.middle)
    if not np.isfinite(point).all():
        return shapely.Polygon()
    wide, high = _extent(texts, surface)
    x, y = (float(at) for at in point)
    return shapely.intersection(
        inside, shapely.box(x - wide - _BESIDE, y - high - _BESIDE, x + wide + _BESIDE, y + high + _BESIDE)
    )


def _elsewhere(
    mark: Mark, together: Together, texts: Sequence[str], part: Any, clutter: Clutter, surface: Surface
) -> Iterator[list[Spot]]:
    """The place in a shape nearest to a level with room for what it says."""
    import shapely

    x, y = (float(at) for at in together.level(mark, together.middle))
    if np.isfinite((x, y)).all() and not part.is_empty:
        room = Room(part).without(shapely.geometrycollections(clutter.within(part)), 1.0)
        spot = room.find(*_extent(texts, surface), surface.upright, (x, y), CLEAR[-2:])
        if spot:
            yield [spot]


def _extent(texts: Sequence[str], surface: Surface) -> tuple[float, float]:
    """Width and height of lines of words, mm."""
    size = _SIZE * surface.enlarged
    high = size * (font.CAP_HEIGHT + font.DESCENT + (len(texts) - 1) * _LEADING)
    return max(font.text_width(text, size) for text in texts), high


def _texts(mark: Mark, levels: Levels, sizes: Sequence[str], wording: Wording) -> list[str]:
    if mark.line == "level":
        return level_words(mark, levels, sizes, wording)
    of_itself = {"fold": "piece.fold_line", "lengthen": "piece.lengthen"}
    if mark.line and not mark.words:
        return [wording.say(of_itself[mark.line])]
    if mark.fastening:
        words = [wording.say(f"piece.{mark.fastening}"), wording.named(mark.words)]
        return [": ".join(word for word in words if word)]
    return [wording.named(mark.words or mark.name)]


def _set(texts: Sequence[str], spot: Spot, surface: Surface) -> list[Label]:
    """Lines of words one below the other in their place."""
    size = _SIZE * surface.enlarged
    first = -spot.height / 2 + size * font.CAP_HEIGHT
    return [
        Label(text, *spot.at(0, first + k * size * _LEADING), size, "middle", spot.angle)
        for k, text in enumerate(texts)
    ]


def _spots_of(mark: Mark, together: Together, texts: Sequence[str], surface: Surface) -> Iterator[list[Spot]]:
    """Rows of places about a mark: beside each point of its row in turn, or along its line."""
    outlines, body = together.outlines, together.outlines[together.middle].body
    if mark.line == "level":
        yield spots_about(together.level(mark, together.middle)[None], texts, surface)
    elif mark.line == "lengthen":
        ends = ends_of_lengthening(mark, outlines)
        for line in (ends, *np.stack([ends[0], ends.mean(axis=0), ends[1]])[[[0, 1], [1, 2]]]):
            yield spots_about(line, texts, surface)
    elif not mark.drill:
        line = mark.points[body] * FLIP
        for part in fold_ends(line) if mark.line == "fold" and np.isfinite(line).all() else [line]:
            yield spots_about(part, texts, surface)
    for point in places(mark, body) * FLIP if mark.drill else ():
        yield spots_about(point[None], texts, surface)


def spots_about(points: Any, texts: Sequence[str], surface: Surface) -> list[Spot]:
    """Places for lines of words about a point `(1, 2)` or along a line `(n, 2)`, y down, the nearest first."""
    drill = len(points) == 1
    width, height = _extent(texts, surface)
    if not np.isfinite(points).all():
        return []
    begin, end = _longest_leg(points)
    way = end - begin
    angle = surface.upright if drill else surface.along(float(np.degrees(np.arctan2(way[1], way[0]))))
    x, y = (begin + end) / 2
    middle = Spot(float(x), float(y), 0, 0, angle)
    found = []
    for reach in _REACHES:
        beside = _CROSS + reach + width / 2
        across = reach + height / 2 + (_CROSS if drill else 0.0)
        sides = [(beside, 0.0), (-beside, 0.0)] if drill or surface.level else []
        found += [Spot(*middle.at(*at), width, height, angle) for at in (*sides, (0.0, -across), (0.0, across))]
    return found


def _longest_leg(points: Any) -> tuple[Any, Any]:
    """Both ends of the longest straight part of a line through points: words run along it. A point has itself."""
    if len(points) == 1:
        return points[0], points[0]
    k = int(np.argmax(np.hypot(*np.diff(points, axis=0).T)))
    return points[k], points[k + 1]
