"""Stretches of one edge put together again after the paper between them was cut and moved."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import line, reverse
from draft.geometry.ends import end_directions
from draft.geometry.length import length, point_at, segment_lengths, tangent_at
from draft.geometry.part import part_along
from draft.geometry.spline import hobby

Joint = Literal["closed", "straight", "open", "faired", "fanned"]
"""Two stretches meet, or become one straight line; a straight or a smooth line is drawn over the gap between them.

`fanned` is for stretches of a straight edge: one fair curve through the middles of all of them.
"""


def rejoined(stretches: Sequence[Floats], joints: Sequence[Joint], over: Floats) -> Floats:
    """One path `(B, S, 4, 2)` of stretches in order, with a joint between each two of them.

    What is faired is drawn anew for `over` mm `(B,)` to either side, or half of a stretch where that is shorter. Ends
    that are to meet and do not are brought together halfway, each stretch giving evenly along its length.
    """
    if "straight" in joints:
        return _straightened(stretches)
    if "fanned" in joints:
        return _fanned(stretches)
    made = [np.asarray(stretch) for stretch in stretches]
    for k, joint in enumerate(joints):
        if joint == "closed":
            middle = (made[k][:, -1, 3] + made[k + 1][:, 0, 0]) / 2
            made[k], made[k + 1] = reaching(made[k], middle), _reaching_back(made[k + 1], middle)
    bridges: list[Floats | None] = []
    for k, joint in enumerate(joints):
        if joint == "open":
            bridges.append(line(made[k][:, -1, 3], made[k + 1][:, 0, 0])[:, None])
        elif joint == "faired":
            made[k], over_gap, made[k + 1] = _faired(made[k], made[k + 1], over, k > 0, k + 2 < len(made))
            bridges.append(over_gap)
        else:
            bridges.append(None)
    parts = [made[0]]
    for bridge, stretch in zip(bridges, made[1:], strict=True):
        parts += [stretch] if bridge is None else [bridge, stretch]
    return np.concatenate(parts, axis=1)


def _fanned(stretches: Sequence[Floats]) -> Floats:
    """One curve from the first end to the last through the middle of each inner stretch, along the outer ones there."""
    first, *inner, last = stretches
    knots = [first[:, 0, 0], *(_middle(stretch) for stretch in inner), last[:, -1, 3]]
    ways = [end_directions(first)[0], *[None] * len(inner), end_directions(last)[1]]
    return hobby(np.stack(knots, axis=1), ways)


def _middle(path: Floats) -> Floats:
    return point_at(path, length(path) / 2)


def _straightened(stretches: Sequence[Floats]) -> Floats:
    """One straight line from the first stretch to the end of the last, in as many segments as they have."""
    whole = np.concatenate(stretches, axis=1)
    lengths = segment_lengths(whole)
    ends = np.cumsum(lengths, axis=-1) / np.maximum(lengths.sum(axis=-1), 1e-9)[:, None]
    starts = np.concatenate([np.zeros_like(ends[:, :1]), ends[:, :-1]], axis=1)
    first, way = whole[:, None, 0, 0], (whole[:, -1, 3] - whole[:, 0, 0])[:, None]
    return line(first + starts[..., None] * way, first + ends[..., None] * way)


def reaching(path: Floats, end: Floats) -> Floats:
    """The path with its end moved to `end` `(B, 2)`, all of it giving evenly along its length: straight stays so."""
    lengths = segment_lengths(path)
    whole = np.maximum(lengths.sum(axis=-1), 1e-9)
    before = (np.cumsum(lengths, axis=-1) - lengths) / whole[:, None]
    share = before[..., None] + lengths[..., None] / whole[:, None, None] * np.array([0, 1 / 3, 2 / 3, 1])
    return np.asarray(path + share[..., None] * (end - path[:, -1, 3])[:, None, None])


def _reaching_back(path: Floats, start: Floats) -> Floats:
    return reverse(reaching(reverse(path), start))


def _faired(before: Floats, behind: Floats, over: Floats, shared: bool, sharing: bool) -> tuple[Floats, Floats, Floats]:
    """Both stretches cut back and the smooth line between them; half of a stretch is left for its other joint."""
    long, other = length(before), length(behind)
    back = np.minimum(over, long / (2 if shared else 1))
    ahead = np.minimum(over, other / (2 if sharing else 1))
    first, last = long - back, ahead
    knots = np.stack([point_at(before, first), point_at(behind, last)], axis=1)
    bridge = hobby(knots, [tangent_at(before, first), tangent_at(behind, last)])
    return part_along(before, np.zeros_like(first), first), bridge, part_along(behind, last, other)
