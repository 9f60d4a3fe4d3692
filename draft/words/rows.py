"""Rows of points: so many between two, or one every so far.

A row is `(B, MOST, 2)`: the last of its points stands in all the places that are left, for each body has its own count.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.units import Kind
from draft.geometry.cubic import norm
from draft.geometry.length import point_at
from draft.geometry.nearest import ON_EDGE, nearest_place
from draft.words.word import Given, Word, one

MOST = 100
"""Points in a row: more are a slip of the pen."""
_ROUNDING = 1e-6  # mm: a step that ends so near to the row's end reaches it


def _shares(counts: Floats) -> Floats:
    """Where the points of rows lie between their ends, `(B, MOST)` from 0 to 1."""
    return np.minimum(np.arange(MOST) / np.maximum(counts - 1, 1)[:, None], 1.0)


def _straight(start: Floats, end: Floats, shares: Floats) -> Floats:
    return start[:, None] + shares[..., None] * (end - start)[:, None]


def _on(edge: Floats, start: Floats, end: Floats, shares: Floats) -> Floats:
    places = start[:, None] + shares * (end - start)[:, None]
    return np.stack([point_at(edge, place) for place in places.T], axis=1)


def _counted(count: Floats) -> Given:
    fits = (count == np.round(count)) & (count >= 2) & (count <= MOST)
    return np.where(fits, count, 2.0), fits


def _stepped(step: Floats, whole: Floats) -> tuple[Floats, Bools]:
    """The shares of a row with a point every `step` mm of `whole` mm, and whether there can be such a row."""
    fits = (step > 0) & (step * MOST > whole)
    count = np.floor(np.where(fits, (whole + _ROUNDING) / np.where(fits, step, 1.0), 0.0)) + 1
    reach = (count - 1) * np.where(fits, step, 0.0) / np.where(whole > 0, whole, 1.0)
    return _shares(count) * reach[:, None], fits


def _ends(edge: Floats, start: Floats, end: Floats) -> tuple[Floats, Floats, Bools]:
    (first, off), (last, away) = nearest_place(edge, start), nearest_place(edge, end)
    return first, last, np.maximum(off, away) <= ON_EDGE


def _row_of_points(count: Floats, start: Floats, end: Floats) -> Given:
    counted, fits = _counted(count)
    return _straight(start, end, _shares(counted)), fits


def _row_along(count: Floats, start: Floats, end: Floats, edge: Floats) -> Given:
    counted, fits = _counted(count)
    first, last, on_it = _ends(edge, start, end)
    return _on(edge, first, last, _shares(counted)), fits & on_it


def _row_at_steps(step: Floats, start: Floats, end: Floats) -> Given:
    shares, fits = _stepped(step, norm(end - start))
    return _straight(start, end, shares), fits


def _row_at_steps_along(step: Floats, start: Floats, end: Floats, edge: Floats) -> Given:
    first, last, on_it = _ends(edge, start, end)
    shares, fits = _stepped(step, np.abs(last - first))
    return _on(edge, first, last, shares), fits & on_it


def _point_of_row(number: Floats, row: Floats) -> Given:
    """One point of rows `(B, MOST, 2)`, of which the last stands in all the places that are left."""
    last = 1 + np.sum(np.any(row[:, 1:] != row[:, :-1], axis=2), axis=1)
    fits = (number == np.round(number)) & (number >= 1) & (number <= last)
    return row[np.arange(len(row)), np.where(fits, number - 1, 0).astype(int)], fits


_N, _P, _L, _E = one(Kind.NUMBER), one(Kind.POINT), one(Kind.LENGTH), one(Kind.EDGE)
_R = one(Kind.ROW)

WORDS = (
    Word("row_of_points", "COUNT points from A to B", "So many points in a row, evenly from one point to another.",
         (_N, _P, _P), Kind.ROW, _row_of_points, fails=f"a row has from 2 to {MOST} points",
         example="holes  5 points from nape to waist_centre"),
    Word("row_along", "COUNT points from A to B along EDGE", "The same along an edge, on which both points lie.",
         (_N, _P, _P, _E), Kind.ROW, _row_along,
         fails=f"a row has from 2 to {MOST} points, and both of its ends lie on the edge",
         example="holes  5 points from armpit to hem_side along side"),
    Word("row_at_steps", "points every LENGTH from A to B",
         "A row with a point every so far, as many as there is room for: each size has its own count.", (_L, _P, _P),
         Kind.ROW, _row_at_steps, fails=f"the steps of a row are longer than none, and it has at most {MOST} points",
         example="holes  points every 8 cm from nape to hem_centre"),
    Word("row_at_steps_along", "points every LENGTH from A to B along EDGE",
         "The same along an edge, on which both points lie.", (_L, _P, _P, _E), Kind.ROW, _row_at_steps_along,
         fails=f"the steps of a row are longer than none, it has at most {MOST} points, and its ends lie on the edge",
         example="holes  points every 8 cm from armpit to hem_side along side"),
    Word("point_of_row", "point NUMBER of ROW", "One point of a row, counted from where the row begins.", (_N, _R),
         Kind.POINT, _point_of_row, fails="the row has no such point", example="top_hole  point 1 of button_places"),
)  # fmt: skip
