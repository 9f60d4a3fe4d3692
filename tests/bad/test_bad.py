"""Every mistake that a designer can make is answered by the message beside it.

A case is a piece file that is wrong in one way or several; beside it lies what she is shown. A first line such as
`# --style sleeve=3cm` gives styles as the command line would.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from draft.base.notes import Note, Problems, show
from draft.drafting.checked import draft_and_check
from tests.asking import asked
from tests.conftest import Expect
from tests.strays import strays

HERE = Path(__file__).parent
CASES = sorted(HERE.glob("*.piece"), key=lambda path: path.name)


@cache
def notes_on(path: Path) -> tuple[Note, ...]:
    """Everything that is said about a pattern, however far it comes."""
    first = path.read_text(encoding="utf-8").partition("\n")[0]
    styles = dict(re.findall(r"--style (\w+)=(.*?)(?= --|$)", first)) if first.startswith("#") else {}
    try:
        return draft_and_check(asked(path, styles=styles), whole=path.stem.startswith("seams_forgotten")).notes
    except Problems as problems:
        return problems.notes


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_the_mistake_is_told_as_expected(path: Path, expect: Expect) -> None:
    notes = notes_on(path)
    assert notes, "nothing is wrong with this file"
    expect(path.with_suffix(".txt"), show(notes))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_nothing_is_told_twice(path: Path) -> None:
    notes = notes_on(path)
    assert len(set(notes)) == len(notes)


def test_every_file_is_a_case_or_belongs_to_one() -> None:
    assert strays(HERE, CASES) == []
