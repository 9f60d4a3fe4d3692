"""What is wrong in a template is told once, and names the pieces that have it."""

from __future__ import annotations

from draft.base.notes import Note, Source, Span, caution, error
from draft.base.told_once import told_once

LINE = Span(Source("coat.piece", "a line of a template\n"), 0, 6)


def legs(piece: str, off: str = "4 mm", span: Span | None = LINE) -> Note:
    return caution(f"the legs of `{piece}.tuck` differ", span, f"at worst by {off}", f"move `{piece}.tip`")


def test_what_is_the_same_in_other_pieces_names_them() -> None:
    (told,) = told_once([legs("one"), legs("two"), legs("two"), legs("three")])
    first = legs("one")
    assert (told.message, told.span) == (first.message, first.span)
    assert told.hints == (*first.hints, "look at `two` and `three` too, where it is the same")


def test_of_many_pieces_some_are_named() -> None:
    (told,) = told_once(legs(f"sleeve{k}") for k in range(12))
    assert told.hints[-1].endswith("`sleeve6`, `sleeve7` and 4 more too, where it is the same")


def test_other_figures_places_facts_and_pieces_together_are_told_apart() -> None:
    both = error("`one.side` is longer than `two.side`", LINE)
    notes = [
        *(legs("one"), legs("two", off="9 mm"), legs("three", span=Span(LINE.source, 2, 6)), legs("four", span=None)),
        *(
            legs("five", span=None),
            both,
            error("`three.side` is longer than `two.side`", LINE),
            error("no piece", LINE),
        ),
    ]
    assert told_once(notes) == notes
