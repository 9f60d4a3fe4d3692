"""A terminal is given nothing that moves its cursor, turns its lines or hides; no excerpt is wider than it."""

from __future__ import annotations

import unicodedata

import pytest

from draft.base.excerpt import WIDEST, excerpt
from draft.base.notes import Source, Span, error, show
from draft.base.text_columns import in_columns
from draft.base.visible import columns, shortly, visible, visible_lines

DANGEROUS = [
    chr(code) for code in (0, 7, 8, 10, 13, 27, 127, 0x9B, 0xAD, 0x61C, 0x200B, 0x200F, 0x2028, 0x202E, 0x2066)
]


@pytest.mark.parametrize("letter", [*DANGEROUS, "\ud800", "\U000e0041"])
def test_what_a_terminal_would_obey_is_written_out(letter: str) -> None:
    shown = visible(f"a{letter}b")
    assert shown.isascii() and shown.isprintable() and shown.startswith("a\\") and shown.endswith("b")
    assert f"{ord(letter):x}" in shown.lower()


def test_letters_of_every_script_stay() -> None:
    words = "Łódź Ηλέκτρα שלום 日本語 é e\u0301 😀 \u00a0"
    assert visible(words) == words
    assert visible_lines("a\n\tb\u202e\r") == "a\n\tb\\u202e\\x0d"


def test_notes_never_hand_on_what_stands_in_a_text() -> None:
    text = "".join(DANGEROUS[:3] + DANGEROUS[5:])
    source = Source(f"a{text}.piece", f"let {text} x")
    shown = show([error(f"`{text}` is odd", Span(source, 4, 6), f"try `{text}`", related=[(Span(source, 0, 2), text)])])
    assert not [c for c in shown if c != "\n" and unicodedata.category(c) in ("Cc", "Cf", "Zl", "Zp")]


def test_a_long_quotation_is_shown_by_its_ends() -> None:
    said = shortly(f"there is no `{'x' * 5000}end` here")
    assert len(said) < 320 and said.startswith("there is no `xxx") and said.endswith("xend` here")
    assert shortly("`short` and " + "x" * 400) == "`short` and " + "x" * 400


def test_columns_are_those_of_a_terminal() -> None:
    assert [columns(text) for text in ("ab", "日本", "e\u0301", "\t", "")] == [2, 4, 1, 8, 0]
    assert in_columns([("日本", "x"), ("a", "y")]) == "日本  x\na     y"


@pytest.mark.parametrize("letters", ["x", "日", "e\u0301", "\u0301", "\u202e", "\t", "x\t日"])
@pytest.mark.parametrize("place", [0, 50_000, 99_999])
def test_an_excerpt_is_never_wider_than_a_line(letters: str, place: int) -> None:
    line = (letters * 100_000)[:100_000]
    for length in (1, 3, 100_000):
        for shown in excerpt(line, 1, place, length):
            assert columns(shown) <= WIDEST and len(shown) < 8 * WIDEST


def test_the_mark_stands_under_its_words_whatever_stands_before() -> None:
    line, mark = excerpt("日本\u202e HERE 日本", 7, 4, 4)
    assert line == "    7 | 日本\\u202e HERE 日本"
    assert columns(line[: line.index("HERE")]) == mark.index("^") and mark.count("^") == 4
    line, mark = excerpt("日" * 5000 + "HERE" + "本" * 5000, 7, 5000, 4)
    assert columns(line[: line.index("HERE")]) == mark.index("^") and mark.count("^") == 4


def test_a_line_as_long_as_plain_files_have_is_shown_whole() -> None:
    assert excerpt("x" * 150, 1, 149, 1)[0] == "    1 | " + "x" * 150
