"""Cloth that cannot be, and pieces that cannot be laid: one clear message, with the piece's name."""

import math
from dataclasses import replace

import numpy as np
import pytest

from draft.base.notes import Problems
from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth, checked
from draft.cloth.cut_pieces import cut_pieces_of, made, stop_if_too_many, stretch_notes, times
from draft.cloth.effort import Effort
from draft.cloth.needs import Size, cloth_needs
from tests.asking import bundled
from tests.cloth.made_up import rectangle


@pytest.fixture(scope="module")
def garment():
    return bundled("marlpit", "M", "3XL").garment


@pytest.mark.parametrize(
    "cloth, message",
    [
        (Cloth(0.0), "has no width"),
        (Cloth(-5.0), "has no width"),
        (Cloth(math.nan), "has no width"),
        (Cloth(math.inf), "has no width"),
        (Cloth(58_000.0), "wider than any loom"),
        (Cloth(1400.0, shrink_across=-0.05), "across is less than nothing"),
        (Cloth(1400.0, shrink_down=-0.05), "down is less than nothing"),
        (Cloth(1400.0, shrink_down=5.0), "would leave less than half"),
        (Cloth(1400.0, ends=-1.0), "cannot be kept free"),
    ],
)
def test_cloth_that_cannot_be(cloth, message):
    with pytest.raises(Problems) as problems:
        checked(cloth)
    (note,) = problems.value.notes
    assert message in note.message and note.hints


def test_everything_wrong_with_a_cloth_is_said_at_once():
    with pytest.raises(Problems) as problems:
        checked(Cloth(0.0, shrink_across=-1.0, shrink_down=2.0))
    assert len(problems.value.notes) == 3


def test_a_piece_wider_than_the_cloth_is_named(garment):
    sizes = [Size(name, cut_pieces_of(garment, body), Shelf()) for body, name in enumerate(garment.sizes)]
    with pytest.raises(Problems) as problems:
        cloth_needs(sizes, [Cloth(800.0)], Effort())
    assert all("wide, and the cloth only 80 cm" in note.message for note in problems.value.notes)
    assert "`front` in size 3XL" in str(problems.value)


def test_shrinkage_can_make_the_cloth_too_narrow():
    size = Size("M", (made(1, "front", "M", 1, rectangle(980, 600)),), Shelf())
    cloth_needs([size], [Cloth(1000.0)], Effort())
    with pytest.raises(Problems, match=r"`front` in size M is 98 cm wide, and the cloth only 95 cm once washed"):
        cloth_needs([size], [Cloth(1000.0, shrink_across=0.05)], Effort())


def test_a_kind_of_lay_that_cannot_hold_a_piece():
    size = Size("M", (replace(made(1, "front", "M", 1, rectangle(980, 600)), fold=None),), Shelf())
    with pytest.raises(Problems, match="`front` in size M cannot be laid with one fold"):
        cloth_needs([size], [Cloth(1000.0)], Effort(), foldings=("one fold",))


def test_thousands_of_pieces_name_the_piece():
    cut_pieces = (made(1, "front", "M", 1, rectangle(98, 60)), made(2, "loop", "M", 5, rectangle(20, 60)))
    with pytest.raises(Problems) as problems:
        stop_if_too_many(tuple(times(cut_piece, 1000) for cut_piece in cut_pieces))
    assert "6,000 pieces" in str(problems.value) and "`loop` in size M alone is cut 5,000 times" in str(problems.value)


def test_many_pieces_are_laid_in_bounded_time():
    cut_pieces = (made(1, "leaf", "M", 120, rectangle(98, 60)),)
    ((need,),) = cloth_needs([Size("M", cut_pieces, Shelf())], [Cloth(1000.0)], Effort(looks=50), foldings=("open",))
    assert need.length == pytest.approx(120 * 60 / 10, abs=0.5)  # ten beside one another


def test_a_size_that_was_not_drafted(garment):
    spoilt = replace(garment.pieces[0].edges[0], segments=np.full_like(garment.pieces[0].edges[0].segments, np.nan))
    piece = replace(garment.pieces[0], edges=(spoilt, *garment.pieces[0].edges[1:]))
    with pytest.raises(Problems, match="could not be drafted for M"):
        cut_pieces_of(replace(garment, pieces=(piece, *garment.pieces[1:])), 0)


def test_a_pattern_without_pieces(garment):
    with pytest.raises(Problems, match="has no pieces"):
        cut_pieces_of(replace(garment, pieces=()), 0)


def test_a_line_that_crosses_itself_is_named(garment):
    band = next(piece for piece in garment.pieces if piece.name == "neckband")
    edges = [replace(edge, allowance=0.0) for edge in band.edges]
    edges[0], edges[1] = edges[1], edges[0]  # the outline now jumps, and crosses itself
    spoilt = replace(band, edges=tuple(edges))
    with pytest.raises(Problems, match="`neckband` in size M crosses itself"):
        cut_pieces_of(replace(garment, pieces=(spoilt,)), 0)


def test_a_woven_piece_that_names_no_stretch_is_not_asked_for_it(garment):
    band = next(piece for piece in garment.pieces if piece.name == "neckband")
    lengthwise = replace(band, stretch=band.grain, stretches=False)
    assert stretch_notes(replace(garment, pieces=(lengthwise,), cloth={})) == ()


def test_grain_and_stretch_that_are_not_square(garment):
    band = next(piece for piece in garment.pieces if piece.name == "neckband")
    assert stretch_notes(garment) == ()
    (note,) = stretch_notes(replace(garment, pieces=(replace(band, stretch=band.grain),)))
    assert "`neckband`" in note.message
