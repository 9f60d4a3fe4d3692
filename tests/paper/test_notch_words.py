"""On one size the part of the way stands beside its notch; in a nest it stands with the size's name."""

from __future__ import annotations

import shapely

from draft.paper.drawing.drawing import Label
from draft.paper.pages.sign_key import signs_of
from draft.paper.piece.piece_drawing import PieceDrawing, draw_piece
from draft.paper.piece.piece_lines import FLIP, outlines_of
from tests.asking import bundled
from tests.paper.reading import words_shape

BESIDE = 12.0  # mm


def _drawn(pattern: str, piece: str, *sizes: str) -> PieceDrawing:
    garment = bundled(pattern).garment
    return draw_piece(garment, garment.piece(piece), [garment.sizes.index(size) for size in sizes or garment.sizes])


def _labels(drawn: PieceDrawing) -> list[Label]:
    items = [*drawn.shared, *(item for of_size in drawn.sized for item in of_size)]
    return [item for item in items if isinstance(item, Label)]


def test_a_single_band_says_which_notch_is_its_half() -> None:
    garment = bundled("marlpit").garment
    (one,) = outlines_of(garment.piece("neckband"), (("M", garment.sizes.index("M")),))
    words = [label for label in _labels(_drawn("marlpit", "neckband", "M")) if label.text in ("1/2", "1/4")]
    assert sorted(label.text for label in words) == ["1/2", "1/4", "1/4"]
    for number, strokes in one.notch_strokes:
        inner = shapely.Point(strokes[:, 0, 3].mean(axis=0) * FLIP)
        nearest = min(words, key=lambda label: float(words_shape(label).distance(inner)))
        assert nearest.text == one.piece.notches[number].part
        assert words_shape(nearest).distance(inner) < BESIDE


def test_in_a_nest_each_part_stands_with_its_size() -> None:
    # half of the largest band lies where three quarters of the smallest do: their order would say nothing
    garment = bundled("marlpit").garment
    notches = garment.piece("sleeve_band").notches
    smallest, largest = (sorted(float(notch.at[body]) for notch in notches) for body in (0, -1))
    assert abs(largest[1] - smallest[2]) < abs(largest[1] - smallest[1])
    said = [label.text for label in _labels(_drawn("marlpit", "sleeve_band"))]
    for size in garment.sizes:
        assert said.count(f"1/2 {size}") == 1 and said.count(f"1/4 {size}") == 2


def test_the_key_explains_parts_where_there_are_any() -> None:
    assert "part" in signs_of(bundled("marlpit").garment, "both", [0])
    assert "part" not in signs_of(bundled("breakwater").garment, "both", [0])
