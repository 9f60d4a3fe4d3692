"""Tables of figures: digits of one width, fractions as signs, units as columns of a single size."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.figures_table import by_units, put_table
from draft.paper.drawing import font
from draft.paper.drawing.document import About, Leaf, pdf_document
from draft.paper.drawing.drawing import Label
from draft.paper.drawing.fractions import as_figure, with_signs
from draft.paper.drawing.ink import page_description
from tests.paper.reading import text_of

ROWS = [
    ["Bust girth", "cm", "86"], ["", "in", "33 7/8"], ["Slope", "deg", "20"], ["Hip girth", "cm", "111.5"],
    ["", "in", "43 7/8"],
]  # fmt: skip


def _labels(rows: list[list[str]], head: list[str]) -> list[Label]:
    book = Book("")
    put_table(book, head, rows)
    return [item for items in book.pages.values() for item in items if isinstance(item, Label)]


def test_digits_of_tables_are_all_as_wide() -> None:
    cells = {font.text_width(font.in_cells(digit), 1.0) for digit in "0123456789"}
    plain = {font.text_width(digit, 1.0) for digit in "0123456789"}
    assert len(cells) == 1 and len(plain) > 1
    assert "".join(map(font.said, font.in_cells("1 11.5"))) == "1 11.5"


def test_figures_of_a_table_are_read_whole() -> None:
    items = [Label(text, 20.0, 20.0 + 10 * k, 4.0, tabular=True) for k, text in enumerate(["113", "1111.5", "11⅛"])]
    ink = [page_description(100.0, 100.0, items)]
    data = pdf_document(ink, [Leaf(100.0, 100.0, marked=0)], About("", "en"), [])
    assert text_of(data, 0).split() == ["113", "1111.5", "11⅛"]


def test_a_single_size_has_its_units_as_columns() -> None:
    units, rows = by_units(ROWS)
    assert units == ["cm", "in"]
    assert [list(row[2]) for row in rows] == [["86", "33 7/8"], ["20 deg", ""], ["111.5", "43 7/8"]]
    words = [label.text for label in _labels(ROWS, ["", "", "M"])]
    assert "33⅞" in words and "M" not in words and words.count("cm") == 1


def test_whole_parts_end_below_one_another_and_heads_stand_over_them() -> None:
    rows = [["Bust girth", "cm", "86", "103"], ["", "in", "33 7/8", "40 1/2"], ["Hip girth", "cm", "95.5", "9"]]
    labels = {label.text: label for label in _labels(rows, ["", "", "S", "L"])}

    def end(figure: str, whole: str) -> float:
        label = labels[figure]
        return label.x + font.text_width(font.in_cells(whole), label.size, label.bold)

    assert end("86", "86") == pytest.approx(end("33⅞", "33")) == pytest.approx(end("95.5", "95"))
    assert end("103", "103") == pytest.approx(end("40½", "40")) == pytest.approx(end("9", "9"))
    assert labels["86"].x < labels["S"].x < end("33⅞", "33⅞")


@given(whole=st.integers(0, 60), eighths=st.integers(1, 7), unit=st.sampled_from(["in", "yd"]))
def test_a_fraction_is_one_sign_beside_its_whole_part(whole: int, eighths: int, unit: str) -> None:
    top, bottom = {2: (1, 4), 4: (1, 2), 6: (3, 4)}.get(eighths, (eighths, 8))
    figure = f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
    sign = as_figure(figure)
    assert len(sign) == (len(str(whole)) if whole else 0) + 1
    assert with_signs(f"Turn {figure} {unit} under.") == f"Turn {sign} {unit} under."


def test_what_stands_on_a_notch_is_left_as_it_is() -> None:
    assert with_signs("The notch marked 1/2 and 13/16 in") == "The notch marked 1/2 and 13/16 in"
