"""A form in grey from in front and from the side, and a garment round it to scale: pale where there is room.

How tight it is lies in the weight of strokes across the form, and how loose in the width of the pale rim: both are told
without colour.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.fit.room_on_form import Room
from draft.form.dress_form import Form
from draft.form.going_down import reaches
from draft.form.silhouette import View, between, level_line, limbs, together, trunk
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Item, Path, Stroke

FORM, LEGS, ROOM, TIGHT = "#c4c4c4", "#e2e2e2", "#dbe6f2", "#6b1f0a"
OUTLINE = Stroke(0.35, colour="#1d2b3a")
LEVEL = Stroke(0.18, colour="#5c5c5c")
ARMS_DOWN = np.radians(76.0)
_TO_ELBOW = 3
_LIGHT, _HEAVIEST = 0.22, 1.0  # mm of a stroke
_HEAVIER = 7.0  # mm more for each share of itself that the cloth is stretched by
_SHOWN = ("bust", "waist", "hip")


@dataclass(frozen=True)
class Placed:
    """Where a view stands on paper: its middle, the floor's line, and mm of paper to mm of the body."""

    middle: float
    floor: float
    scale: float

    def points(self, points: Floats) -> Floats:
        """Points `(n, 2)` of a view, x right and y up, on paper."""
        return np.asarray(points * np.array([self.scale, -self.scale]) + np.array([self.middle, self.floor]))

    def up(self, height: float) -> float:
        """Where a height lies on paper."""
        return self.floor - self.scale * height


def view_items(form: Form, body: int, view: View, at: Placed, room: Room | None, lowest: float) -> list[Item]:
    """One view: legs as far as they are needed, down to a height; form; garment."""
    items: list[Item] = [*_legs(form, body, view, at, lowest)]
    garment = _garment(form, body, view, room) if room is not None else None
    if garment is not None:
        items.append(_ring(at, garment, fill=ROOM))
        items += _legs(form, body, view, at, max(lowest, float(garment[:, 1].min())))
    items += [_ring(at, ring, fill=FORM) for ring in together(_rings(form, body, view))]
    items += [_line(at, level_line(form, body, level, view), LEVEL) for level in _SHOWN]
    if room is not None and garment is not None:
        items += [*_strokes(form, body, view, at, room), _ring(at, garment, stroke=OUTLINE)]
    return items


def broadest(form: Form, body: int, view: View, room: Room | None) -> tuple[float, float]:
    """How far a view reaches to the left and to the right, mm of the body."""
    rings = [*_rings(form, body, view), *([_garment(form, body, view, room)] if room is not None else [])]
    return min(float(ring[:, 0].min()) for ring in rings), max(float(ring[:, 0].max()) for ring in rings)


def _rings(form: Form, body: int, view: View) -> list[Floats]:
    arms = limbs(form.arm, body, view, ARMS_DOWN, _TO_ELBOW) if view == "front" else []
    return [trunk(form, body, view), *arms]


def _legs(form: Form, body: int, view: View, at: Placed, lowest: float) -> list[Item]:
    """The legs down to a height; nothing where the trunk reaches as far."""
    import shapely

    if lowest >= form.rows[body, 0]:
        return []
    legs = shapely.union_all([shapely.polygons(ring) for ring in limbs(form.leg, body, view, np.pi / 2)])
    seen = shapely.clip_by_rect(legs, -2000.0, lowest, 2000.0, float(form.rows[body, 0]) + 20.0)
    parts = [part for part in getattr(seen, "geoms", [seen]) if part.geom_type == "Polygon" and not part.is_empty]
    return [_ring(at, np.asarray(part.exterior.coords)[:-1], fill=LEGS) for part in parts]


def _garment(form: Form, body: int, view: View, room: Room) -> Floats:
    """The garment's ring: as far from the form, evenly all round, as its girth says."""
    off = room.stands_off[:, None] * np.array([-1.0, 1.0])
    return between(reaches(form, body, room.heights, view) + off, room.heights)


def _strokes(form: Form, body: int, view: View, at: Placed, room: Room) -> list[Item]:
    """Across the form where the cloth is stretched, the heavier the more."""
    there = reaches(form, body, room.heights, view)
    return [
        across_form(at, float(there[k, 0]), float(there[k, 1]), float(room.heights[k]), float(room.strain[k]))
        for k in np.flatnonzero(room.strain > 0)
    ]


def across_form(at: Placed, left: float, right: float, height: float, strain: float) -> Path:
    """A stroke across the form from one place to another, mm of the body, as heavy as the cloth is stretched."""
    line = np.array([[left, height], [right, height]])
    return _line(at, line, Stroke(min(_LIGHT + _HEAVIER * strain, _HEAVIEST), colour=TIGHT))


def _ring(at: Placed, ring: Floats, fill: str = "", stroke: Stroke | None = None) -> Path:
    return Path((lines_through(at.points(ring), closed=True),), stroke, fill, closed=True)


def _line(at: Placed, points: Floats, stroke: Stroke) -> Path:
    return Path((lines_through(at.points(points)),), stroke)
