"""Which size a notch, a dart or a mark belongs to: the points that its size's name is set beside.

One mark of a piece is a family: it has a place in each size.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Mark, Takeup
from draft.garment.marks import buttonhole, dart_legs, places, widest
from draft.geometry import cubic
from draft.geometry.cubic import unit
from draft.paper.drawing.wording import Wording
from draft.paper.piece.across_lines import level_ends, level_runs
from draft.paper.piece.clips import clips
from draft.paper.piece.fastenings import arm_beside_hole
from draft.paper.piece.notch_words import said_of
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.placing_lines import corners_of, is_cornered
from draft.paper.piece.shared_folds import is_shared, lies_in_one
from draft.paper.piece.sliding_fastenings import is_told_by_hole, slide, strokes_at
from draft.paper.piece.takeups import END, RING, pleat_notches
from draft.paper.piece.together import Together

_CLEAR = {"": 3.5, "button": 4.0, "snap": 3.5}
"""How far the sign of a mark reaches from its point, mm."""
_IN_LINE, _LEADS = 1.0, 25.0
"""A notch leads to what lies no further aside of its line, and no further on from the cut edge than this, mm."""
_SHARES = np.linspace(0.0, 1.0, 15)[:, None]
"""The points of each bar of a level, or of what lies between the lines of a pleat."""


@dataclass(frozen=True)
class Anchor:
    """Where a mark of one size is to be named: a point `(2,)` on paper, and the unit vector `(2,)` into the piece.

    The name stands `clear` of the point by so many mm, on `both` sides of it if need be, and begins with `word`. That
    of a cutting line is bold. A notch has an `outer` end too, from which a line may lead to a name beside the piece.
    Where a mark has lines, `ends` `(k, 2)` are the ends of them, or points of those beside which lie others. A mark
    whose ends are `alike` may be named beyond either.
    """

    size: int
    point: Floats
    inward: Floats
    clear: float = 0.0
    both: bool = False
    word: str = ""
    bold: bool = False
    outer: Floats | None = None
    ends: Floats | None = None
    alike: bool = False


@dataclass(frozen=True)
class _Found:
    """An anchor's family, and what an anchor needs but for its size."""

    key: tuple[str, int]
    point: Floats
    inward: Floats
    clear: float = 0.0
    both: bool = False
    word: str = ""
    outer: Floats | None = None
    ends: Floats | None = None
    alike: bool = False


def families(together: Together, wording: Wording, crossed: frozenset[str]) -> list[list[Anchor]]:
    """The anchors of every mark of a piece, those of one mark in all its sizes together.

    The legs of darts that are `crossed` are not drawn whole: these are named at their mouths too.
    """
    found: dict[tuple[str, int], list[Anchor]] = {}
    for size, one in enumerate(together.outlines):
        every = (*_notches(one, together, size, wording), *_takeups(one, crossed, wording))
        for each in (*every, *_inner_darts(one, crossed), *_clips(one), *_marks(one, together, size, wording)):
            anchor = Anchor(
                *(size, each.point, each.inward, each.clear, each.both, each.word),
                outer=each.outer,
                ends=each.ends,
                alike=each.alike,
            )
            found.setdefault(each.key, []).append(anchor)
    return list(found.values())


def _notches(one: Outlines, together: Together, size: int, wording: Wording) -> Iterator[_Found]:
    """The inner ends of notches; of two strokes, the middle between them."""
    for number, strokes in together.notches[size]:
        outer, inner = (np.add.reduce(strokes[:, 0, at]) / len(strokes) * FLIP for at in (0, 3))
        bare = not one.piece.edge(one.piece.notches[number].edge).allowance
        point, other = (outer, inner) if bare else (inner, outer)
        word = said_of(one.piece.notches[number], wording)
        yield _Found(("notch", number), point, unit(point - other), word=word, outer=other)


def _takeups(one: Outlines, crossed: frozenset[str], wording: Wording) -> Iterator[_Found]:
    """Beside the points of darts and within their mouths, and the inner ends of pleats."""
    for number, takeup in enumerate(one.piece.takeups):
        if not one.has(takeup):
            continue
        point, way = one.sewing_ruler(takeup.edge).place(float(takeup.at[one.body]))
        inward = -cubic.right_of(way) * one.outward
        if takeup.to is None and takeup.name in crossed:
            said = ("fold", "laid") if takeup.pressed is not None else ("", "")
            for key, word, (outer, inner) in zip(("takeup", "mouth"), said, pleat_notches(one, takeup), strict=True):
                text = wording.say(f"piece.pleat_{word}") if word else ""
                yield _Found((key, number), inner, unit(inner - outer), word=text, outer=outer)
            continue
        if takeup.to is None:
            end = point + inward * (float(takeup.length[one.body]) if takeup.length is not None else 0.0)
            aside = way * float(takeup.width[one.body]) / 2
            ends = (end - aside + _SHARES * (2 * aside)) * FLIP
            yield _Found(("takeup", number), end * FLIP, unit(inward) * FLIP, ends=ends)
            continue
        tip = np.asarray(takeup.to[one.body])
        along = unit(tip - point) * FLIP
        yield _Found(("takeup", number), tip * FLIP, np.array([-along[1], along[0]]), RING, both=True)
        if takeup.name in crossed:
            yield _Found(("mouth", number), _in_mouth(one, takeup) * FLIP, along)


def _in_mouth(one: Outlines, takeup: Takeup) -> Floats:
    """Between the inner ends of what is drawn of a dart's legs at its mouth."""
    at, half = float(takeup.at[one.body]), float(takeup.width[one.body]) / 2
    mouths = np.stack([one.sewing_ruler(takeup.edge).place(side)[0] for side in (at - half, at + half)])
    legs = dart_legs(takeup, mouths, one.body)
    begin, end = (np.mean([leg[0, k] for leg in legs], axis=0) for k in (0, 3))
    return np.asarray(begin + END * unit(end - begin))


def _inner_darts(one: Outlines, crossed: frozenset[str]) -> Iterator[_Found]:
    """Beside the two points of each dart that lies within the piece, and where it is widest if no leg is whole."""
    for number, dart in enumerate(one.piece.inner_darts):
        if one.has(dart):
            tip, other = dart.to[one.body] * FLIP, dart.other[one.body] * FLIP
            along = unit(tip - other)
            aside = np.array([-along[1], along[0]])
            yield _Found(("inner dart", number), tip, aside, RING, both=True)
            yield _Found(("inner dart's end", number), other, aside, RING, both=True)
            for place, side in enumerate(widest(dart, one.body) if dart.name in crossed else ()):
                ends = np.stack([side * FLIP + END * unit(point - side * FLIP) for point in (tip, other)])
                yield _Found((f"inner dart {number}", place), ends[0], along, ends=ends, outer=ends[1])


def _clips(one: Outlines) -> Iterator[_Found]:
    """The inner ends of clips."""
    for number, line in enumerate(clips(one)):
        yield _Found(("clip", number), line[1], unit(line[1] - line[0]), ends=line)


def _marks(one: Outlines, together: Together, size: int, wording: Wording) -> Iterator[_Found]:
    """Levels, each place of a row, and both ends of lines."""
    for number, mark in enumerate(one.piece.marks):
        if mark.line == "lengthen" or not np.isfinite(mark.points[one.body]).all() or _shared(mark, together):
            continue
        key = f"mark {number}"
        if mark.line == "level":
            right, up = level_ends(one, mark, together.level(mark, size))
            point, way = up if together.is_row(mark) else right
            bars = level_runs(one, mark, together.level(mark, size), True)[1:]
            ends = np.concatenate([bar[0, 0] + _SHARES * (bar[-1, 3] - bar[0, 0]) for bar in bars])
            other = 2 * together.level(mark, size) - point
            yield _Found((key, 0), point, way, word=wording.named(mark.name), outer=other, ends=ends, alike=True)
        elif mark.drill or mark.fastening:
            yield from _of_points(one, mark, key, together)
        elif is_cornered(mark, together):
            yield from _of_corners(mark, one, key)
        elif mark.line or not lies_in_one(mark, together.outlines):  # else it is every size's, such as a centre front
            yield from _of_line(mark, one, key, wording.named(mark.words or mark.name) if mark.line else "")


def _shared(mark: Mark, together: Together) -> bool:
    return is_shared(mark, together.outlines)


def _of_points(one: Outlines, mark: Mark, key: str, together: Together) -> Iterator[_Found]:
    sliding = slide(mark, one.piece, [each.body for each in together.outlines])
    for place, point in enumerate(places(mark, one.body) * FLIP):
        if place in sliding:
            if not is_told_by_hole(mark, one.piece, one.body, place):
                stroke = strokes_at(mark, place, together.outlines, one)
                yield _Found((key, place), stroke[1], unit(stroke[1] - stroke[0]), outer=stroke[0])
        elif mark.fastening == "buttonhole":
            hole = buttonhole(mark, one.body, 0.0)[3 * place] * FLIP
            yield _Found((key, place), hole[1], unit(hole[1] - hole[0]), 1.0)
        else:
            arm = arm_beside_hole(mark, one.piece, place, one.body)
            if arm is None:
                yield _Found((key, place), point, np.array([1.0, 0.0]), _CLEAR[mark.fastening], both=True)
            else:
                yield _Found((key, place), arm[1], unit(arm[1] - arm[0]))


def _of_corners(mark: Mark, one: Outlines, key: str) -> Iterator[_Found]:
    """Within each corner of an outline, and beyond its ends."""
    points = mark.points[one.body] * FLIP
    corners = set(corners_of(points).tolist())
    for number in (*corners, *({0, len(points) - 1} - corners)):
        ways = [unit(points[other] - points[number]) for other in (number - 1, number + 1) if 0 <= other < len(points)]
        if len(ways) < 2 and number == len(points) - 1 and number in corners:  # it closes: the first point is the last
            ways.append(unit(points[1] - points[0]))
        inward = unit(ways[0] + ways[1]) if len(ways) == 2 else -ways[0]
        yield _Found((key, number), points[number], inward, 1.0, both=True)


def _of_line(mark: Mark, one: Outlines, key: str, word: str) -> Iterator[_Found]:
    """Beyond either end of a line; of one that closes, at its beginning alone."""
    points = mark.points[one.body] * FLIP
    ends = [(points[0], points[0] - points[1]), (points[-1], points[-1] - points[-2])]
    closed = float(np.hypot(*(points[0] - points[-1]))) < 1.0
    for place, (point, way) in enumerate(ends[:1] if closed else ends):
        if place and _is_at_notch(point, one):
            continue  # its size stands there already
        yield _Found((key, place), point, unit(way), both=True, word=word)


def _is_at_notch(point: Floats, one: Outlines) -> bool:
    """Whether a point of the sewing line lies where a notch of the same size leads to."""
    for _, strokes in one.notch_strokes:
        outer, inner = (strokes[:, 0, at].mean(axis=0) * FLIP for at in (0, 3))
        way, off = unit(inner - outer), point - outer
        along, aside = float(off @ way), abs(float(off @ np.array([-way[1], way[0]])))
        if aside < _IN_LINE and 0 < along < _LEADS:
            return True
    return False
