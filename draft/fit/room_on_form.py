"""How much room a garment leaves round a form of the body, level by level, without any simulation.

A level of the garment lies on the form where a tape comes to that is as long as the garment is from where it hangs,
down the front and down the back: halfway between both. Its girth there is that of its pieces; the body's is the
form's tape. It says nothing of shoulders and arms, and a girth alone does not tell whether front or back is tighter.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.fit.hanging import Half, Hanging, hanging
from draft.form.dress_form import Form
from draft.form.going_down import girths_at, tape_down
from draft.garment.garment import Garment

LEVELS = 50
_WITHIN = 2.0  # mm above the lower end of the sides, where front and back are whole


@dataclass(frozen=True, eq=False)
class Room:
    """A garment's levels on one form, from below: heights above the floor and girths, mm `(levels,)` each."""

    heights: Floats
    garment: Floats
    body: Floats

    @property
    def ease(self) -> Floats:
        """By how much the garment is larger, mm `(levels,)`."""
        return self.garment - self.body

    @property
    def strain(self) -> Floats:
        """By which share the cloth is stretched round the body, `(levels,)`; nothing where there is room."""
        return np.maximum(self.body / self.garment - 1.0, 0.0)

    @property
    def stands_off(self) -> Floats:
        """How far the cloth would stand off, evenly all round, mm `(levels,)`."""
        return np.maximum(self.ease, 0.0) / (2 * np.pi)


def room_on_form(garment: Garment, form: Form, body: int, levels: int = LEVELS) -> Room | None:
    """The room at so many levels; None where it cannot be told how the garment hangs."""
    found = hanging(garment, body)
    if found is None:
        return None
    above = np.linspace(_WITHIN, found.up_to, levels)
    heights = np.mean([_heights(found, half, form, body, above) for half in found.halves], axis=0)
    return Room(heights, found.girths(above), girths_at(form, body, heights))


def _heights(found: Hanging, half: Half, form: Form, body: int, above: Floats) -> Floats:
    """Where levels above the side's lower end come to lie, mm `(n,)`, by the tape over one half."""
    below = half.top[1] - (half.side[0, 1] + above)
    if found.hung_from == "waist":
        return np.asarray(form.heights.of("waist")[body] - below)
    heights, long = tape_down(form, body, float(half.top[0]), to_back=half is found.back)
    return np.asarray(np.interp(below, long, heights))
