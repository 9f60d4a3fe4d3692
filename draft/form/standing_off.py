"""How far a point really lies from a form: to the nearest place of its surface, which a first-order distance misses."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.form.field import Field
from draft.form.skin import Surface, surface_of

_AT_ONCE = 400
_ROUNDS = 3


def stands_off(field: Field, points: Floats, surface: Surface | None = None) -> Floats:
    """The distance of points `(n, 3)` of either half from the form, mm `(n,)`; negative within it."""
    surface = surface if surface is not None else surface_of(field)
    left = np.abs(points) * [1, 0, 0] + points * [0, 1, 1]
    foot = surface.points[_nearest(left, surface.points)]
    best = np.linalg.norm(left - foot, axis=1)
    for _ in range(_ROUNDS):
        foot = _nearer(field, left, foot)
        best = np.minimum(best, np.linalg.norm(left - foot, axis=1))
    return np.asarray(np.where(field.at(left)[0] < 0, -best, best))


def _nearest(points: Floats, of: Floats) -> Ints:
    """Which of the others is nearest to each point."""
    squares = (of**2).sum(axis=1) / 2
    found = [(squares - points[k : k + _AT_ONCE] @ of.T).argmin(axis=1) for k in range(0, len(points), _AT_ONCE)]
    return np.concatenate(found) if found else np.zeros(0, dtype=np.intp)


def _nearer(field: Field, points: Floats, foot: Floats) -> Floats:
    """The foot of a point's plumb line on the plane that touches the surface at its last foot, laid on the surface."""
    _, slope = field.at(foot)
    normal = slope / np.maximum(np.linalg.norm(slope, axis=1), 1e-9)[:, None]
    aside = points - foot
    aside = aside - (aside * normal).sum(axis=1)[:, None] * normal
    long = np.linalg.norm(aside, axis=1)[:, None]
    moved = foot + aside * np.minimum(1.0, field.step / np.maximum(long, 1e-9))
    values, slope = field.at(moved)
    steep = np.maximum((slope**2).sum(axis=1), 0.2)
    return np.asarray(moved - (values / steep)[:, None] * slope)
