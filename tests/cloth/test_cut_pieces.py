"""The pieces of a garment as cloth gives them: whole, upright, as often as they are cut, bands across the stretch."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import cut_pieces_of, times
from draft.cloth.effort import Effort
from draft.cloth.lays import FOLDINGS, lay_as
from draft.geometry.flatten import flatten
from draft.seams.allowance import cutting_line, opened_out
from tests.asking import bundled
from tests.cloth.made_up import area_of

QUARTER = np.array([[0.0, -1.0], [1.0, 0.0]])


@pytest.fixture(scope="module")
def garment():
    return bundled("marlpit", "M").garment


def test_parts_are_the_cutting_lines_opened_out(garment):
    for piece, cut_piece in zip(garment.pieces, cut_pieces_of(garment, 0), strict=True):
        line = flatten(opened_out(cutting_line(piece, 0), piece, 0))[:-1]
        assert cut_piece.area == pytest.approx(abs(area_of(line)), rel=1e-9)
        assert cut_piece.width == pytest.approx(np.ptp(line[:, 0])) and cut_piece.height == pytest.approx(
            np.ptp(line[:, 1])
        )
        assert cut_piece.count == piece.cut and cut_piece.name == piece.title
        assert cut_piece.folded == piece.on_fold


def test_halves_open_out_about_their_middle(garment):
    front = next(cut_piece for cut_piece in cut_pieces_of(garment, 0) if cut_piece.name == "front")
    assert front.fold == pytest.approx(front.width / 2)


def test_bands_lie_across_the_greatest_stretch(garment):
    """Their length, which stretches round the body, runs across the cloth in every lay, and the grain along it."""
    cut_pieces = cut_pieces_of(garment, 0)
    for folding in FOLDINGS:
        lay = lay_as(folding, cut_pieces, Cloth(1900.0), Effort(200, 2), Shelf())
        for placement in lay.placements:
            if "band" in placement.cut_piece.name:
                size = np.ptp(placement.ring, axis=0)
                assert size[0] > 3 * size[1]


def test_a_piece_drawn_sideways_is_laid_by_its_grain(garment):
    """Every line and the grain turned by a quarter: the cloth sees the same piece."""
    turned = tuple(
        replace(
            piece,
            edges=tuple(replace(edge, segments=edge.segments @ QUARTER.T) for edge in piece.edges),
            grain=piece.grain @ QUARTER.T,
            stretch=piece.stretch @ QUARTER.T,
        )
        for piece in garment.pieces
    )
    for one, other in zip(cut_pieces_of(garment, 0), cut_pieces_of(replace(garment, pieces=turned), 0), strict=True):
        assert (one.width, one.height) == pytest.approx((other.width, other.height))
        assert (one.fold is None) == (other.fold is None)


def test_a_fold_across_the_grain_is_not_laid_on_a_fold(garment):
    pieces = tuple(replace(piece, grain=piece.grain @ QUARTER.T) for piece in garment.pieces)
    front = next(
        cut_piece for cut_piece in cut_pieces_of(replace(garment, pieces=pieces), 0) if cut_piece.name == "front"
    )
    assert front.folded and front.fold is None


def test_pairs_stay_pairs_when_several_garments_are_laid(garment):
    band = next(piece for piece in garment.pieces if piece.cut == 2)
    slanted = replace(band.edges[1], segments=band.edges[1].segments)
    pair = replace(band, edges=(band.edges[0], slanted, *band.edges[2:]), cut_as="as a pair")
    cut_piece = cut_pieces_of(replace(garment, pieces=(pair,)), 0)[0]
    assert (times(cut_piece, 3).count, times(cut_piece, 3).mirrored) == (6, 3 * cut_piece.mirrored)


def test_a_half_on_the_bias_is_opened_about_its_own_fold(garment):
    """Both ends of the line lie on the outline, and what lies on one side of it is the mirror image of the other."""
    front = next(piece for piece in garment.pieces if piece.on_fold)
    slanting = np.array([[np.sin(np.pi / 4), np.cos(np.pi / 4)]])
    grain = np.repeat(slanting, len(front.grain), axis=0)
    (cut_piece,) = cut_pieces_of(replace(garment, pieces=(replace(front, grain=grain),)), 0)
    assert cut_piece.fold is None and cut_piece.opened is not None
    start, end = cut_piece.opened
    way = (end - start) / np.hypot(*(end - start))
    assert abs(abs(way[0]) - abs(way[1])) < 1e-9  # at 45 degrees to the grain
    away = cut_piece.ring - start
    mirrored = 2 * (away @ way)[:, None] * way - away + start
    difference = shapely.Polygon(cut_piece.ring).symmetric_difference(shapely.Polygon(mirrored))
    assert difference.area < 1.0
