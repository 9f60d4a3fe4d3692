"""Each formula of the estimates held against people that it was not fitted to: `python -m tests.estimates [FILE ...]`.

Without a file these are the 260 women and 247 men of Heinz et al. 2003. A file has the columns of ANSUR II (mm) and is
not kept here; one whose name has `women` in it is of women, any other of men. Prints for each measure the bias and the
standard deviation of estimate less measure, cm, and how many of a hundred lie within the spread that is told: of all,
and of those with a bust or chest over 110 cm.
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.base.text_columns import in_columns
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import estimate
from draft.bodies.formula import GIVEN
from draft.bodies.of_women import EXTENDED, NAVEL, NAVEL_BELOW, RELAXED
from draft.bodies.wearers import MEN, WOMEN, Wearers
from tests.outside.women import FLEXED_TO_RELAXED, men, real_women, study

LARGE = 1100.0
"""mm of bust or chest: few in the survey that the formulas are from are larger."""

STUDY = {
    "shoulder_girth": ("sho_gi", 1.0),
    "upper_arm_girth": ("bic_gi", FLEXED_TO_RELAXED),
    "forearm_girth": ("for_gi", 1.0),
    "elbow_girth": ("for_gi", 1.0),
    "wrist_girth": ("wri_gi", 1.0),
    "thigh_girth": ("thi_gi", 1.0),
    "calf_girth": ("cal_gi", 1.0),
    "ankle_girth": ("ank_gi", 1.0),
}
"""Measures by the study's columns; the knee's formula is fitted on it, and is left out."""

MEN_AT_NAVEL = 31.0
"""mm from the men's waist to that at the navel, as in `of_men.py`."""

Taken = dict[str, Floats]


@dataclass(frozen=True)
class Held:
    """How one formula holds for some people; `inside` and `large` are shares, the latter of those over `LARGE`."""

    name: str
    bias: float
    sd: float
    inside: float
    large: float


def held(wearers: Wearers, given: Mapping[str, Floats], taken: Mapping[str, Floats]) -> Iterator[Held]:
    """Of people with the four measures `given` (mm) each estimate beside what was `taken` (mm)."""
    count = len(given["stature"])
    bodies = Bodies(tuple(map(str, range(count))), {name: given[name] for name in GIVEN})
    large = given["bust_girth"] > LARGE
    for name, truth in taken.items():
        found = estimate(bodies, name, wearers=wearers)
        assert found is not None and found.spread is not None
        off, inside = found.values - truth, np.abs(found.values - truth) <= found.spread
        of_large = float(inside[large].mean()) if large.any() else np.nan
        yield Held(name, float(off.mean()), float(off.std()), float(inside.mean()), of_large)


def of_study(wearers: Wearers) -> tuple[Taken, Taken]:
    """Heinz et al. 2003: what is given and what was taken of its women or men, mm."""
    data = study() if wearers is WOMEN else men()
    columns = dict(zip(GIVEN, ("che_gi", "wai_gi", "hip_gi", "hgt"), strict=True))
    given = real_women().values if wearers is WOMEN else {name: data[at] * 10 for name, at in columns.items()}
    return dict(given), {name: data[at] * share * 10 for name, (at, share) in STUDY.items()}


def of_file(path: Path, wearers: Wearers) -> tuple[Taken, Taken]:
    """The people of a file with the survey's columns, each turned to what is taken by a dressmaker, mm."""
    with path.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))

    def at(name: str) -> Floats:
        return np.array([float(row[name]) for row in rows])

    navel = NAVEL * 10 if wearers is WOMEN else MEN_AT_NAVEL
    waist = at("waistheightomphalion") + NAVEL_BELOW * 10
    given = {
        "bust_girth": at("chestcircumference"),
        "waist_girth": at("waistcircumference") - navel,
        "hip_girth": at("buttockcircumference"),
        "stature": at("stature"),
    }
    return given, {
        **{name: at(column) for name, column in _AS_TAKEN.items()},
        "armpit_depth": at("cervicaleheight") - at("axillaheight"),
        "bust_depth": at("cervicaleheight") - at("chestheight"),
        "back_waist_length": at("waistbacklength") - NAVEL_BELOW * 10,
        "crotch_length": at("crotchlengthomphalion") + 2 * NAVEL_BELOW * 10,
        "crotch_depth": waist - at("crotchheight"),
        "waist_height": waist,
        "hip_depth": waist - at("buttockheight"),
        "upper_arm_girth": at("bicepscircumferenceflexed") * RELAXED,
        "forearm_girth": at("forearmcircumferenceflexed") - EXTENDED * 10,
    }


_AS_TAKEN = {
    "head_girth": "headcircumference",
    "neck_girth": "neckcircumference",
    "neck_base_girth": "neckcircumferencebase",
    "shoulder_length": "shoulderlength",
    "shoulder_girth": "shouldercircumference",
    "across_back_width": "interscyei",
    "back_neck_point_to_wrist": "sleevelengthspinewrist",
    "outer_arm_length": "sleeveoutseam",
    "trunk_girth": "verticaltrunkcircumferenceusa",
    "inside_leg_length": "crotchheight",
    "knee_height": "kneeheightmidpatella",
    "thigh_girth": "thighcircumference",
    "calf_girth": "calfcircumference",
    "ankle_girth": "anklecircumference",
    "heel_girth": "heelanklecircumference",
    "wrist_girth": "wristcircumference",
    "hand_girth": "handcircumference",
}


def table(wearers: Wearers, people: tuple[Taken, Taken]) -> str:
    """A row a measure: bias and deviation in cm, shares in percent."""
    rows: list[tuple[str, ...]] = [(wearers.name, "bias cm", "sd cm", "told cm", "inside", "large inside")]
    for one in held(wearers, *people):
        told = 2 * wearers.formulas[one.name].sd
        large = "" if np.isnan(one.large) else f"{one.large:.0%}"
        rows.append(
            (one.name, f"{one.bias / 10:+.1f}", f"{one.sd / 10:.1f}", f"{told:.1f}", f"{one.inside:.0%}", large)
        )
    return in_columns(rows)


def main(paths: list[Path]) -> None:
    """Prints a table for the study's women and men, or for each file."""
    for path in paths:
        wearers = WOMEN if "women" in path.name else MEN
        print(f"{path.name}\n{table(wearers, of_file(path, wearers))}\n")
    if not paths:
        for wearers in (WOMEN, MEN):
            print(f"Heinz et al. 2003\n{table(wearers, of_study(wearers))}\n")


if __name__ == "__main__":
    main([Path(path) for path in sys.argv[1:]])
