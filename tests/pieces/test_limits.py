"""Each style at each of its limits drafts in all sizes, or says for which size it does not, by how much, and why."""

from __future__ import annotations

from zlib import crc32

import pytest

from draft.base.notes import Note, Severity
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.language import tree
from tests.asking import asked
from tests.pieces.bundled import PATTERNS, file_of
from tests.pieces.shapes import plan_of

SIZES = ("XS", "S", "M", "L", "XL", "2XL", "3XL")


def _choices(style: tree.StyleRange | tree.StyleChoice) -> tuple[str, ...]:
    if isinstance(style, tree.StyleChoice):
        return style.options
    assert isinstance(style.low, tree.Literal) and isinstance(style.high, tree.Literal)
    return style.low.span.text, style.high.span.text


def _usual(name: str) -> dict[str, str]:
    """What each style is without being asked for: the pattern as it is, which `test_bundled` holds to more."""
    return {style.name: style.set_to for style in plan_of(name).styles}


CASES = [
    (name, style.name, choice)
    for name in PATTERNS
    if name != "marlpit"  # which `test_marlpit` holds to more
    for style in file_of(name).styles
    for choice in _choices(style)
    if choice != _usual(name)[style.name]
]


def _sampled(name: str, style: str, choice: str) -> bool:
    """Whether the case is of every run: each option, and of a range the one end or the other."""
    ends = [case for case in CASES if case[:2] == (name, style)]
    of_a_range = isinstance(next(one for one in file_of(name).styles if one.name == style), tree.StyleRange)
    return not of_a_range or (name, style, choice) == ends[crc32(f"{name} {style}".encode()) % len(ends)]


def _drafted(name: str, **styles: str) -> Drafted:
    """Kept for no other test: nobody else asks for just these."""
    return draft_and_check(asked(name, styles=styles))


def _names_a_size(note: Note) -> bool:
    return bool({word.strip(",") for word in note.message.split()} & set(SIZES))


def _says_why(note: Note) -> bool:
    """An error says where it was written, for which sizes, and what came closest or what is in the way."""
    return bool(note.span and _names_a_size(note) and note.hints)


@pytest.mark.parametrize(
    ("name", "style", "choice"),
    [pytest.param(*case, marks=() if _sampled(*case) else pytest.mark.slow) for case in CASES],
)
def test_a_style_at_its_limit_drafts_or_says_why_not(name: str, style: str, choice: str) -> None:
    found = _drafted(name, **{style: choice})
    errors = [note for note in found.notes if note.severity is Severity.ERROR]
    assert all(_names_a_size(note) for note in found.notes)
    assert all(_says_why(note) for note in errors)
    assert found.outcome.drafted.all() or errors
    assert name not in ("ropewalk", "tidemill") or (found.outcome.drafted.all() and not errors)  # skirt and tee do


@pytest.mark.parametrize("name", PATTERNS)
@pytest.mark.parametrize("end", [0, -1])
def test_all_styles_at_one_end_together_draft_or_say_why_not(name: str, end: int) -> None:
    found = _drafted(name, **{style.name: _choices(style)[end] for style in file_of(name).styles})
    errors = [note for note in found.notes if note.severity is Severity.ERROR]
    assert all(_says_why(note) for note in errors)
    assert found.outcome.drafted.all() or errors


@pytest.mark.parametrize("name", PATTERNS)
def test_every_style_has_a_sentence(name: str) -> None:
    assert file_of(name).styles
    assert all(style.words for style in file_of(name).styles)
