"""What is said of figures in a table of bodies moves each one's own estimates, and no measure that was taken."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from draft.answers.study import run_study
from draft.bodies.estimates import completed
from draft.bodies.many import read_many
from draft.bodies.many_figures import with_figures
from draft.bodies.measures import MEASURES
from draft.drafting.request import Request, Whom
from draft.drafting.whom import find_bodies

TABLE = """name,bust_girth cm,waist_girth cm,hip_girth cm,stature cm,figure,shoulder_slope deg
Ines,98,83,104,168,"sloping shoulders, broad shoulders",
Ana,98,83,104,168,,
Mia,98,83,104,168,sloping shoulders,20
Eva,98,83,104,168,slopping,
Zoe,98,83,104,168,"sloping shoulders, broad shoulders",
"""
NEEDED = ("shoulder_slope", "shoulder_length", "neck_base_girth")


def test_each_is_moved_as_one_person_is(tmp_path: Path) -> None:
    path = tmp_path / "people.csv"
    path.write_text(TABLE, encoding="utf-8")
    (some,) = read_many(path)
    both = "sloping shoulders, broad shoulders"
    assert some.figures == (both, "", "sloping shoulders", "slopping", both)
    whole, estimates = completed(some.bodies, NEEDED)
    faults = list(some.faults)
    moved = with_figures(whole, some.figures, estimates, faults)
    assert [bool(fault) for fault in faults] == [False, False, False, True, False]
    assert "is not said of a figure" in faults[3]
    girths = ("bust_girth=98cm", "waist_girth=83cm", "hip_girth=104cm", "stature=168cm")
    for row, figure in ((0, both), (1, None), (4, both)):
        alone, _ = find_bodies(Whom(answers=girths, figure=figure), None, NEEDED, MEASURES)
        for name in NEEDED:
            assert abs(alone.values[name][0] - moved.values[name][row]) < 1e-9
    assert np.degrees(moved.values["shoulder_slope"][2]) == 20.0  # a tape wins over words
    assert moved.values["shoulder_slope"][0] > whole.values["shoulder_slope"][0]


def test_a_study_reads_them_and_tells_what_it_cannot(tmp_path: Path) -> None:
    path = tmp_path / "people.csv"
    path.write_text(TABLE, encoding="utf-8")
    found = run_study(Request("ropewalk"), path)
    rows = found.files["study.csv"].decode().splitlines()[1:]
    assert [row.split(",")[1] for row in rows] == ["yes", "yes", "yes", "no", "yes"]


def test_lots_come_out_as_one_would(tmp_path: Path) -> None:
    path = tmp_path / "people.csv"
    path.write_text(TABLE, encoding="utf-8")
    whole, parts = (run_study(Request("ropewalk"), path, chunk=chunk) for chunk in (100, 2))
    assert whole.files == parts.files and whole.summary == parts.summary
