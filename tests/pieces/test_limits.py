"""Each style at each of its limits drafts in all sizes, or says for which size it does not, by how much, and why."""

from __future__ import annotations

import pytest

from draft.base.notes import Note, Severity
from draft.language import tree
from tests.asking import bundled
from tests.pieces.bundled import PATTERNS, file_of

SIZES = ("XS", "S", "M", "L", "XL", "2XL", "3XL")


def _choices(style: tree.StyleRange | tree.StyleChoice) -> tuple[str, ...]:
    if isinstance(style, tree.StyleChoice):
        return style.options
    assert isinstance(style.low, tree.Literal) and isinstance(style.high, tree.Literal)
    return style.low.span.text, style.high.span.text


CASES = [
    (name, style.name, choice) for name in PATTERNS for style in file_of(name).styles for choice in _choices(style)
]


def _names_a_size(note: Note) -> bool:
    return bool({word.strip(",") for word in note.message.split()} & set(SIZES))


def _says_why(note: Note) -> bool:
    """An error says where it was written, for which sizes, and what came closest or what is in the way."""
    return bool(note.span and _names_a_size(note) and note.hints)


@pytest.mark.parametrize(("name", "style", "choice"), CASES)
def test_a_style_at_its_limit_drafts_or_says_why_not(name: str, style: str, choice: str) -> None:
    found = bundled(name, **{style: choice})
    errors = [note for note in found.notes if note.severity is Severity.ERROR]
    assert all(_names_a_size(note) for note in found.notes)
    assert all(_says_why(note) for note in errors)
    assert found.outcome.drafted.all() or errors


@pytest.mark.parametrize(("style", "choice"), [case[1:] for case in CASES if case[0] in ("ropewalk", "tidemill")])
def test_skirt_and_tee_draft_at_every_limit(style: str, choice: str) -> None:
    for name in ("ropewalk", "tidemill"):
        if style in {own.name for own in file_of(name).styles} and (name, style, choice) in CASES:
            found = bundled(name, **{style: choice})
            assert found.outcome.drafted.all()
            assert not [note for note in found.notes if note.severity is Severity.ERROR]


@pytest.mark.parametrize("name", PATTERNS)
@pytest.mark.parametrize("end", [0, -1])
def test_all_styles_at_one_end_together_draft_or_say_why_not(name: str, end: int) -> None:
    found = bundled(name, **{style.name: _choices(style)[end] for style in file_of(name).styles})
    errors = [note for note in found.notes if note.severity is Severity.ERROR]
    assert all(_says_why(note) for note in errors)
    assert found.outcome.drafted.all() or errors


@pytest.mark.parametrize("name", PATTERNS)
def test_every_style_has_a_sentence(name: str) -> None:
    assert file_of(name).styles
    assert all(style.words for style in file_of(name).styles)
