"""An editor tells what a terminal tells, and a template's fault once for all of its pieces."""

from __future__ import annotations

from pathlib import Path

from draft.base.told_once import told_once
from draft.editor.drafted_notes import drafted_notes
from draft.editor.open_file import OpenFile
from tests.editor.pattern import PATTERN

CHARTED = PATTERN.replace("    allowance", '    chart      "women.csv"\n    allowance')
BENT = CHARTED.replace("curve leaving square to flank", "curve")


def opened(name: str, text: str, folder: Path) -> OpenFile:
    file = OpenFile(name, folder)
    file.change(text)
    return file


def test_what_is_wrong_with_the_drawing_of_a_template_is_told_once_for_its_pieces(tmp_path: Path) -> None:
    file = opened("tab.piece", BENT, tmp_path)
    drawn = drafted_notes(file.now)
    file.drafted = tuple((note, file.place_of(note)) for note in drawn)
    said = [note for note, _ in file.notes()]
    assert said == told_once(drawn) and len(said) < len(drawn)
    (square,) = [note for note in said if "not square to the fold" in note.message]
    assert square.hints[-1] == "look at `back` too, where it is the same"


def test_what_a_template_leans_on_is_told_once_for_its_pieces() -> None:
    here = Path(__file__).parents[1] / "bad"
    path = here / "pattern_uses_unseen.piece"
    file = opened(path.name, path.read_text(encoding="utf-8"), here)
    said = [note for note, _ in file.notes()]
    assert said and len(said) == len(set(said))
