"""The levels that are measured on a garment, on the form where nothing is known between them: of a trunk or of a leg.

A pale block on either side is as wide as the cloth would stand off there; a stroke across says that it is stretched.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.form.dress_form import Form
from draft.form.going_down import reaches
from draft.form.silhouette import View
from draft.form.stature_levels import LEVELS
from draft.paper.drawing.drawing import Item, Path, Stroke, rectangle
from draft.paper.pictures.form_views import ROOM, Placed, across_form

LEGS = ("thigh", "knee", "calf", "ankle")
"""In the order of the leg's places."""
_RIM = Stroke(0.25, colour="#1d2b3a")
_HIGH = 3.0


def height_on_form(form: Form, body: int, name: str) -> float | None:
    """How high a level of the trunk or a leg lies above the floor, mm; None for one of an arm, or an unknown one."""
    if name in LEVELS:
        return float(form.heights.of(name)[body])
    return float(form.leg.placed(body)[LEGS.index(name), 2]) if name in LEGS else None


def mark_items(form: Form, body: int, view: View, at: Placed, name: str, girths: tuple[float, float]) -> list[Item]:
    """One level in one view: `girths` are the body's, and the garment's as far as its cloth goes unstretched, mm."""
    height = height_on_form(form, body, name)
    if height is None:
        return []
    body_girth, garment = girths
    off = max(garment - body_girth, 0.0) / (2 * np.pi)
    items: list[Item] = []
    for left, right in _spans(form, body, view, name, height):
        if garment < body_girth:
            items.append(across_form(at, left, right, height, body_girth / garment - 1.0))
        else:
            items += [_block(at, left - off, left, height), _block(at, right, right + off, height)]
    return items


def _spans(form: Form, body: int, view: View, name: str, height: float) -> list[tuple[float, float]]:
    """From where to where the trunk reaches, or each leg, mm of the body."""
    if name in LEVELS:
        left, right = reaches(form, body, np.array([height]), view)[0].tolist()
        return [(left, right)]
    place = LEGS.index(name)
    middle: Floats = form.leg.placed(body)[place]
    radius = float(form.leg.radii[body, place])
    if view == "side":
        return [(float(middle[1]) - radius, float(middle[1]) + radius)]
    inner, outer = float(middle[0]) - radius, float(middle[0]) + radius
    return [(inner, outer), (-outer, -inner)]


def _block(at: Placed, left: float, right: float, height: float) -> Path:
    x, y = at.middle + at.scale * left, at.up(height) - _HIGH / 2
    return Path((rectangle(x, y, max(at.scale * (right - left), 0.05), _HIGH),), _RIM, ROOM, closed=True)
