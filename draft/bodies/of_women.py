"""What follows, in women, from bust, waist, hip and stature.

Most rows are regressions on the 1,986 women of the US Army's anthropometric survey of 2012 (ANSUR II), or on half of
them; the knee's is our own regression on the 260 women of G. Heinz, L. Peterson, R. Johnson, C. Kerk, "Exploring
Relationships in Body Dimensions", Journal of Statistics Education 11(2), 2003. The survey's waist lies at the navel,
and its upper arm and forearm were flexed; the rows below are turned to the natural waist and the hanging arm.
Where the other half, the second study or a correction says that people lie farther off than the regression does, the
wider spread stands here.
"""

from __future__ import annotations

from draft.bodies.formula import Formula

NAVEL = 7.5
"""cm from the natural waist's girth to the navel's: the survey's medians against ASTM D5585 at equal bust."""

NAVEL_BELOW = 2.0
"""cm from the natural waist down to the navel (from memory: 1 to 4)."""

RELAXED = 0.97
"""The hanging upper arm as a share of the flexed: 0.95 from memory, 0.98 by a regression on the women of NHANES."""

EXTENDED = 0.9
"""cm by which a forearm at rest is taken to be less than the survey's flexed one: half of what the second study's
extended forearms differ by, as nobody knows how hard a hand at home is clenched."""

LEARNED = {"bust_girth": (780, 1155), "waist_girth": (590, 1040), "hip_girth": (865, 1210), "stature": (1490, 1780)}
"""mm: the first to the 99th percentile of those women; beyond, a formula is only carried on."""

_HALF = "regression on 996 women (ANSUR II, 2012)"
_SURVEY = "regression on 1,986 women (ANSUR II, 2012)"
_STUDY = "regression on 260 women (Heinz et al. 2003)"


def _survey(start: float, bust: float, navel: float, hip: float, stature: float, sd: float) -> Formula:
    """A regression whose waist is at the navel."""
    return Formula(start + navel * NAVEL, (bust, navel, hip, stature), sd, _SURVEY)


def _half(start: float, bust: float, navel: float, hip: float, stature: float, sd: float) -> Formula:
    """A regression on half of the survey, whose waist is at the navel; figures of little weight are left out."""
    return Formula(start + navel * NAVEL, (bust, navel, hip, stature), sd, _HALF)


_FOREARM = _half(4.02 - EXTENDED, 0.064, 0, 0.109, 0.032, 1.55)

OF_WOMEN: dict[str, Formula] = {
    "head_girth": Formula(56.1, (0, 0, 0, 0), 1.95, "median of 996 women (ANSUR II, 2012)"),
    "neck_base_girth": _survey(11.00, 0.140, 0, 0, 0.079, 1.40),
    "shoulder_length": _survey(3.10, 0.003, 0, 0, 0.062, 0.94).give_or_take(0.98),
    # The drop from neck to shoulder point spreads by 1.3 cm (3.0 to 9.1 in the survey) over a shoulder of 13.5 cm
    "shoulder_slope": Formula(
        20.0, (0, 0, 0, 0), 5.6, "what blocks are drafted with; it follows from no other measure"
    ),
    "shoulder_girth": _half(21.32, 0.305, 0, 0.172, 0.215, 3.9),
    "armpit_depth": _half(0, 0, 0, 0.028, 0.078, 1.4),
    "bust_depth": _half(0, 0.077, 0, 0, 0.092, 2.5),
    "neck_girth": _half(12.27, 0.105, 0.057, 0, 0.036, 1.28),
    "back_neck_point_to_wrist": _half(-0.09, 0.088, 0, 0, 0.445, 2.2),
    # Taken at the level of the armpits; the chest in front is drafted narrower, by about 2.5 cm
    "across_back_width": _half(8.91, 0.227, 0, 0, 0.042, 2.35),
    "across_front_width": Formula(
        6.4, (0.227, 0, 0, 0.042), 2.8, "the back's width less 2.5 cm, as blocks are drafted (from memory)"
    ),
    # Not in the survey: from the nape's height to the bust point's, forward by half the chest's depth, aside by 3.5 cm;
    # then on down to the natural waist. That the side neck is as high as the nape is from memory, and widens the spread
    "neck_to_bust_point": Formula(-1.57, (0.144, 0, 0, 0.085), 2.2, f"heights and depths, {_HALF}"),
    "front_waist_length": Formula(3.29, (0.156, 0, 0, 0.154), 2.0, f"heights and depths, {_HALF}"),
    "bust_point_distance": Formula(
        0.0, (0.2, 0, 0, 0), 1.8, "a fifth of the bust, as blocks are drafted (from memory)"
    ),
    # From the natural waist, so much above the navel: in front and behind, or once where it is a height
    "crotch_length": _half(5.60 + 2 * NAVEL_BELOW, 0, 0, 0.300, 0.159, 3.5),
    "crotch_depth": _half(1.64 + NAVEL_BELOW, 0, 0, -0.012, 0.119, 2.2),
    "waist_height": _half(-19.19 + NAVEL_BELOW, 0, 0, 0, 0.719, 2.4),
    "back_waist_length": _half(4.86 - NAVEL_BELOW, 0.115, 0, 0, 0.165, 2.35),
    # Down the side to the fullest of the seat, a little farther than straight down. It is less on full waists, in the
    # survey, whose navels lie low there, by 0.12 cm for each cm of them, and in charts by nothing: two thirds of it are
    # taken, no more than at the fullest waists that were measured, and the spread holds both
    "hip_depth": Formula(1.22, (0, -0.08, 0, 0.138), 3.4, _HALF, held_beyond=True),
    "trunk_girth": _half(15.96, 0.271, 0, 0.402, 0.450, 3.6),
    "inside_leg_length": _half(-18.18, 0, 0, -0.064, 0.632, 2.35),
    "knee_height": _half(-12.51, 0, 0, 0, 0.352, 1.4),
    "thigh_girth": _half(-3.55, 0, 0, 0.704, -0.041, 2.1),
    "knee_girth": Formula(-2.30, (0, 0, 0.262, 0.076), 1.65, _STUDY),
    "calf_girth": _half(4.35, 0, 0, 0.265, 0.036, 1.95),
    "ankle_girth": _half(4.62, 0, 0, 0.089, 0.048, 1.25),
    "heel_girth": _half(3.08, 0, 0, 0.068, 0.129, 1.05),
    "upper_arm_girth": _survey(0.16, 0.100, 0.046, 0.196, -0.019, 1.72)
    .scaled(RELAXED)
    .give_or_take(2.2, f"{_SURVEY}, hanging"),
    "elbow_girth": _FOREARM.give_or_take(1.8, f"as the forearm, {_HALF}"),
    "forearm_girth": _FOREARM.give_or_take(1.55, f"{_HALF}, at rest"),
    "wrist_girth": _survey(3.13, 0.039, 0, 0, 0.053, 0.58).give_or_take(0.7),
    "hand_girth": _half(6.64, 0.031, 0, 0, 0.056, 0.75),
    "outer_arm_length": _survey(-5.49, 0.013, 0, 0, 0.360, 1.79).give_or_take(1.85),
}
