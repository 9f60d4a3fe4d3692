"""A form at any height, down to the ankle: its girth, how far it reaches, and where a tape over it comes to lie."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.form.dress_form import ROW, Form
from draft.form.silhouette import View, extents

_RUN_OVER = 90.0
"""mm below the crotch in which the trunk's ring becomes one round both legs."""


def girths_at(form: Form, body: int, heights: Floats) -> Floats:
    """What a tape at heights above the floor reads, mm `(n,)`; below the crotch round both legs."""
    middles, radii = _legs(form, body, heights)
    trunk = np.interp(heights, form.rows[body], form.girths(body))
    legs = 2 * np.pi * radii + 4 * middles[:, 0]
    return np.asarray(legs + _trunk(form, body, heights) * (trunk - legs))


def reaches(form: Form, body: int, heights: Floats, view: View) -> Floats:
    """How far a form reaches to the left and right of the picture at heights, `(n, 2)`; below the crotch its legs."""
    rows, there = form.rows[body], extents(form, body, view)
    trunk = np.stack([np.interp(heights, rows, there[:, k]) for k in range(2)], axis=1)
    middles, radii = _legs(form, body, heights)
    if view == "front":
        legs = np.stack([-middles[:, 0] - radii, middles[:, 0] + radii], axis=1)
    else:
        legs = np.stack([middles[:, 1] - radii, middles[:, 1] + radii], axis=1)
    return np.asarray(legs + _trunk(form, body, heights)[:, None] * (trunk - legs))


def _trunk(form: Form, body: int, heights: Floats) -> Floats:
    """1 where a height is the trunk's, 0 where it is the legs', and smoothly from one to the other."""
    return np.asarray(np.clip(1.0 - (form.rows[body, 0] - heights) / _RUN_OVER, 0.0, 1.0))


def _legs(form: Form, body: int, heights: Floats) -> tuple[Floats, Floats]:
    """Middles `(n, 3)` and radii `(n,)` of the left leg at heights."""
    middles = form.leg.placed(body)
    at, radii = middles[::-1, 2], form.leg.radii[body, ::-1]
    found = np.stack([np.interp(heights, at, middles[::-1, k]) for k in range(3)], axis=1)
    return found, np.interp(heights, at, radii)


def shoulder_at(form: Form, body: int, aside: float) -> float:
    """The height of the shoulder's line so far from the middle, mm; that of the neck or of the point beyond them."""
    at = form.heights
    ends = [float(at.neck[body]), float(at.tip[body])]
    return float(np.interp(aside, ends, [at.of("side_neck")[body], at.of("shoulder")[body]]))


def tape_down(form: Form, body: int, aside: float, to_back: bool) -> tuple[Floats, Floats]:
    """A taut tape from the shoulder, so far from the middle, down over front or back: heights and its length `(n,)`.

    It goes over what stands out farthest, straight from there over what is hollow below, and on down from the trunk.
    """
    start = shoulder_at(form, body, aside)
    rows = form.rows[body, : ROW["side_neck"]]
    under = np.flatnonzero(rows < start - 1.0)[::-1]
    way = 1.0 if to_back else -1.0
    out = extents(form, body, "side")[under, int(to_back)] * way
    ridge, near = _beside(form, body, aside, under[under > ROW["armpit"]], to_back)
    out[: len(near)] = near * way
    heights = np.concatenate([[start], rows[under]])
    long = _taut(np.concatenate([[ridge * way], out]), heights)
    floor = heights[-1]
    return np.concatenate([heights, [0.0]]), np.concatenate([long, [long[-1] + floor]])


def _beside(form: Form, body: int, aside: float, rows: Ints, to_back: bool) -> tuple[float, Floats]:
    """How far back the shoulder's ridge lies, and front or back at rows under it, so far from the middle, `(rows,)`."""
    found = []
    for row in rows:
        half = form.halves[body, row]
        widest = int(np.argmax(half[:, 0]))
        part = half[widest:][::-1] if to_back else half[: widest + 1]
        found.append(float(np.interp(aside, part[:, 0], part[:, 1])))
    tip = form.halves[body, ROW["shoulder"]]
    return float(tip[int(np.argmax(tip[:, 0])), 1]), np.array(found)


def _taut(out: Floats, heights: Floats) -> Floats:
    """The length of a tape drawn tight over a profile, from its first point to each, `(n,)`."""
    over, long, found = [0], [0.0], np.zeros(len(out))
    points = np.stack([out, heights], axis=1).tolist()
    for k in range(1, len(points)):
        while len(over) > 1 and _hollow(points[over[-2]], points[over[-1]], points[k]):
            over.pop()
            long.pop()
        last = points[over[-1]]
        long.append(long[-1] + float(np.hypot(points[k][0] - last[0], points[k][1] - last[1])))
        over.append(k)
        found[k] = long[-1]
    return found


def _hollow(before: list[float], at: list[float], after: list[float]) -> bool:
    """Whether a tape from the one before to the one after passes outside of the one between."""
    return (at[0] - before[0]) * (after[1] - before[1]) - (at[1] - before[1]) * (after[0] - before[0]) >= 0
