"""Every word and form of the language gives what is written beside it."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from pathlib import Path

import pytest

from draft.base.textfile import read_source
from draft.drafting.checked import draft_and_check
from draft.language import tree
from draft.language.reader import read
from draft.words import TWINS, WORDS
from tests.asking import asked
from tests.conftest import Expect
from tests.good.cases import CASES, styles_of
from tests.good.described import described


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_the_garment_is_drafted_as_expected(path: Path, expect: Expect) -> None:
    drafted = draft_and_check(asked(path, styles=styles_of(path)))
    assert drafted.outcome.drafted.all()
    expect(path.with_suffix(".txt"), described(drafted))


def test_no_expected_text_is_left_without_its_case() -> None:
    texts = {path.stem for path in CASES[0].parent.glob("*.txt")}
    assert texts == {path.stem for path in CASES}


def test_every_word_of_the_language_has_a_case() -> None:
    used = {call.word for path in CASES for call in _calls(read(read_source(path, "pattern")))}
    assert set(WORDS) - set(TWINS.values()) <= used


def _calls(node: object) -> Iterator[tree.Call]:
    if isinstance(node, tree.Call):
        yield node
    if isinstance(node, tuple | list):
        for child in node:
            yield from _calls(child)
    elif dataclasses.is_dataclass(node) and not isinstance(node, type):
        for field in dataclasses.fields(node):
            if "span" not in field.name:
                yield from _calls(getattr(node, field.name))
