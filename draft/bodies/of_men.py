"""What follows, in men, from chest, waist, hip and stature; the chest is called `bust_girth`, as in ISO 8559-1.

Regressions on 2,042 men, half of those of the US Army's anthropometric survey of 2012 (ANSUR II); the knee's is on the
247 men of G. Heinz, L. Peterson, R. Johnson, C. Kerk, "Exploring Relationships in Body Dimensions", Journal of
Statistics Education 11(2), 2003. Corrections are those of the women's rows, where nothing better is known.
"""

from __future__ import annotations

from draft.bodies.formula import Formula
from draft.bodies.of_women import EXTENDED, NAVEL_BELOW, RELAXED

LEARNED = {"bust_girth": (875, 1275), "waist_girth": (695, 1185), "hip_girth": (860, 1220), "stature": (1605, 1930)}
"""mm: the first to the 99th percentile of those men; the waist is the survey's less 3.1 cm, as the study's narrowest
waists are smaller than its navels."""

_HALF = "regression on 2,042 men (ANSUR II, 2012)"


def _half(start: float, chest: float, hip: float, stature: float, sd: float) -> Formula:
    return Formula(start, (chest, 0, hip, stature), sd, _HALF)


_FOREARM = _half(5.06 - EXTENDED, 0.135, 0.066, 0.028, 1.65)

OF_MEN: dict[str, Formula] = {
    "head_girth": Formula(57.4, (0, 0, 0, 0), 1.52, "median of 2,042 men (ANSUR II, 2012)"),
    "neck_girth": _half(15.38, 0.231, 0, 0, 1.6),
    "neck_base_girth": _half(14.61, 0.208, 0, 0.039, 1.72),
    "shoulder_length": _half(2.86, 0.004, 0, 0.066, 0.98),
    "shoulder_slope": Formula(
        20.0, (0, 0, 0, 0), 5.6, "what blocks are drafted with; it follows from no other measure"
    ),
    "shoulder_girth": _half(24.28, 0.514, 0.091, 0.170, 3.6),
    "armpit_depth": _half(3.74, 0.053, 0, 0.054, 1.37),
    "bust_depth": _half(0, 0.037, 0, 0.106, 1.8),
    "back_neck_point_to_wrist": _half(3.54, 0.134, 0, 0.409, 2.35),
    "across_back_width": _half(11.83, 0.273, 0, 0.013, 2.6),
    "across_front_width": Formula(
        9.8, (0.273, 0, 0, 0.013), 3.0, "the back's width less 2 cm, as blocks are drafted (from memory)"
    ),
    "bust_point_distance": Formula(
        0.0, (0.2, 0, 0, 0), 1.8, "a fifth of the chest, as blocks are drafted (from memory)"
    ),
    "crotch_length": _half(-1.22 + 2 * NAVEL_BELOW, 0, 0.395, 0.132, 3.5),
    "crotch_depth": _half(1.87 + NAVEL_BELOW, 0, -0.020, 0.120, 2.2),
    "waist_height": _half(-12.27 + NAVEL_BELOW, 0, -0.090, 0.724, 2.4),
    "back_waist_length": _half(3.35 - NAVEL_BELOW, 0.124, 0, 0.178, 2.35),
    "hip_depth": _half(1.53 + NAVEL_BELOW + 0.5, 0, 0, 0.087, 2.8),
    "trunk_girth": _half(0.29, 0.320, 0.513, 0.456, 4.1),
    "inside_leg_length": _half(-14.14, 0, -0.070, 0.603, 2.35),
    "knee_height": _half(-10.49, 0, 0, 0.338, 1.6),
    # The second study's men have thighs slimmer by 2.8 cm at equal hips: a third of that is taken off
    "thigh_girth": _half(-2.99 - 0.9, 0, 0.735, -0.054, 3.1),
    "knee_girth": Formula(0.0, (0, 0, 0.241, 0.076), 1.7, "regression on 247 men (Heinz et al. 2003)"),
    "calf_girth": _half(7.68, 0, 0.311, -0.001, 2.0),
    "ankle_girth": _half(4.40, 0, 0.118, 0.037, 1.5),
    "heel_girth": _half(3.52, 0, 0.095, 0.120, 1.1),
    "upper_arm_girth": _half(0, 0.227, 0.124, -0.005, 2.1).scaled(RELAXED).give_or_take(2.4, f"{_HALF}, hanging"),
    "elbow_girth": _FOREARM.give_or_take(1.9, f"as the forearm, {_HALF}"),
    "forearm_girth": _FOREARM.give_or_take(1.65, f"{_HALF}, at rest"),
    "wrist_girth": _half(3.45, 0.054, 0, 0.048, 0.72),
    "hand_girth": _half(6.37, 0.046, 0, 0.057, 0.85),
    "outer_arm_length": _half(-3.13, 0.003, 0, 0.354, 1.9),
}
