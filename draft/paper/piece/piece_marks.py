"""Marks inside a piece: drill marks, and lines on which something is placed, with the designer's words beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Mark
from draft.garment.marks import places
from draft.geometry.cubic import lines_through, unit
from draft.geometry.flatten import polyline
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Item, Label, Path, Stroke, circle
from draft.paper.drawing.room import CLEAR, Room, Spot
from draft.paper.drawing.wording import Wording
from draft.paper.piece.across_lines import Levels, ends_of_lengthening, halved, level_runs, level_words
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.fastenings import fastening
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.placements_named import is_long, placements_named
from draft.paper.piece.placing_lines import at_corners, is_cornered
from draft.paper.piece.shared_folds import fold_ends, is_shared, parts_of_fold
from draft.paper.piece.sliding_fastenings import slide, sliding_runs
from draft.paper.piece.surface import Surface
from draft.paper.piece.together import Together
from draft.paper.piece.words_at_marks import CROSS, extent, first_free, spots_about

_RADIUS = 2.0
_LINE = (5.0, 1.2, 1.2, 1.2)
_MATCH_MARK = 12.0
"""Wide lines of words keep so many mm from the edge of a page, where its match marks need room."""
_BEFORE, _ALONG = 10.0, 2.0
"""A line that is so many mm before its end no farther than so many from the seam runs along it."""
_ON_SEAM = 0.1
"""A point no further than this from the sewing line, mm, lies on it."""
_BESIDE = 40.0
"""How far beside a level, mm, room is looked for first."""


def mark_items(together: Together, index: int, end: str) -> list[Path]:
    """The marks of one size, y down; `end` closes each id. A mark that the body lacks is left out.

    In a nest an outline on which something is placed has its corners alone; a fold that all share is not of one size.
    """
    one, own = together.outlines[index], line_styles.cutting_stroke(index)
    found = []
    for mark in one.piece.marks:
        points = mark.points[one.body] * FLIP
        if np.isfinite(points).all() and mark.line != "lengthen" and not is_shared(mark, together.outlines):
            data = (("piece", one.piece.name), ("mark", mark.name), ("size", one.size), ("source", mark.span.beside))
            stroke = Stroke(line_styles.FINE, _dash(mark, together), own.colour)
            drawn = _runs(mark, together, index)  # a button whose hole is a stroke has nothing of its own
            found += [Path(drawn, stroke, id=f"{one.piece.name}.{mark.name}{end}", data=data)] if drawn else []
    return found


def _dash(mark: Mark, together: Together) -> tuple[float, ...]:
    if mark.drill or mark.line == "level" or is_cornered(mark, together):
        return ()
    return line_styles.FOLD.dash if mark.line else _LINE


def _runs(mark: Mark, together: Together, index: int) -> tuple[Any, ...]:
    one = together.outlines[index]
    body = one.body
    if mark.line == "level":
        return level_runs(one, mark, together.level(mark, index), together.is_nest)
    if mark.fastening:
        return _fastened(mark, together, one)
    if mark.drill:
        return tuple(run for point in places(mark, body) * FLIP for run in _drill(point))
    if mark.line == "fold":
        return tuple(map(lines_through, fold_ends(mark.points[body] * FLIP)))
    points = mark.points[body] * FLIP
    if is_cornered(mark, together):
        return tuple(lines_through(line) for line in at_corners(points))
    return (lines_through(_to_cutting_line(points, one)),)


def _fastened(mark: Mark, together: Together, one: Outlines) -> tuple[Any, ...]:
    """The signs of a fastening, whole but where those of other sizes lie over them."""
    holes = [of_it for of_it in one.piece.marks if of_it.fastening == "buttonhole"]
    sliding = slide(mark, one.piece, [each.body for each in together.outlines])
    whole = fastening(mark, one.body, holes, sliding)
    there = [place for place in sorted(sliding) if place < len(places(mark, one.body))]
    return (*whole, *chain(*(sliding_runs(mark, place, together.outlines, one) for place in there)))


def _to_cutting_line(points: Floats, one: Outlines) -> Floats:
    """A line `(n, 2)` whose ends on the sewing line are carried on to where the piece is cut."""
    begin, end = _carried(points[0], points[0] - points[1], one), _carried(points[-1], points[-1] - points[-2], one)
    return np.concatenate([begin, points, end])


def _carried(point: Floats, way: Floats, one: Outlines) -> Floats:
    """Where a line that ends at a point of the sewing line meets the cutting line `(1, 2)`, or nothing `(0, 2)`.

    Nothing either where it runs along the seam: it outlines something that lies there.
    """
    import shapely

    reach, seam, ahead = 2.0 * max(edge.allowance for edge in one.piece.edges), polyline(one.sewing), unit(way)
    if not reach or shapely.LineString(seam).distance(shapely.Point(point)) > _ON_SEAM:
        return np.zeros((0, 2))
    if shapely.LineString(seam).distance(shapely.Point(point - _BEFORE * ahead)) < _ALONG:
        return np.zeros((0, 2))
    ray = shapely.LineString([(point + _ON_SEAM * ahead) * FLIP, (point + reach * ahead) * FLIP])
    met = shapely.get_coordinates(shapely.intersection(ray, one.cutting_ring)) * FLIP
    return np.asarray(met[np.argsort(np.hypot(*(met - point).T))][:1])


def _drill(point: Any) -> tuple[Any, ...]:
    """A ring with a cross through it."""
    x, y = (float(at) for at in point)
    cross = [((x - CROSS, y), (x + CROSS, y)), ((x, y - CROSS), (x, y + CROSS))]
    return (circle(x, y, _RADIUS), *(lines_through(line) for line in cross))


def mark_words(
    together: Together,
    levels: Levels,
    inside: Any,
    taken: Sequence[Any],
    wording: Wording,
    surface: Surface,
) -> list[Item]:
    """The words of each mark, once for all sizes, where they fit beside the mark of the size in the middle.

    Beside a line they may stand at the first size or the last too.
    """
    found, clutter = list[Item](), Clutter(taken)
    for mark in together.outlines[0].piece.marks:
        texts = _texts(mark, levels, [one.size for one in together.outlines], wording)
        if mark.line == "level" and len(texts) > 1:
            where = surface.off(inside, _MATCH_MARK)
            found += _by_level(mark, together, texts, where, clutter, surface)
        elif mark.line == "level" and not mark.words and together.are_apart(mark):
            continue  # its name stands at each size
        elif is_shared(mark, together.outlines):
            for begin, end in parts_of_fold(mark, together.outlines):
                middle = (begin + end) / 2
                parts = [np.stack(ends) for ends in ((begin, end), (begin, middle), (middle, end))]
                spots = [spots_about(part, texts, surface) for part in parts]
                found += first_free(texts, spots, inside, clutter, surface)
        elif mark.fastening:
            found += _of_fastening(mark, together, texts, inside, clutter, surface)
        elif not (mark.line or mark.drill or is_cornered(mark, together)) and is_long(lines := _lines(mark, together)):
            for rows in placements_named(lines, texts, surface):
                found += first_free(texts, rows, inside, clutter, surface)
        else:
            rows = _rows_about(mark, together, texts, surface)
            found += first_free(texts, rows, inside, clutter, surface)
    return found


def _lines(mark: Mark, together: Together) -> list[Floats]:
    """A line `(n, 2)`, y down, as it is in the size in the middle, in the first and in the last."""
    sizes = dict.fromkeys((together.middle, 0, len(together.outlines) - 1))
    return [mark.points[together.outlines[size].body] * FLIP for size in sizes]


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
            _rows_about(mark, together, lines, surface), _elsewhere(mark, together, lines, part, clutter, surface)
        )
        found = first_free(lines, rows, inside, clutter, surface)
        if found:
            return found
    return []


def _about(mark: Mark, together: Together, texts: Sequence[str], inside: Any, surface: Surface) -> Any:
    """So much of a shape as lies about a level."""
    import shapely

    point = together.level(mark, together.middle)
    if not np.isfinite(point).all():
        return shapely.Polygon()
    wide, high = extent(texts, surface)
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
        spot = room.find(*extent(texts, surface), surface.upright, (x, y), CLEAR[-2:])
        if spot:
            yield [spot]


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


def _rows_about(mark: Mark, together: Together, texts: Sequence[str], surface: Surface) -> Iterator[list[Spot]]:
    """Rows of places about a mark: first those that no page's edge parts from it, then all."""
    if surface.edges is not None:
        yield from _spots_of(mark, together, texts, surface, joined=True)
    yield from _spots_of(mark, together, texts, surface)


def _spots_of(
    mark: Mark, together: Together, texts: Sequence[str], surface: Surface, joined: bool = False
) -> Iterator[list[Spot]]:
    """Rows of places about a mark: beside each point of its row in turn, or along its line; only the `joined` ones."""
    outlines = together.outlines
    if mark.line == "level":
        yield spots_about(together.level(mark, together.middle)[None], texts, surface, joined)
    elif mark.line == "lengthen":
        ends = ends_of_lengthening(mark, outlines)
        for line in (ends, *np.stack([ends[0], ends.mean(axis=0), ends[1]])[[[0, 1], [1, 2]]]):
            yield spots_about(line, texts, surface, joined)
    elif not mark.drill:
        for size in dict.fromkeys((0 if is_cornered(mark, together) else together.middle, 0, len(outlines) - 1)):
            line = mark.points[outlines[size].body] * FLIP
            for part in _parts(mark, line, together):
                yield spots_about(part, texts, surface, joined)
    for point in places(mark, outlines[together.middle].body) * FLIP if mark.drill else ():
        yield spots_about(point[None], texts, surface, joined)


def _parts(mark: Mark, line: Floats, together: Together) -> list[Floats]:
    """The parts of a mark's line `(n, 2)` that are drawn, beside which its words may stand."""
    if mark.line == "fold" and np.isfinite(line).all():
        return fold_ends(line)
    return at_corners(line) if is_cornered(mark, together) and np.isfinite(line).all() else [line]
