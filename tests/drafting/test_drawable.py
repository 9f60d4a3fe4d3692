"""More sizes or outlines than are drawn at once are refused before anything is drawn or laid."""

from dataclasses import replace

import numpy as np
import pytest

from draft.base.notes import Problems
from draft.drafting.drawable import MOST_DRAWN, MOST_SIZES, stop_if_not_drawable
from draft.laying.lay_sizes import sizes_of
from draft.paper.pages.sheet import drafted_bodies
from tests.asking import bundled


def of_sizes(count):
    return replace(bundled("marlpit").garment, sizes=tuple(f"size {k}" for k in range(count)))


@pytest.mark.parametrize("ask", (stop_if_not_drawable, drafted_bodies, sizes_of))
def test_too_many_sizes_are_told(ask):
    with pytest.raises(Problems, match=f"{MOST_SIZES + 1} sizes are more") as told:
        ask(of_sizes(MOST_SIZES + 1))
    assert "--sizes" in told.value.notes[0].hints[0]


def test_so_many_sizes_pass():
    stop_if_not_drawable(of_sizes(MOST_SIZES))


def test_many_pieces_in_many_sizes_are_told():
    garment = of_sizes(50)
    crowded = replace(garment, pieces=garment.pieces * (MOST_DRAWN // 50 // len(garment.pieces) + 1))
    with pytest.raises(Problems, match="outlines"):
        stop_if_not_drawable(crowded)


def test_lines_of_miles_are_told_also_of_a_body_that_failed():
    garment = bundled("marlpit").garment
    edge = garment.pieces[0].edges[0]
    one = np.where(np.arange(len(garment.sizes)) == 2, 1e6, 1.0)[:, None, None, None]
    longer = replace(edge, segments=edge.segments * one)
    piece = replace(garment.pieces[0], edges=(longer, *garment.pieces[0].edges[1:]))
    with pytest.raises(Problems, match="m long in size M, and no piece is longer than 5 m"):
        stop_if_not_drawable(replace(garment, pieces=(piece, *garment.pieces[1:])))
    lost = replace(edge, segments=np.where(one > 1, np.nan, edge.segments))
    piece = replace(piece, edges=(lost, *piece.edges[1:]))
    stop_if_not_drawable(replace(garment, pieces=(piece, *garment.pieces[1:])))
