"""A garment that nobody has sewn: a form's own trunk, wider by so much at each height, as if it were worn."""

from __future__ import annotations

import numpy as np

from draft.form.field import field_of
from draft.form.landmarks import landmarks_of
from draft.form.skin import surface_of
from draft.sitting.worn import Worn, mirrored
from tests.form.made_up import form


def worn(**measures: float) -> Worn:
    """A top that is stretched over the hip and stands off at the waist."""
    found = form(**measures)
    field, marks = field_of(found, 0, np.radians(50.0)), landmarks_of(found, 0)
    skin = surface_of(field)
    low, high = marks.levels["hip"] - 20.0, marks.levels["collar"]
    z = skin.points[:, 2]
    out = skin.points[:, 0] > 330.0
    inside = ((z > low) & (z < high) & ~out)[skin.triangles].all(axis=1)
    used = np.unique(skin.triangles[inside])
    number = np.full(len(z), -1)
    number[used] = np.arange(len(used))
    waist, hip = (np.exp(-(((z - marks.levels[name]) / 90.0) ** 2)) for name in ("waist", "hip"))
    off = 4.0 + 60.0 * waist * (skin.points[:, 1] > -100) + 25.0 * waist
    points = (skin.points + off[:, None] * skin.normals * [1, 1, 0])[used]
    points, triangles = mirrored(points, number[skin.triangles[inside]])
    twice = lambda values: np.concatenate([values[used], values[used]])  # noqa: E731
    doubt = (np.hypot(*(skin.points - field.joint).T[[0, 2]]) < 50.0).astype(float)
    side = np.array([[abs(points[:, 0]).max(), -110.0, h] for h in np.linspace(low + 10, -260.0, 20)])
    drags = np.array([[[x, -230.0, marks.levels["hip"] + k], [x + 35.0, -225.0, marks.levels["hip"] + k + 12.0]]
                      for x in (40.0, 90.0) for k in (-20.0, 20.0, 60.0)])  # fmt: skip
    trunk = field_of(found, 0, np.radians(50.0), armless=True)
    bare = surface_of(trunk)
    around = (*mirrored(skin.points, skin.triangles), *mirrored(bare.points, bare.triangles), trunk)
    figures = (twice(0.17 * hip), twice(off), twice(doubt))
    hem = {"front": low + 24, "side": low + 8, "back": low}
    return Worn(points, triangles, *figures, drags, (side,), (), *around, marks.levels, hem)
