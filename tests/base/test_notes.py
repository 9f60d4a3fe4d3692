"""What is wrong is shown with its place, the line, a mark under the words, and what to do."""

from __future__ import annotations

import pytest

from draft.base.excerpt import WIDEST
from draft.base.notes import (
    LONGEST,
    Problems,
    Source,
    Span,
    caution,
    either,
    error,
    nearest,
    remark,
    show,
    stop_if_errors,
)

TEXT = "let\n    ease = 4 furlongs\n\tdrop = 3 cm\n"
SOURCE = Source("tunic.piece", TEXT)


def span(words: str, source: Source = SOURCE) -> Span:
    start = source.text.index(words)
    return Span(source, start, start + len(words))


def test_a_place_is_counted_from_one() -> None:
    assert SOURCE.place(0) == (1, 1)
    assert str(span("furlongs")) == "tunic.piece:2:14"
    assert span("furlongs").text == "furlongs"
    assert (SOURCE.line(2), SOURCE.line(9)) == ("    ease = 4 furlongs", "")


def test_a_note_is_shown_with_its_line_a_mark_and_its_hints() -> None:
    note = error("`furlongs` is not a unit", span("furlongs"), "try `cm`", "or `in`")
    assert show([note]) == (
        "tunic.piece:2:14: `furlongs` is not a unit\n"
        "    2 |     ease = 4 furlongs\n"
        "      |              ^^^^^^^^\n"
        "      try `cm`\n"
        "      or `in`"
    )


def test_a_note_without_a_place_says_what_it_is() -> None:
    shown = show([error("no room", None, "make some")])
    assert shown == "error: no room\n  make some"
    assert show([caution("tight")]) == "caution: tight"


def test_what_is_no_error_says_so_beside_its_place() -> None:
    assert show([caution("tight", span("ease"))]).startswith("tunic.piece:2:5: caution: tight\n")
    assert show([remark("idle", span("ease"))]).startswith("tunic.piece:2:5: remark: idle\n")


def test_a_mark_stands_under_its_words_after_a_tab() -> None:
    lines = show([error("too deep", span("drop"))]).split("\n")
    assert lines[1:] == ["    3 | \tdrop = 3 cm", "      | \t^^^^"]


def test_a_mark_ends_with_its_line() -> None:
    whole = Span(SOURCE, 0, len(TEXT))
    assert show([error("all of it", whole)]).split("\n")[2] == "      | ^^^"


def test_another_place_is_shown_with_a_word_on_it() -> None:
    note = error("`ease` is defined twice", span("drop"), related=[(span("ease"), "it is first defined here")])
    assert "it is first defined here (tunic.piece:2:5)\n    2 |     ease" in show([note])


def test_a_very_long_line_is_shown_around_its_mark() -> None:
    source = Source("long.piece", "x" * 5000 + " HERE " + "y" * 5000)
    first, line, mark = show([error("too long", span("HERE", source))]).split("\n")
    assert first.startswith("long.piece:1:5002: ")
    assert len(line) <= WIDEST
    assert line[mark.index("^") : mark.index("^") + 4] == "HERE"
    assert line.startswith("    1 | ...") and line.endswith("...")


def test_notes_are_shown_in_reading_order_and_each_once() -> None:
    notes = [error("b", span("drop")), error("a", span("ease")), error("b", span("drop"))]
    assert [line for line in show(notes).split("\n") if "piece:" in line] == [
        "tunic.piece:2:5: a",
        "tunic.piece:3:2: b",
    ]


def test_only_errors_stop_the_work_and_all_are_raised_together() -> None:
    stop_if_errors([caution("tight"), remark("idle")])
    notes = [caution("tight"), error("no"), error("never"), error("no")]
    with pytest.raises(Problems) as caught:
        stop_if_errors(notes)
    assert [note.message for note in caught.value.notes] == ["tight", "no", "never"]
    assert str(caught.value) == "tight\nno\nnever"


def test_a_near_word_is_suggested_and_a_far_one_is_not() -> None:
    known = ["bust_ease", "hip_ease", "sleeve_length"]
    assert nearest("bust_eese", known) == ("try `bust_ease`",)
    assert nearest("colour", known) == ()
    assert nearest("x" * (LONGEST + 1), ["x" * (LONGEST + 1)]) == ()


def test_alternatives_are_listed_as_they_are_said() -> None:
    assert [either(list(words)) for words in ("a", "ab", "abc")] == ["a", "a or b", "a, b or c"]
