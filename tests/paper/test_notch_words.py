"""On one size the part of the way stands beside its notch; in a nest it stands with the size's name."""

from __future__ import annotations

import numpy as np
import shapely

from draft.geometry.length import length
from draft.paper.drawing.drawing import Label
from draft.paper.drawing.wording import Wording
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


def test_a_notch_of_the_designers_bears_her_words_in_the_printed_language() -> None:
    garment = bundled("ropewalk").garment
    german = Wording("de", "cm", {"side seam": "Seitennaht", "centre front": "vordere Mitte", "lap": "Untertritt"})
    for wording, words in ((Wording(), ("side seam", "centre front")), (german, ("Seitennaht", "vordere Mitte"))):
        drawn = draw_piece(garment, garment.piece("waistband"), [garment.sizes.index("M")], wording=wording)
        said = [label.text for label in _labels(drawn)]
        assert [said.count(word) for word in words] == [2, 1]
        assert "1/2" not in said


def test_where_a_zip_ends_and_a_slit_begins_is_said_at_the_notch() -> None:
    garment = bundled("ropewalk", back_slit="yes").garment
    said = [label.text for label in _labels(draw_piece(garment, garment.piece("back"), [garment.sizes.index("M")]))]
    assert said.count("end of zip") == 1 and said.count("top of slit") == 1
    back = garment.piece("back")
    zip_end = next(notch for notch in back.notches if notch.ends == "lapped zip")
    opening = next(one for join in garment.joins for one in join.openings if one.use == "lapped zip")
    from_start = zip_end.at - opening.length
    from_end = length(back.edge(zip_end.edge).segments) - zip_end.at - opening.length
    assert np.allclose(from_start, 0.0, atol=0.01) or np.allclose(from_end, 0.0, atol=0.01)


def test_in_a_nest_the_words_stand_with_each_size() -> None:
    garment = bundled("ropewalk").garment
    said = [label.text for label in _labels(_drawn("ropewalk", "waistband"))]
    assert all(said.count(f"side seam {size}") == 2 for size in garment.sizes)
    assert said.count("lap") == 2  # where all sizes have it


def test_the_key_explains_the_middle_alone_where_there_are_no_quarters() -> None:
    tops = signs_of(bundled("marlpit").garment, "both", [0])
    assert "half" not in tops and "worded" not in tops
    skirt = signs_of(bundled("ropewalk").garment, "both", [0])
    assert "worded" in skirt and "part" not in skirt and "half" not in skirt
