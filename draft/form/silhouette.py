"""A form as it is seen from in front and from the side: outlines and level lines on paper, x right and y up, mm."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

import numpy as np

from draft.base.arrays import Floats
from draft.form.dress_form import ROW, Form
from draft.form.tubes import Tube

View = Literal["front", "side"]
"""From the side is from the form's left: its front lies to the left of the picture."""

_TURNED = np.linspace(0.0, 2 * np.pi, 33)[:-1]
_SOFT = 18.0
"""mm of the roundness into which trunk and limbs run together."""


def extents(form: Form, body: int, view: View) -> Floats:
    """How far each row reaches to the left and to the right on paper, `(rows, 2)`."""
    half = form.halves[body]
    if view == "front":
        broad = half[..., 0].max(axis=-1)
        return np.stack([-broad, broad], axis=1)
    return np.stack([half[..., 1].min(axis=-1), half[..., 1].max(axis=-1)], axis=1)


def trunk(form: Form, body: int, view: View) -> Floats:
    """The ring `(n, 2)` of the trunk from crotch to neck."""
    return between(extents(form, body, view), form.rows[body])


def between(reaches: Floats, heights: Floats) -> Floats:
    """The ring `(2 rows, 2)` of what reaches from the first to the second of `(rows, 2)` at each height `(rows,)`."""
    left, right = (np.stack([reaches[:, k], heights], axis=1) for k in range(2))
    return np.concatenate([right, left[::-1]])


def limbs(tube: Tube, body: int, view: View, down: float, upto: int | None = None) -> list[Floats]:
    """The rings `(n, 2)` of a limb, and from in front of its mirror image, held so far below level, up to a place."""
    middles, radii = tube.placed(body, down)[:upto], tube.radii[body][:upto]
    ring = _hulls(middles[:, [0, 2]] if view == "front" else middles[:, [1, 2]], radii)
    return [ring, ring * np.array([-1.0, 1.0])] if view == "front" else [ring]


def _hulls(middles: Floats, radii: Floats) -> Floats:
    """Circles hung on a line, each run together with the next; straight across where the last ends."""
    import shapely

    ring = np.stack([np.cos(_TURNED), np.sin(_TURNED)], axis=1)
    discs = shapely.polygons(middles[:, None] + radii[:, None, None] * ring)
    pairs = [shapely.union(a, b).convex_hull for a, b in pairwise(discs)]
    return np.asarray(shapely.union_all(pairs).exterior.coords)[:-1]


def together(rings: Sequence[Floats]) -> list[Floats]:
    """The rings `(n, 2)` of all that is seen, run softly into one another where they meet."""
    import shapely

    union = shapely.union_all([shapely.polygons(ring).buffer(0) for ring in rings])
    soft = union.buffer(_SOFT).buffer(-_SOFT)
    parts = soft.geoms if soft.geom_type == "MultiPolygon" else [soft]
    return [np.asarray(part.exterior.coords)[:-1] for part in parts]


def level_line(form: Form, body: int, level: str, view: View, lift: float = 0.08) -> Floats:
    """The near half of a level's ring, seen a little from above, `(n, 2)` from left to right."""
    half, height = form.halves[body, ROW[level]], form.rows[body, ROW[level]]
    if view == "side":
        seen = half[int(np.argmin(half[:, 1])) :]
        return np.stack([seen[:, 1], height - lift * seen[:, 0]], axis=1)
    front = half[: int(np.argmax(half[:, 0])) + 1]
    near = np.stack([front[:, 0], height + lift * (front[:, 1] - front[-1, 1])], axis=1)
    return np.concatenate([near[::-1] * np.array([-1.0, 1.0]), near[1:]])
