"""Room and tightness in a sewist's words: by how much, what the cloth does there, and what a girth cannot tell."""

from __future__ import annotations

import numpy as np

from draft.base.naming import plain
from draft.base.record import dataclass
from draft.base.units import in_centimetres
from draft.fabrics.properties import percent
from draft.fit.levels import closeness, levels, over
from draft.fit.room_on_form import Room
from draft.fit.stretch import NeededStretch, needed_stretches
from draft.form.dress_form import Form
from draft.form.stature_levels import LEVELS
from draft.garment.garment import Finished, Garment

NOT_YOU = "A form of your measures, not you."
FRONT_AND_BACK = (
    "Round the bust, front and back share one girth: whether the front is tighter than the back, it does not tell."
)
_LITTLE = 20.0  # mm of room: as true as cloth and tape are
_AWAY = 30.0  # mm from a level of the body that a garment's is no other level
_FREE = 60.0  # mm of room above a tight place in which cloth that slides up lies in folds
_NEAR = 250.0  # mm above it


@dataclass(frozen=True)
class _Worn:
    """A level of one body: mm of ease and of the body, and how far the cloth is stretched of what it gives."""

    finished: Finished
    ease: float
    body: float
    need: NeededStretch | None
    at: int

    def sentence(self) -> str:
        name = plain(self.finished.name)
        if self.ease >= 0 or self.need is None:
            return f"{name}: {in_centimetres(self.ease)} of room, {_loose(self.ease, self.body)}"
        share, gives, most = (float(values[self.at]) for values in (self.need.share, self.need.given, self.need.limit))
        less = in_centimetres(-self.ease)
        if self.finished.flat is not None:
            cloth = f"stretched by {percent(share)}" if share > 0 else "not stretched"
            return f"{name}: {less} less than the body, drawn in by its elastic, and its cloth is {cloth}"
        if share > gives:
            gives_it = f"the cloth gives {percent(gives)}" if gives > 0 else "the cloth does not stretch"
            return f"{name}: {less} less than the body, and {gives_it}: it does not go round"
        stretched = f"{name}: {less} less than the body, stretched by {percent(share)} of the {percent(gives)} it gives"
        if share > most:
            return f"{stretched}: too tight to wear for long, it creases across and slides to where you are slimmer"
        return f"{stretched}: it clings"


def _loose(ease: float, body: float) -> str:
    how = closeness(ease, body)
    if how == "loose":
        return "loose: it hangs free"
    return "semi-fitted: it follows the body" if how == "semi-fitted" else "close fitting: it lies on the body"


def room_words(garment: Garment, body: int, form: Form | None, room: Room | None) -> list[str]:
    """What there is to say of one body, a sentence each; what lies between the measured levels where that is known."""
    needs = {need.where: need for need in needed_stretches(garment) if need.reason == "worn"}
    worn = [
        _Worn(one, float(one.values[body] - over(one)[body]), float(over(one)[body]), needs.get(plain(one.name)), body)
        for one in levels(garment)
    ]
    if form is None or room is None:
        said = [level.sentence() for level in worn]
    else:
        said = [_elsewhere(level, form, room) or level.sentence() for level in worn]
        said += _closest(form, room, body) + _folds(form, room, body)
    if any(level.finished.name == "bust" for level in worn):
        said.append(FRONT_AND_BACK)
    return said


def _elsewhere(level: _Worn, form: Form, room: Room) -> str:
    """What to say of a level where the form's lies on another of the garment than is measured for it."""
    name = level.finished.name
    if name not in _BODY:
        return ""
    height = float(form.heights.of(name)[level.at])
    ease = float(np.interp(height, room.heights, room.ease))
    if not room.heights[0] < height < room.heights[-1] or abs(ease - level.ease) <= _LITTLE:
        return ""
    measured = f"{name}: {_amount(level.ease)} where the pattern measures it"
    return f"{measured}; but the {name} of this form lies where the garment has {_amount(ease)}"


def _closest(form: Form, room: Room, body: int) -> list[str]:
    """Where it is closest, if that is at none of the body's levels and there is little room."""
    at = int(np.argmin(room.ease))
    ease, height = float(room.ease[at]), float(room.heights[at])
    off = height - form.heights.levels[body]
    if ease > _LITTLE or np.abs(off).min() < _AWAY:
        return []
    return [f"closest {_place(form, body, height)}: {_amount(ease)}"]


def _folds(form: Form, room: Room, body: int) -> list[str]:
    """What is caught on something wide slides up to where the body is slimmest, and lies in folds if there is room."""
    tight = int(np.argmax(room.strain))
    if room.strain[tight] <= 0.02 or room.heights[tight] > form.heights.of("waist")[body]:
        return []
    above = (room.heights > room.heights[tight]) & (room.heights < room.heights[tight] + _NEAR)
    if not above.any():
        return []
    slimmest = int(np.argmin(np.where(above, room.body, np.inf)))
    if room.ease[slimmest] < _FREE:
        return []
    fold = float(room.heights[slimmest])
    caught, folds = (_place(form, body, height) for height in (float(room.heights[tight]), fold))
    return [f"what is caught {caught} rides up and lies in folds {folds}"]


def _amount(ease: float) -> str:
    return f"{in_centimetres(abs(ease))} {'of room' if ease >= 0 else 'less than the body'}"


_BODY = ("hip", "waist", "under_bust", "bust", "armpit")


def _place(form: Form, body: int, height: float) -> str:
    """`at the hip`, `4 cm above the hip`."""
    known = {name: float(form.heights.levels[body, LEVELS.index(name)]) for name in _BODY}
    name = min(known, key=lambda one: abs(known[one] - height))
    off = height - known[name]
    where = f"the {plain(name)}"
    if abs(off) < _AWAY / 2:
        return f"at {where}"
    return f"{in_centimetres(abs(round(off, -1)))} {'above' if off > 0 else 'below'} {where}"
