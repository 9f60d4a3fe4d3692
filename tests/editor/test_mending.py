"""Whatever a message proposes behind `try` is offered as a change, and mends what the message is about.

All files of mistakes are walked through, with what only their drawing tells.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.editor.drafted_notes import can_be_drafted, drafted_notes
from draft.editor.mending import of_note
from draft.editor.open_file import OpenFile
from draft.editor.shelf import Shelf
from tests.project.checkout import ROOT

BAD = ROOT / "tests" / "bad"
CASES = sorted(path for path in BAD.glob("*.piece") if "try `" in path.with_suffix(".txt").read_text("utf-8"))
SHELF = Shelf()

NOT_OFFERED = {
    (
        "pattern_version_undated",
        '`on` was expected, but `"The side is 5 mm longer; reprint the front."` stands here',
    ): "which day it was is the designer's to write",
    ("booklet", "this step adds nothing"): "the text is the designer's to write",
    ("notions", "this step adds nothing"): "the text is the designer's to write",
    ("by_size", "sizes are told apart by `size`"): "the rest of the line is another's to say",
    ("notches_marks_and_corners", "there is no piece called `strop`"): "mended so, the edge is one of its own piece",
    ("outline_curved_fold", "`slant` lies on the fold, so it must be one straight leg"): "several legs become one",
    ("pattern_uses_for", "`templates_with_values.piece` has nothing called `bellt` that could be taken"): "it is there",
    ("read_brackets", "`[` cannot be read here"): "its other half is the next mistake of the line",
    ("read_line_too_short", "`length` is a word of the language, so it cannot be a name"): "the line is too short too",
    ("read_typographic_characters", "`\u201c` cannot be read here"): "its other half is the next mistake of the line",
    ("slips", 'a text in "..." or the end of the line was expected, but `q` stands here'): "a line of another block",
}
"""By file and message, and why no change could be offered."""


def opened(path: Path) -> OpenFile:
    """A file with what only its drawing tells."""
    file = OpenFile(path.name, path.parent, SHELF)
    file.change(path.read_text(encoding="utf-8"))
    if can_be_drafted(file.now):
        file.drafted = tuple((note, file.place_of(note)) for note in drafted_notes(file.now))
    return file


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_what_is_proposed_is_offered(path: Path) -> None:
    file = opened(path)
    for note, span in file.notes():
        proposes = any("try `" in hint for hint in note.hints)
        if not proposes or note.span is None or note.span.source is not file.now.source:
            continue
        offered = list(of_note(file, note, span))
        assert bool(offered) != ((path.stem, note.message) in NOT_OFFERED), note.message
        for mending in offered:
            text = file.text[: mending.span.start] + mending.text + file.text[mending.span.end :]
            after = OpenFile(path.name, path.parent, SHELF)
            after.change(text)
            left = [(n.message, s.start) for n, s in after.notes()]
            assert (note.message, span.start) not in left
            assert any(f"`{mending.text}`" in hint for hint in note.hints)


def test_what_is_not_offered_is_there_to_be_mended() -> None:
    assert {stem for stem, _ in NOT_OFFERED} <= {path.stem for path in CASES}
