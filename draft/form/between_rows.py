"""A monotone cubic through the levels of every body at once: nowhere does a form bulge where its levels do not."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints


def between_rows(heights: Floats, values: Floats, counts: Ints) -> Floats:
    """The values `(..., bodies, rows)` on so many rows from each level to the next, the last level's row included.

    `heights` `(bodies, levels)` rise; `values` are `(..., bodies, levels)`; `counts` are the rows of each interval.
    The curve is that of Fritsch and Carlson with weighted harmonic means for slopes.
    """
    step = np.diff(heights)
    rise = np.diff(values) / step
    slope = _slopes(step, rise, values)
    which = np.repeat(np.arange(len(counts)), counts)
    t = np.concatenate([np.arange(count) / count for count in counts])
    a, b, width = values[..., which], values[..., which + 1], step[..., which]
    p, q = slope[..., which] * width, slope[..., which + 1] * width
    found = a + t * (p + t * (3 * (b - a) - 2 * p - q + t * (p + q - 2 * (b - a))))
    return np.concatenate([found, values[..., -1:]], axis=-1)


def rows_between(heights: Floats, counts: Ints) -> Floats:
    """The heights `(bodies, rows)` of those rows: evenly spaced from level to level `(bodies, levels)`."""
    which = np.repeat(np.arange(len(counts)), counts)
    t = np.concatenate([np.arange(count) / count for count in counts])
    rows = heights[:, which] + t * np.diff(heights)[:, which]
    return np.concatenate([rows, heights[:, -1:]], axis=1)


def _slopes(step: Floats, rise: Floats, values: Floats) -> Floats:
    before, after = 2 * step[..., 1:] + step[..., :-1], step[..., 1:] + 2 * step[..., :-1]
    same = rise[..., 1:] * rise[..., :-1] > 0
    low, high = (np.where(same, part, 1.0) for part in (rise[..., :-1], rise[..., 1:]))
    inner = np.where(same, (before + after) / (before / low + after / high), 0.0)
    slope = np.empty_like(values)
    slope[..., 0], slope[..., 1:-1], slope[..., -1] = rise[..., 0], inner, rise[..., -1]
    return slope
