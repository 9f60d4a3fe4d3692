"""Men who were never measured: drawn from the means and covariances of a survey, so that drafts meet odd figures.

The figures are those of the 2,042 men with an odd number in the US Army's anthropometric survey of 2012 (ANSUR II), cm.
The waist is the natural one, 3.1 cm slimmer and 2 cm above the survey's navel; crotch lengths and depths begin there;
the seat is half a centimetre lower; thighs are 0.9 cm slimmer, as in a second study. Knees are estimated.
"""

from __future__ import annotations

from draft.bodies.bodies import Bodies
from tests.outside.drawn import drawn

MEANS = {
    "bust_girth": 106.0,
    "waist_girth": 91.1,
    "hip_girth": 102.0,
    "stature": 175.7,
    "hip_depth": 19.4,
    "crotch_depth": 23.0,
    "crotch_length": 66.3,
    "inside_leg_length": 84.6,
    "thigh_girth": 61.6,
    "heel_girth": 34.3,
    "calf_girth": 39.2,
    "ankle_girth": 22.9,
    "knee_height": 48.9,
}
COVARIANCES = (
    (77.3,),
    (87.5, 126.3),
    (57.2, 76.3, 59.2),
    (14.8, 16.2, 18.1, 46.9),
    (-2.7, -6.2, -0.8, 4.1, 6.9),
    (0.1, -1.9, 1.0, 5.3, 3.4, 4.4),
    (25.2, 31.0, 25.7, 13.3, 3.2, 4.8, 22.0),
    (4.9, 3.2, 6.7, 27.0, 1.0, 0.7, 4.1, 21.2),
    (42.0, 54.8, 42.5, 10.7, -1.0, 0.4, 18.5, 4.2, 34.4),
    (8.0, 9.0, 7.8, 7.4, 0.2, 0.6, 3.8, 4.4, 5.7, 2.8),
    (19.5, 23.9, 18.4, 5.6, -0.2, 0.3, 8.1, 2.0, 14.3, 3.1, 9.0),
    (7.7, 9.2, 7.7, 3.9, 0.3, 0.4, 3.7, 1.7, 5.8, 1.8, 3.6, 2.2),
    (5.5, 5.6, 5.9, 15.8, 0.1, 1.0, 3.6, 11.6, 3.9, 2.9, 1.8, 1.2, 7.8),
)
"""Lower triangle, in the order of the means."""


def drawn_men(count: int = 200, seed: int = 12) -> Bodies:
    """So many men, always the same, with every measure in mm."""
    return drawn(MEANS, COVARIANCES, count, seed)
