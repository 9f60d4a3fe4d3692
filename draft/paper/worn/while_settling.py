"""The cloth on its form while it still settles, from in front: quickly drawn, without scales, for who waits."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.form.dress_form import Form
from draft.form.field import field_of
from draft.form.skin import Surface, surface_of
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Drawing, Item, Layer, Path, Stroke
from draft.paper.drawing.svg import svg
from draft.paper.worn.level_rings import cover, level_rings, smoothed
from draft.paper.worn.nearest_seen import Body, Frame, nearest_seen
from draft.paper.worn.worn_colours import CLOTH, FORM, OUTLINE, SKIN_LINE, darker
from draft.sitting.worn import mirrored
from draft.toile.sewn import Sewn

_CELL, _SCALE = 6.0, 0.1
_STEP = 14.0
"""mm of the form's own triangles, coarse: it is only looked at."""
_ROOM, _LIFT, _BEFORE = 90.0, 9.0, 600.0


class WhileSettling:
    """Draws the cloth as often as it is told where it lies; the form's surface is made once."""

    def __init__(self, arms: float) -> None:
        self._arms = arms
        self._skin: Surface | None = None

    def drawn(self, sewn: Sewn, positions: Floats, form: Form, grows: bool = False) -> str:
        """The drawing as SVG of cloth at positions `(v, 3)`; while the form still `grows` it lies before that."""
        if self._skin is None:
            self._skin = surface_of(field_of(form, 0, self._arms, _STEP))
        points, triangles = mirrored(positions, sewn.merged[sewn.triangles])
        skin, faces = mirrored(self._skin.points, self._skin.triangles)
        wide = float(np.abs(positions[:, 0]).max()) + _ROOM / 2
        frame = Frame(-wide, wide, float(positions[:, 2].min()) - _ROOM, 105.0, _CELL)
        bodies = [
            Body(skin, faces, skin[:, 2:]),
            Body(points, triangles, points[:, 2:], lift=_BEFORE if grows else 9.0),
        ]
        seen = nearest_seen(bodies, "front", frame)
        items: list[Item] = []
        every, cloth = cover(seen.which >= 0), cover(seen.shows(1))
        light = smoothed(seen.light, seen.shows(1), 2)
        for figure, colour in ((every, FORM[2]), (cloth, CLOTH), (np.minimum(cloth, 0.5 - light), darker(CLOTH, 0.9))):
            items += _filled(figure, frame, colour)
        items += [*_outlined(every, frame, SKIN_LINE), *_outlined(cloth, frame, OUTLINE)]
        size = ((frame.right - frame.left) * _SCALE, (frame.high - frame.low) * _SCALE)
        return svg(Drawing("", *size, (Layer("settling", tuple(items)),)))


def _rings(figure: Floats, frame: Frame) -> tuple[Floats, ...]:
    found = (frame.out(ring) for ring in level_rings(figure))
    corner = np.array([frame.left, frame.high])
    return tuple(lines_through((ring - corner) * [_SCALE, -_SCALE], closed=True) for ring in found)


def _filled(figure: Floats, frame: Frame, colour: str) -> list[Item]:
    rings = _rings(figure, frame)
    return [Path(rings, fill=colour, closed=True)] if rings else []


def _outlined(figure: Floats, frame: Frame, stroke: Stroke) -> list[Item]:
    rings = _rings(figure, frame)
    return [Path(rings, stroke, closed=True)] if rings else []
