"""What is offered right after a letter comes from the text that was looked at last, wherever that is enough."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.editor.complete import complete
from draft.editor.open_file import OpenFile, one_line_apart
from tests.editor.pattern import PATTERN

PLACE = PATTERN.index("    width =")


@pytest.fixture
def file(tmp_path: Path) -> OpenFile:
    opened = OpenFile("tab.piece", tmp_path)
    opened.change(PATTERN)
    assert opened.now.whole
    return opened


def offered(file: OpenFile, offset: int) -> list[str]:
    return [one.text for one in complete(file.text, file.known_while_typing, offset, file.kind_of)]


def test_a_letter_on_one_line_is_answered_without_a_look_at_the_text(file: OpenFile) -> None:
    file.change(PATTERN[:PLACE] + "    more = ro\n" + PATTERN[PLACE:])
    place = PLACE + len("    more = ro")
    said = offered(file, place)
    assert "room" in said and file._now is None
    assert file.now and offered(file, place) == said


def test_names_on_other_new_lines_are_looked_for(file: OpenFile) -> None:
    file.change(PATTERN[:PLACE] + "    slack = 1 cm\n    more = \n" + PATTERN[PLACE:])
    assert "slack" in offered(file, PLACE + len("    slack = 1 cm\n    more = "))


def test_what_another_file_changes_is_looked_at(file: OpenFile) -> None:
    file.anew()
    assert "room" in offered(file, PLACE + len("    width = ")) and file._now is not None


@pytest.mark.parametrize(
    ("before", "after", "near"),
    [
        ("a\nb\nc", "a\nbb\nc", True),
        ("a\nb\nc", "a\nb\n\nc", True),
        ("a\nb\nc", "a\nc", True),
        ("a\nb\nc", "x\nb\ny", False),
        ("a", "a\nb\nc", False),
        ("", "", True),
        ("aa", "aaa", True),
    ],
)
def test_whether_texts_differ_in_one_line(before: str, after: str, near: bool) -> None:
    assert one_line_apart(before, after) is one_line_apart(after, before) is near
