"""Left and right measured apart: what a file may give for one side, and what is then missing or cannot be."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.base.notes import Note, Problems
from draft.bodies.bodies import Bodies
from draft.bodies.left_right import two_bodies
from draft.bodies.person import read_person

INES = """name = "Ines"
[measures]
hip_girth = "104 cm"
shoulder_slope = "21 deg"
"""


def _read(folder: Path, text: str) -> Bodies:
    path = folder / "ines.toml"
    path.write_text(text, encoding="utf-8")
    return read_person(path)


def _notes(folder: Path, text: str) -> tuple[Note, ...]:
    with pytest.raises(Problems) as raised:
        _read(folder, text)
    return raised.value.notes


def test_a_slope_of_one_side_leaves_the_other_as_it_is(tmp_path: Path) -> None:
    ines = _read(tmp_path, INES + '[measures.left]\nshoulder_slope = "25 deg"\n')
    assert np.degrees(ines.values["shoulder_slope"]) == pytest.approx([23.0])  # of one body between the two
    both = two_bodies(ines)
    assert both and both.names == ("left", "right")
    assert np.degrees(both.values["shoulder_slope"]) == pytest.approx([25.0, 21.0])
    assert both.values["hip_girth"].tolist() == [1040.0, 1040.0]


def test_a_girth_is_measured_from_middle_to_middle_and_the_other_side_has_the_rest(tmp_path: Path) -> None:
    ines = _read(tmp_path, INES + "[measures.left]\nhip_girth = '53 cm'\n")
    both = two_bodies(ines)
    assert ines.values["hip_girth"].tolist() == [1040.0]
    assert both and both.values["hip_girth"].tolist() == [1060.0, 1020.0]


def test_both_sides_need_no_whole(tmp_path: Path) -> None:
    text = '[measures]\nstature = "168 cm"\n[measures.left]\nhip_girth="50 cm"\nouter_arm_length="57 cm"\n'
    ines = _read(tmp_path, text + '[measures.right]\nhip_girth="52 cm"\nouter_arm_length="58 cm"\n')
    assert ines.values["hip_girth"].tolist() == [1020.0] and ines.values["outer_arm_length"].tolist() == [575.0]


def test_who_has_two_sides_alike_is_one_body(tmp_path: Path) -> None:
    assert two_bodies(_read(tmp_path, INES)) is None
    assert two_bodies(_read(tmp_path, INES + '[measures.left]\nshoulder_slope = "21 deg"\n')) is None


@pytest.mark.parametrize(
    ("more", "fact"),
    [
        ('[measures.left]\nouter_arm_length = "57 cm"\n', "`outer_arm_length` is given for the left alone"),
        ('[measures.left]\nhip_girth = "104 cm"\n', "is 208 cm"),
        ('[measures.left]\nhip_girth = "66 cm"\n', "one half of `hip_girth` is 66 cm"),
        ('[measures.left]\nhip_girth = "50 cm"\n[measures.right]\nhip_girth = "52 cm"\n', "come to 102 cm"),
        ('[measures.left]\nstature = "168 cm"\n', "`stature` is measured of the whole body"),
        ('[measures.left]\nshoulder_slop = "25 deg"\n', "is not a body measure"),
        ("[measures.left]\n", "nothing is measured on the left"),
        ('[left]\nshoulder_slope = "25 deg"\n', "`left` stands outside of `[measures]`"),
    ],
)
def test_what_is_wrong_with_a_side_is_told_at_its_place(tmp_path: Path, more: str, fact: str) -> None:
    notes = _notes(tmp_path, INES + more)
    assert len(notes) == 1 and fact in notes[0].message and notes[0].hints
    assert notes[0].span is not None and notes[0].span.start >= (0 if "come to" in fact else len(INES) - 60)
