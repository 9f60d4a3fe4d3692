"""What is in the stash: lengths, several of them, odd shapes; and files and words that are no cloth."""

import numpy as np
import pytest
import shapely

from draft.base.notes import Problems
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import made
from draft.cloth.effort import Effort
from draft.cloth.remnant import (
    Remnant,
    fits_length,
    fits_remnant,
    length_outline,
    read_outline,
    read_rectangle,
    side_by_side,
)
from draft.cloth.verify import faults
from tests.cloth.made_up import ell
from tests.cloth.made_up import rectangle as piece

EFFORT = Effort(1000, 3)
TWO = (made(1, "front", "M", 1, piece(700, 600)), made(2, "back", "M", 1, piece(600, 600)))


def test_a_length_that_is_enough():
    """Side by side on 1400 mm they take 600, and 25 at both ends: 650 is just enough, and no mm less."""
    cloth = Cloth(1400.0, ends=25.0)
    answer = fits_length(TWO, cloth, 650.0, EFFORT)
    assert answer.fits and answer.lay.length == pytest.approx(600, abs=0.06)
    short = fits_length(TWO, cloth, 640.0, EFFORT)
    assert not short.fits and short.missing == pytest.approx(10, abs=0.1)


def test_what_washing_takes_counts():
    cloth = Cloth(1400.0, shrink_down=0.05, ends=0.0)
    assert not fits_length(TWO, cloth, 620.0, EFFORT).fits
    assert fits_length(TWO, cloth, 632.0, EFFORT).fits  # 600 / 0.95 = 631.6


def test_a_stash_shorter_than_its_ends():
    answer = fits_length(TWO, Cloth(1400.0, ends=25.0), 40.0, EFFORT)
    assert not answer.fits and answer.missing == pytest.approx(610, abs=0.1)


def test_two_lengths_of_which_each_holds_one_piece():
    remnant = side_by_side([length_outline(620.0, 710.0), length_outline(600.0, 600.0)])
    answer = fits_remnant(TWO, remnant, True, EFFORT)
    assert answer.fits and faults(answer.lay, TWO, remnant.shape) == []


def test_two_lengths_of_which_one_is_too_small_names_what_is_left():
    answer = fits_remnant(TWO, side_by_side([length_outline(620.0, 710.0), length_outline(590.0, 600.0)]), True, EFFORT)
    assert not answer.fits and [cut_piece.name for cut_piece in answer.left_over] == ["back"]


def test_a_piece_never_lies_across_two_lengths():
    answer = fits_remnant(
        TWO[:1], side_by_side([length_outline(620.0, 400.0), length_outline(620.0, 400.0)]), False, EFFORT
    )
    assert not answer.fits


def test_an_odd_shape_that_takes_the_same_shape():
    """An L of cloth takes an L of the same size, and nothing more."""
    cut_piece = made(1, "yoke", "M", 1, ell(300, 400, 120, 150))
    remnant = Remnant((ell(300, 400, 120, 150),))
    answer = fits_remnant([cut_piece], remnant, True, EFFORT)
    assert answer.fits and faults(answer.lay, [cut_piece], remnant.shape) == []
    bar = made(2, "bar", "M", 1, piece(20, 20))
    assert not fits_remnant([cut_piece, bar], remnant, True, EFFORT).fits


def test_turning_lets_a_piece_fit_an_odd_shape():
    cut_piece = made(1, "yoke", "M", 1, ell(300, 400, 120, 150), "right side up")
    remnant = Remnant((-ell(300, 400, 120, 150) + np.array([300.0, 400.0]),))
    assert not fits_remnant([cut_piece], remnant, True, EFFORT).fits
    assert fits_remnant([cut_piece], remnant, False, EFFORT).fits


@pytest.mark.parametrize("text", ["1.4 m x 148 cm", "1.4mx148cm", "1.4 m by 148 cm", "140cm × 1480mm"])
def test_rectangles_as_they_are_written(text):
    assert read_rectangle(text) == pytest.approx((1400.0, 1480.0))


@pytest.mark.parametrize("text", ["", "1.4 m", "1.4 x 148", "1 m x 2 m x 3 m", "x", "3 deg x 2 m", "0 cm x 2 m", "-1 m x 2 m", "9e9 m x 1 m", "1/0 m x 1 m"])  # fmt: skip  # noqa: E501
def test_words_that_are_no_cloth(text):
    with pytest.raises(Problems) as problems:
        read_rectangle(text)
    (note,) = problems.value.notes
    assert f"`{text}`" in note.message and "--have" in note.hints[0]


def test_an_outline_file(tmp_path):
    file = tmp_path / "rest.txt"
    file.write_text("# a corner is missing\n0, 0\n150 cm, 0 cm\n\n150 cm, 80 cm\n1 m, 1200 mm\n0 cm, 120 cm\n")
    assert shapely.Polygon(read_outline(file)).area == pytest.approx(1500 * 1200 - 500 * 400 / 2)


@pytest.mark.parametrize(
    "text, message",
    [
        ("0 cm, 0 cm\n1 m, 0 cm\n", "has 2 corners"),
        ("0 cm, 0 cm\n1 m, 1 m\n1 m, 0 cm\n0 cm, 1 m\n", "crosses itself"),
        ("0 cm, 0 cm\n5 mm, 0 cm\n0 cm, 5 mm\n", "has no area"),
        ("0 cm, 0 cm\n1 m\n0 cm, 1 m\n", "not a corner"),
        ("0 cm, 0 cm\n1 m, 2 deg\n0 cm, 1 m\n", "not a corner"),
        ("0 cm, 0 cm\n1 m, 9999 m\n0 cm, 1 m\n", "not a corner"),
        ("", "has 0 corners"),
    ],
)
def test_outline_files_that_are_no_cloth(tmp_path, text, message):
    file = tmp_path / "rest.txt"
    file.write_text(text)
    with pytest.raises(Problems, match=message):
        read_outline(file)


def test_a_missing_outline_file(tmp_path):
    with pytest.raises(Problems, match="there is no remnant's outline"):
        read_outline(tmp_path / "none.txt")
