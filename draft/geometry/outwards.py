"""An edge moved out to lie beside itself, and the edges that meet it carried on to it."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.crossing import edge_meets_line, lines_meet
from draft.geometry.cubic import cross, line, norm, reverse, right_of
from draft.geometry.ends import end_directions
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.meeting import edges_meet
from draft.geometry.nearest import nearest_place
from draft.geometry.part import part_along
from draft.geometry.rejoined import reaching
from draft.geometry.spline import hobby

PARTS = 4  # of each segment: the cubics through them stray from the true parallel of a garment's curve by under 0.01 mm


def beside(path: Floats, first: Floats, last: Floats, begin: Floats | None = None, end: Floats | None = None) -> Floats:
    """A path `(B, S * 4, 4, 2)` that lies to the right of another, `first` mm away at its start and `last` at its end.

    Between, the distance `(B,)` changes evenly. Only the stretch from `begin` to `end` mm `(B,)` of the other is
    followed where they are given.
    """
    whole = length(path)
    low = np.zeros_like(whole) if begin is None else begin
    high = whole if end is None else end
    shares = np.linspace(0.0, 1.0, path.shape[1] * PARTS + 1)
    knots, ways = [], []
    run = np.maximum(high - low, 1e-9)
    slope = (last - first) / run
    for share in shares:
        at = low + share * run
        along = tangent_at(path, at)
        out = right_of(along)
        knots.append(point_at(path, at) + (first + share * (last - first))[:, None] * out)
        way = along + slope[:, None] * out
        ways.append(way / np.maximum(norm(way), 1e-9)[:, None])
    return hobby(np.stack(knots, axis=1), ways)


def beside_all(paths: list[Floats], start: Floats, end: Floats) -> Floats:
    """A path from one point to another `(B, 2)` beside edges that follow one another, each `(B, S, 4, 2)`.

    How far from them it runs changes evenly from where it starts to where it ends. Where two of the edges make a corner
    the lines beside them are cut where they meet, or carried on straight until they do.
    """
    chain = _chained(paths)
    whole = np.concatenate(chain, axis=1)
    (first, _), (last, _) = nearest_place(whole, start), nearest_place(whole, end)
    away = [_to_the_right(whole, place, point) for place, point in ((first, start), (last, end))]
    turned = first > last
    lengths = [length(path) for path in chain]
    offset = np.zeros_like(first)
    parts = []
    low, high = np.minimum(first, last), np.maximum(first, last)
    near, far = np.where(turned, away[1], away[0]), np.where(turned, away[0], away[1])
    slope = (far - near) / np.maximum(high - low, 1e-9)
    for path, long in zip(chain, lengths, strict=True):
        begin = np.clip(low - offset, 0.0, long)
        finish = np.clip(high - offset, 0.0, long)
        at_begin, at_end = (near + (offset + place - low) * slope for place in (begin, finish))
        parts.append(beside(path, at_begin, at_end, begin, finish))
        offset = offset + long
    line_beside = parts[0]
    for part in parts[1:]:
        line_beside = _cornered(line_beside, part)
    line_beside = np.where(turned[:, None, None, None], reverse(line_beside), line_beside)
    return reverse(reaching(reverse(reaching(line_beside, end)), start))


def _chained(paths: list[Floats]) -> list[Floats]:
    """Edges turned so that each begins where the one before it ends."""
    made = [paths[0]]
    if len(paths) > 1:
        ends = norm(paths[0][:, -1, 3][:, None] - _two_ends(paths[1])).min(axis=1)
        starts = norm(paths[0][:, 0, 0][:, None] - _two_ends(paths[1])).min(axis=1)
        made = [np.where((starts < ends)[:, None, None, None], reverse(paths[0]), paths[0])]
    for path in paths[1:]:
        away = norm(made[-1][:, -1, 3][:, None] - _two_ends(path))
        made.append(np.where((away[:, 1] < away[:, 0])[:, None, None, None], reverse(path), path))
    return made


def _two_ends(path: Floats) -> Floats:
    return np.stack([path[:, 0, 0], path[:, -1, 3]], axis=1)


def _to_the_right(path: Floats, place: Floats, point: Floats) -> Floats:
    """How far points `(B, 2)` lie from the places of a path, positive to its right."""
    away = point - point_at(path, place)
    side = cross(tangent_at(path, place), away)
    return np.where(side > 0, -norm(away), norm(away))


def _cornered(before: Floats, behind: Floats) -> Floats:
    """Two lines beside edges that make a corner, as one line: cut where they cross, or carried on until they meet."""
    met, crossing = edges_meet(before, behind)
    arrive, leave = end_directions(before)[1], end_directions(behind)[0]
    first, last = before[:, -1, 3], behind[:, 0, 0]
    carried, fits = lines_meet(first, arrive, last, leave)
    sharp = fits & (np.abs(cross(arrive, leave)) > 1e-3)
    corner = np.where(crossing[:, None], met, np.where(sharp[:, None], carried, (first + last) / 2))
    whole = length(before)
    cut = np.where(crossing, nearest_place(before, corner)[0], whole)
    left = np.where(crossing, nearest_place(behind, corner)[0], 0.0)
    kept = part_along(before, np.zeros_like(cut), cut)
    rest = part_along(behind, left, length(behind))
    return np.concatenate(
        [kept, line(kept[:, -1, 3], corner)[:, None], line(corner, rest[:, 0, 0])[:, None], rest], axis=1
    )


def carried_to(path: Floats, before: Floats, behind: Floats) -> tuple[Floats, Floats, Floats, Bools]:
    """A path cut or carried on to end where the edges before and behind it, carried on straight, meet it.

    All are `(B, S, 4, 2)`. Gives the path, the edge before and the edge behind with what was added to them, and the
    bodies `(B,)` for which both meet it.
    """
    reach = 10 * (length(path) + 100.0)
    out, into = end_directions(before)[1], end_directions(behind)[0]
    first, last = before[:, -1, 3], behind[:, 0, 0]
    leave, arrive = end_directions(path)
    long = np.concatenate(
        [
            line(path[:, 0, 0] - reach[:, None] * leave, path[:, 0, 0])[:, None],
            path,
            line(path[:, -1, 3], path[:, -1, 3] + reach[:, None] * arrive)[:, None],
        ],
        axis=1,
    )
    start, at, met = edge_meets_line(long, first, out)
    end, back, met_too = edge_meets_line(reverse(long), last, into)
    kept = part_along(long, at, length(long) - back)
    kept[:, 0, 0], kept[:, -1, 3] = start, end  # all three edges meet to the last digit
    grown = np.concatenate([before, line(first, start)[:, None]], axis=1)
    grown_too = np.concatenate([line(end, last)[:, None], behind], axis=1)
    return kept, grown, grown_too, met & met_too
