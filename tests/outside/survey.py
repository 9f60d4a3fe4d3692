"""Published figures of women's bodies, in cm, each with its source. Compare with them; they are not shipped."""

from __future__ import annotations

import numpy as np

EN_13402_3 = {
    "XS": (74, 82),
    "S": (82, 90),
    "M": (90, 98),
    "L": (98, 107),
    "XL": (107, 119),
    "2XL": (119, 131),
    "3XL": (131, 143),
}
"""Bust girths of the letter codes of EN 13402-3 (its XXL is called 2XL here). From memory; they agree with the
standard's steps of 4 cm up to 102 and of 6 cm beyond, as those are quoted."""

INCH = 2.54
ASTM_BUST = INCH * np.array([31.125, 31.75, 33, 34.125, 35.25, 36.25, 37.25, 38.75, 40.375, 42.125, 44, 46])
ASTM_WAIST = INCH * np.array([25.375, 26.125, 26.875, 27.625, 28.5, 29.5, 30.5, 32.25, 34, 36, 38.25, 40.5])
ASTM_NECK_BASE = INCH * np.array([13.25, 13.5, 13.75, 14, 14.25, 14.625, 14.875, 15.125, 15.5, 15.75, 16, 16.375])
ASTM_HEAD = INCH * np.array([21.25, 21.25, 21.5, 21.5, 21.75, 21.75, 22, 22, 22.25, 22.25, 22.5, 22.5])
"""ASTM D5585-11e1, body measurements of misses' sizes 00 to 20."""

BUST = np.array([84.0, 92, 100, 110, 116])
MEDIANS = {
    "waist_girth": np.array([75.2, 82.7, 91.9, 102.1, 109.5]),
    "hip_girth": np.array([94.4, 100.8, 106.0, 111.5, 115.7]),
    "upper_arm_girth": np.array([27.6, 29.8, 31.9, 34.7, 36.5]),
    "wrist_girth": np.array([15.0, 15.4, 15.6, 16.2, 16.7]),
    "neck_base_girth": np.array([35.5, 36.8, 37.9, 39.2, 40.2]),
    "shoulder_length": np.array([13.4, 13.5, 13.5, 14.0, 13.9]),
    "back_waist_length": np.array([41.2, 42.2, 43.2, 45.2, 45.9]),
    "outer_arm_length": np.array([53.5, 54.2, 54.2, 55.4, 55.6]),
}
"""US Army anthropometric survey of 2012 (ANSUR II), 1,986 women: medians within 2 cm of each bust girth. The waist
is taken at the navel (larger and lower than the natural waist), the upper arm bent and flexed."""

PERCENTILES = {
    "stature": (148.3, 162.6, 177.8),
    "bust_girth": (78.4, 94.0, 116.0),
    "hip_girth": (86.7, 101.8, 120.6),
    "neck_base_girth": (32.9, 37.0, 42.3),
    "head_girth": (52.1, 56.0, 61.1),
    "hand_girth": (16.7, 18.7, 20.7),
    "shoulder_length": (11.4, 13.5, 16.0),
    "shoulder_girth": (91.5, 102.7, 115.6),
    "back_waist_length": (36.5, 42.4, 49.4),
    "armpit_depth": (12.3, 15.6, 18.9),
}
"""The same survey: first percentile, median, 99th."""

RESIDUAL = {
    "shoulder_length": 0.94,
    "neck_base_girth": 1.40,
    "upper_arm_girth": 1.72,
    "wrist_girth": 0.58,
    "back_waist_length": 1.80,
    "outer_arm_length": 1.79,
}
"""Standard deviation of what the regressions below leave unexplained among the survey's women."""


def expected(bust: np.ndarray, waist: np.ndarray, hip: np.ndarray, stature: np.ndarray) -> dict[str, np.ndarray]:
    """Regressions on the survey's women, cm; the waist at the navel, the upper arm flexed."""
    return {
        "shoulder_length": 3.10 + 0.003 * bust + 0.062 * stature,
        "neck_base_girth": 11.00 + 0.140 * bust + 0.079 * stature,
        "upper_arm_girth": 0.16 + 0.100 * bust + 0.046 * waist + 0.196 * hip - 0.019 * stature,
        "wrist_girth": 3.13 + 0.039 * bust + 0.053 * stature,
        "back_waist_length": 7.36 - 0.055 * bust + 0.224 * waist - 0.089 * hip + 0.185 * stature,
        "outer_arm_length": -5.49 + 0.013 * bust + 0.360 * stature,
    }


def relaxed_arm(waist: np.ndarray, hip: np.ndarray, stature: np.ndarray) -> np.ndarray:
    """The relaxed upper arm by regression on 4,221 women of NHANES (residual 2.66 cm); waist at the hip bones."""
    return 0.513 + 0.109 * waist + 0.203 * hip - 0.004 * stature
