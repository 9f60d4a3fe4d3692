"""Where the tape goes, for each measure: lines on the neutral figure, to be drawn small beside the words.

Points are those of the figure, x to its left and right of the middle. A girth is given by the two places where the
tape goes round out of sight; a length by the places that it passes.
"""

from __future__ import annotations

from typing import Literal

from draft.base.record import dataclass
from draft.bodies.figure import Points


@dataclass(frozen=True)
class Tape:
    """One measure on the figure.

    `girth` draws the near half of a loop between the two ends of `line`, and the far half behind it. `window` is the
    part of the figure that is shown: left, top, right, bottom. `aids` are what helps to take it: a strip, a level.
    """

    line: Points
    girth: bool = False
    view: Literal["front", "back"] = "front"
    window: tuple[float, float, float, float] = (-32, -4, 32, 100)
    aids: tuple[Points, ...] = ()


_WHOLE = (-40.0, -4.0, 40.0, 164.0)
_HEAD = (-24.0, -4.0, 24.0, 50.0)
_LEG = (-28.0, 58.0, 28.0, 164.0)
_ARM = (-6.0, 26.0, 34.0, 100.0)


def _round(y: float, half: float, view: Literal["front", "back"] = "front") -> Tape:
    return Tape(((-half, y), (half, y)), girth=True, view=view)


def _leg(left: tuple[float, float], right: tuple[float, float]) -> Tape:
    return Tape((left, right), girth=True, window=_LEG)


def _arm(left: tuple[float, float], right: tuple[float, float]) -> Tape:
    return Tape((left, right), girth=True, window=_ARM)


_WAIST_AND_HIP = (((-11.3, 65), (11.3, 65)), ((-16.6, 84), (16.6, 84)))

TAPES: dict[str, Tape] = {
    "stature": Tape(((30, 0), (30, 160)), window=_WHOLE, aids=(((-8, 0), (34, 0)), ((-20, 160), (34, 160)))),
    "head_girth": Tape(((-6.9, 7.4), (6.9, 7.4)), girth=True, window=_HEAD),
    "neck_girth": Tape(((-3.9, 22.3), (3.9, 22.3)), girth=True, window=_HEAD),
    "neck_base_girth": Tape(((-4.9, 26), (4.9, 26)), girth=True, window=_HEAD),
    "shoulder_length": Tape(((4.9, 26), (10, 28.6), (15.6, 31)), window=_HEAD),
    "shoulder_slope": Tape(((4.9, 26), (15.6, 31)), window=_HEAD, aids=(((4.9, 26), (21, 26)),)),
    "across_back_shoulder_width": Tape(((-15.6, 31), (0, 29.4), (15.6, 31)), view="back", window=_HEAD),
    "shoulder_girth": _round(37, 18.7),
    "back_neck_point_to_wrist": Tape(
        ((0, 26), (8, 28), (15.6, 31), (18.8, 38), (21.6, 59), (24, 68), (25.6, 81)), view="back"
    ),
    "high_bust_girth": _round(42.3, 14.8),
    "bust_girth": _round(48, 15.2),
    "under_bust_girth": _round(53, 14.6),
    "armpit_depth": Tape(((0, 26), (0, 42.5)), view="back", aids=(((-24, 42.5), (24, 42.5)),)),
    "bust_depth": Tape(((0, 26), (0, 48)), aids=(((-6, 26), (6, 26)), ((-12, 48), (12, 48)))),
    "back_waist_length": Tape(((0, 26), (0, 65)), view="back", aids=(((-11.3, 65), (11.3, 65)),)),
    "neck_to_bust_point": Tape(((4.9, 26), (6.2, 38), (6.4, 48))),
    "bust_point_distance": Tape(((-6.4, 48), (6.4, 48))),
    "front_waist_length": Tape(((4.9, 26), (6.4, 48), (5.8, 65)), aids=(((-11.3, 65), (11.3, 65)),)),
    "across_front_width": Tape(((-13.6, 38), (13.6, 38))),
    "across_back_width": Tape(((-14.4, 40), (0, 39.4), (14.4, 40)), view="back"),
    "waist_girth": _round(65, 11.3),
    "front_waist_width": Tape(((-11.3, 65), (0, 65.8), (11.3, 65))),
    "hip_depth": Tape(
        ((11.3, 65), (13.6, 73), (16.6, 84)), aids=(((-11.3, 65), (11.3, 65)), ((-16.6, 84), (16.6, 84)))
    ),
    "front_hip_depth": Tape(((0, 65), (0, 84)), aids=_WAIST_AND_HIP),
    "back_hip_depth": Tape(((0, 65), (0, 84)), view="back", aids=_WAIST_AND_HIP),
    "top_hip_girth": _round(72, 13.3),
    "hip_girth": _round(84, 16.6),
    "front_hip_width": Tape(((-16.6, 84), (0, 84.8), (16.6, 84))),
    "crotch_depth": Tape(((15, 65), (15, 91)), window=_LEG, aids=(((-11.3, 65), (17, 65)), ((-4, 91), (17, 91)))),
    "crotch_length": Tape(((0, 65), (0, 78), (0, 91)), window=_LEG, aids=(((-11.3, 65), (11.3, 65)),)),
    "trunk_girth": Tape(((10, 28.6), (7, 48), (4, 70), (0, 91)), window=(-32, 18, 32, 100)),
    "waist_height": Tape(((15, 65), (15, 160)), window=_LEG, aids=(((-11.3, 65), (17, 65)), ((-12, 160), (17, 160)))),
    "inside_leg_length": Tape(((0, 91), (0, 160)), window=_LEG, aids=(((-12, 160), (12, 160)),)),
    "knee_height": Tape(((15, 126), (15, 160)), window=_LEG, aids=(((4, 126), (17, 126)), ((-12, 160), (17, 160)))),
    "thigh_girth": _leg((2.8, 95), (16.4, 95)),
    "knee_girth": _leg((4.2, 126), (11.6, 126)),
    "calf_girth": _leg((4.2, 131), (11.9, 131)),
    "ankle_girth": _leg((4.9, 150.5), (8.4, 150.5)),
    "heel_girth": _leg((4.6, 156.5), (9.2, 156.5)),
    "upper_arm_girth": _arm((15.1, 45), (19.6, 44)),
    "elbow_girth": _arm((17.9, 61), (22.1, 60)),
    "forearm_girth": _arm((19.4, 67.5), (24, 66.5)),
    "wrist_girth": _arm((22.3, 81.4), (25.7, 80.6)),
    "hand_girth": _arm((23.1, 89), (27.4, 88)),
    "outer_arm_length": Tape(((15.6, 31), (18.8, 38), (19.9, 47), (21.6, 59), (24, 68), (25.6, 81))),
}
