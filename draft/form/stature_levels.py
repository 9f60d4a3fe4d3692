"""At which heights the levels of a form lie: from the nape down by what was measured, and up over the shoulders."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.form.measured import Measured
from draft.form.proportions import HOLLOW

LEVELS = (
    *("crotch", "hip", "top_hip", "waist", "under_bust", "bust", "armpit", "chest", "under_shoulder", "shoulder"),
    *("collar", "side_neck", "throat", "neck"),
)
"""From below, as they stand in every array of levels."""

SIDE_NECK = -3.0
"""mm by which the side neck lies above the nape: patterns have it 2 cm higher, but tapes from there over bust and back
to the waist then come out 4 and 7 cm longer than the patterns' own; so, the back's is within 1 cm, the front's 3."""
BALANCE = 25.0
"""mm by which an erect or a stooping back may move that, where the front's length tells."""
_FOOT = 1.02 / (2 * np.pi)
"""Half the breadth of the neck's foot, of its girth: with it the shoulder points of surveyed women lie where the survey
has them, within a centimetre. Blocks draw their necks a centimetre wider."""
_APART = 8.0
_LEAST_UNDER_BUST, _UNDER_BUST = 55.0, 0.30  # mm, and of the way from bust to waist
_ROUND, _LOWEST = 0.95, 0.7  # of how far the bust stands out; at most, of the way from bust to waist
_SEAT = 50.0  # mm from the fullest of the seat down to where the legs part, at least
_CHEST = 0.45  # of the way from armpit to shoulder
_TIP = 35.0  # mm below the shoulder point in which arm and shoulder run together


@dataclass(frozen=True)
class Heights:
    """Heights of the levels above the floor, and how far the back lies in there, mm `(bodies, levels)` each.

    `neck` and `tip` are half the breadth at the side neck points and at the shoulder points, `(bodies,)`.
    """

    levels: Floats
    back: Floats
    neck: Floats
    tip: Floats
    nape: Floats

    def of(self, name: str) -> Floats:
        """The height of a level `(bodies,)`."""
        return np.asarray(self.levels[:, LEVELS.index(name)])


def heights(m: Measured, forward: Floats) -> Heights:
    """The levels of bodies; the tape down the back from nape to waist reads what was measured.

    A bust that stands out farther, mm `(bodies,)`, also reaches farther down.
    """
    back, bust, armpit = _back(m), -m["bust_depth"], -m["armpit_depth"]
    neck = _FOOT * m["neck_base_girth"]
    tip = neck + m["shoulder_length"] * np.cos(m["shoulder_slope"])
    waist = _waist_below_nape(m, back, armpit)
    side_neck = np.full(len(m), SIDE_NECK) + m.off.get("side_neck", 0.0)
    point = side_neck - m["shoulder_length"] * np.sin(m["shoulder_slope"])
    reach = np.maximum(np.maximum(_LEAST_UNDER_BUST, _UNDER_BUST * (bust - waist)), _ROUND * forward)
    under = bust - np.minimum(reach, _LOWEST * (bust - waist))
    hip = waist - m["hip_depth"]
    nape = _nape(m, waist)
    crotch = np.minimum(m["inside_leg_length"] - nape, hip - _SEAT)
    below = (crotch, hip, (hip + waist) / 2, waist, under, bust, armpit)
    above = (
        *(armpit + _CHEST * (point - _TIP - armpit), point - _TIP, point, (point + side_neck) / 2, side_neck),
        *(side_neck + 18.0, side_neck + 75.0),
    )
    return Heights(nape[:, None] + rising(np.stack((*below, *above), axis=1)), back, neck, tip, nape)


def rising(levels: Floats) -> Floats:
    """Levels `(bodies, levels)` of odd bodies may not cross: the higher one gives way."""
    room = _APART * np.arange(levels.shape[1])
    return np.asarray(np.maximum.accumulate(levels - room, axis=1) + room)


def _back(m: Measured) -> Floats:
    """How far the middle of the back lies behind a plumb line on seat and shoulder blades, mm `(bodies, levels)`.

    Backs of bodies that are full in front are less hollow (from memory).
    """
    full = np.clip(((m["waist_girth"] + 75.0) / m["hip_girth"] - 0.84) * 120.0, -6.0, 24.0)
    hollow = HOLLOW - full + m.off.get("hollow", 0.0)
    at: dict[str, float | Floats] = {
        "crotch": -12.0,
        "top_hip": -0.5 * hollow,
        "waist": -hollow,
        "under_bust": -0.5 * hollow,
        "bust": -4.0,
    }
    at |= {"chest": -7.0, "under_shoulder": -17.0, "shoulder": -31.0, "collar": -37.0, "side_neck": -45.0}
    at |= {"throat": -49.0, "neck": -66.0}
    return np.stack([np.broadcast_to(at.get(name, 0.0), (len(m),)) for name in LEVELS], axis=1)


def _waist_below_nape(m: Measured, back: Floats, armpit: Floats) -> Floats:
    """Where the tape down the back comes to the waist: over the shoulder blades, then straight into the hollow."""
    out = back[:, LEVELS.index("side_neck")], back[:, LEVELS.index("armpit")], back[:, LEVELS.index("waist")]
    upper = np.hypot(armpit, out[1] - out[0])
    lower = np.maximum(m["back_waist_length"] - upper, 40.0)
    return np.asarray(armpit - np.sqrt(np.maximum(lower**2 - (out[1] - out[2]) ** 2, 1.0)))


def _nape(m: Measured, waist: Floats) -> Floats:
    """The nape's height: over a waist whose height was measured, or as the stature tells."""
    told = m.told("nape_height")
    if "waist_height" not in m.values:
        return told
    return np.where(m.was_taken("waist_height"), m["waist_height"] - waist, told)
