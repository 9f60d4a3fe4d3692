"""Women who were never measured: drawn from the means and covariances of a survey, so that drafts meet odd figures.

The figures are those of the 996 women with an odd number in the US Army's anthropometric survey of 2012 (ANSUR II), cm.
Waist and back end at the natural waist, 7.5 cm slimmer and 2 cm above the survey's navel; upper arms hang, 0.97 of the
flexed; the seat is 2 cm farther below the natural waist. The forearm stands for the elbow.
"""

from __future__ import annotations

import numpy as np

from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES

MEANS = {
    "bust_girth": 94.6,
    "waist_girth": 78.5,
    "hip_girth": 102.2,
    "stature": 162.9,
    "head_girth": 56.1,
    "neck_base_girth": 37.0,
    "shoulder_length": 13.6,
    "armpit_depth": 15.7,
    "back_waist_length": 40.5,
    "upper_arm_girth": 29.6,
    "elbow_girth": 26.4,
    "wrist_girth": 15.5,
    "hand_girth": 18.7,
    "outer_arm_length": 54.3,
    "shoulder_girth": 102.8,
    "hip_depth": 16.7,
}
COVARIANCES = (
    (68.6,),
    (
        70.0,
        100.3,
    ),
    (
        46.4,
        60.5,
        57.2,
    ),
    (
        12.6,
        12.8,
        17.1,
        41.3,
    ),
    (
        3.6,
        4.4,
        4.3,
        4.0,
        3.9,
    ),
    (
        10.6,
        11.8,
        8.9,
        5.2,
        1.4,
        3.8,
    ),
    (
        1.1,
        0.9,
        1.3,
        2.6,
        0.3,
        0.3,
        1.1,
    ),
    (
        1.9,
        2.7,
        2.5,
        2.9,
        0.3,
        0.9,
        0.5,
        2.0,
    ),
    (
        9.9,
        15.7,
        8.9,
        8.2,
        0.9,
        2.4,
        0.5,
        1.4,
        6.9,
    ),
    (
        18.4,
        22.7,
        18.1,
        4.3,
        1.7,
        3.7,
        0.4,
        0.8,
        3.0,
        9.1,
    ),
    (
        9.8,
        11.8,
        9.8,
        4.0,
        1.2,
        2.4,
        0.4,
        0.6,
        1.9,
        4.7,
        3.4,
    ),
    (
        3.4,
        3.8,
        3.3,
        2.7,
        0.5,
        1.0,
        0.2,
        0.3,
        0.8,
        1.4,
        1.1,
        0.6,
    ),
    (
        2.8,
        2.9,
        2.7,
        2.7,
        0.5,
        0.9,
        0.3,
        0.3,
        0.8,
        1.2,
        0.9,
        0.5,
        0.8,
    ),
    (
        5.3,
        5.5,
        6.6,
        14.7,
        1.8,
        2.0,
        1.1,
        1.1,
        2.4,
        1.9,
        1.6,
        1.0,
        1.0,
        8.4,
    ),
    (
        31.6,
        35.8,
        27.7,
        15.7,
        4.3,
        7.5,
        2.7,
        2.3,
        6.0,
        11.3,
        7.0,
        2.8,
        2.7,
        6.9,
        28.3,
    ),
    (
        -4.8,
        -9.7,
        -1.2,
        4.6,
        -0.5,
        -0.3,
        0.3,
        0.3,
        -1.5,
        -1.7,
        -0.7,
        0.1,
        0.1,
        0.8,
        -1.3,
        5.7,
    ),
)
"""The lower half of the matrix, in the order of the means."""


def drawn_women(count: int = 200, seed: int = 11) -> Bodies:
    """So many women, always the same, with every measure in mm."""
    size = len(MEANS)
    half = np.array([[*row, *[0.0] * (size - len(row))] for row in COVARIANCES])
    whole = half + np.tril(half, -1).T
    rng = np.random.default_rng(seed)
    taken = rng.multivariate_normal(list(MEANS.values()), whole, count, method="eigh")
    limits = {name: (MEASURES[name].low, MEASURES[name].high) for name in MEANS}
    values = {name: np.clip(column * 10, *limits[name]) for name, column in zip(MEANS, taken.T, strict=True)}
    return Bodies(tuple(f"drawn {k + 1}" for k in range(count)), values)
