"""Where a form's points and levels lie as cloth meets them: from the nape, with the tape down its front and back."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.form.dress_form import ROW, Form
from draft.form.going_down import tape_down
from draft.form.stature_levels import LEVELS


@dataclass(frozen=True, eq=False)
class TapeDown:
    """A taut tape from the shoulder down a form: heights from the nape `(n,)`, falling, and its length to each."""

    heights: Floats
    long: Floats

    def height(self, long: Floats) -> Floats:
        """How high places lie that are so far down the tape, mm from the nape `(n,)`."""
        return np.asarray(np.interp(long, self.long, self.heights))


@dataclass(frozen=True, eq=False)
class Landmarks:
    """Points `(3,)` in mm on the left, z from the nape, and the heights of the levels from there, by name.

    `front` and `back` are tapes from the side neck point; others start as far aside as they are asked to.
    """

    nape: Floats
    side_neck: Floats
    shoulder: Floats
    levels: Mapping[str, float]
    girths: Mapping[str, float]
    """What the tape reads at the levels, mm."""
    front: TapeDown
    back: TapeDown


def landmarks_of(form: Form, body: int) -> Landmarks:
    """The landmarks of one body."""
    nape, at = float(form.heights.nape[body]), form.heights
    levels = {name: float(at.of(name)[body]) - nape for name in LEVELS}
    neck = form.halves[body, ROW["side_neck"]]
    tip = form.halves[body, ROW["shoulder"]]
    ridge = float(tip[int(np.argmax(tip[:, 0])), 1])
    return Landmarks(
        np.array([0.0, float(neck[-1, 1]), 0.0]),
        np.array([float(at.neck[body]), float((neck[0, 1] + neck[-1, 1]) / 2), levels["side_neck"]]),
        np.array([float(at.tip[body]), ridge, levels["shoulder"]]),
        levels,
        {name: float(form.girth(name)[body]) for name in ("hip", "top_hip", "waist", "under_bust", "bust", "neck")},
        tape_from(form, body, float(at.neck[body]), to_back=False),
        tape_from(form, body, float(at.neck[body]), to_back=True),
    )


def tape_from(form: Form, body: int, aside: float, to_back: bool) -> TapeDown:
    """The tape down one body's front or back from the shoulder's line, so far from the middle."""
    heights, long = tape_down(form, body, aside, to_back)
    return TapeDown(heights - float(form.heights.nape[body]), long)
