"""Every bundled pattern in every shape, tried on the people of a survey's file: `python -m tests.survey FILE [men]`.

The file has the columns of ANSUR II (mm) and is not kept here; `tests.outside.drawn_women` and `drawn_men` say what is
made of them.
Prints for each shape how many are drafted, how many can wear it, the worst seam in mm, and each kind of refusal.
"""

from __future__ import annotations

import csv
import sys
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import numpy as np

from draft.base.arrays import Floats
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import completed
from draft.bodies.wearers import MEN, WOMEN
from draft.drafting.drafting import drawn
from draft.fit.verdicts import verdicts
from draft.seams.walk import walk_seams
from tests.outside import drawn_men
from tests.outside.drawn_women import MEANS
from tests.pieces.shapes import SHAPES, plan_of


def men_of(path: Path) -> Bodies:
    """The men of a file, with the measures that can be made of its columns."""
    names, column = _columns(path)
    navel = column("waistheightomphalion")
    values = {
        "bust_girth": column("chestcircumference"),
        "waist_girth": column("waistcircumference") - 31,
        "hip_girth": column("buttockcircumference"),
        "stature": column("stature"),
        "hip_depth": navel - column("buttockheight") + 25,
        "crotch_depth": navel - column("crotchheight") + 20,
        "crotch_length": column("crotchlengthomphalion") + 40,
        "inside_leg_length": column("crotchheight"),
        "thigh_girth": column("thighcircumference") - 9,
        "heel_girth": column("heelanklecircumference"),
        "calf_girth": column("calfcircumference"),
        "ankle_girth": column("anklecircumference"),
        "knee_height": column("kneeheightmidpatella"),
    }
    return Bodies(names, values)


def _columns(path: Path) -> tuple[tuple[str, ...], Callable[[str], Floats]]:
    """The people of a file, and what finds a column of it."""
    with path.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))

    def column(name: str) -> Floats:
        return np.array([float(row[name]) for row in rows])

    return tuple(row["subjectid"] for row in rows), column


def women_of(path: Path) -> Bodies:
    """The women of a file, with the measures that can be made of its columns."""
    names, column = _columns(path)
    values = {
        "bust_girth": column("chestcircumference"),
        "waist_girth": column("waistcircumference") - 75,
        "hip_girth": column("buttockcircumference"),
        "stature": column("stature"),
        "head_girth": column("headcircumference"),
        "neck_base_girth": column("neckcircumferencebase"),
        "shoulder_length": column("shoulderlength"),
        "armpit_depth": column("cervicaleheight") - column("axillaheight"),
        "back_waist_length": column("waistbacklength") - 20,
        "upper_arm_girth": column("bicepscircumferenceflexed") * 0.97,
        "elbow_girth": column("forearmcircumferenceflexed"),
        "wrist_girth": column("wristcircumference"),
        "hand_girth": column("handcircumference"),
        "outer_arm_length": column("sleeveoutseam"),
        "shoulder_girth": column("shouldercircumference"),
        "hip_depth": column("waistheightomphalion") - column("buttockheight") + 20,
    }
    return Bodies(names, values)


def _kind(reason: str) -> str:
    """A refusal without its figures."""
    return reason.split(", by")[0] if ", by" in reason else reason.rpartition(": ")[0] or reason


def main(path: Path, men: bool) -> None:
    """Prints a line a shape."""
    people = men_of(path) if men else women_of(path)
    for name, mean in (drawn_men.MEANS if men else MEANS).items():
        found = people.values[name].mean() / 10
        if abs(found - mean) > 0.1:
            print(f"{name}: mean {found:.1f} cm, in the tests {mean} cm")
    for shape in (shape for shape in SHAPES if plan_of(*shape).wearers is (MEN if men else WOMEN)):
        plan = plan_of(*shape)
        outcome, garment = drawn(plan, completed(people, plan.measures, plan.known, plan.wearers)[0])
        found = verdicts(outcome, garment)
        worst = max(float(np.nanmax(np.abs(seam.difference))) for seam in walk_seams(garment))
        told = Counter(_kind(reason) for reason in (*found.undrafted, *found.unworn) if reason)
        line = f"{' '.join(shape):32} {found.drafted.sum():4d} drafted {found.worn.sum():4d} worn, seams {worst:.3f} mm"
        print(line, dict(told.most_common(2)) if told else "", flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]), "men" in sys.argv[2:])
