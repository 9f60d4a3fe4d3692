"""Outlines simplified outwards: they must contain what they stand for, or a search could cut into it."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings

from draft.cloth.cut_pieces import cut_pieces_of
from draft.cloth.simplified import counterclockwise, flipped, grown, of_few_points
from tests.asking import bundled
from tests.cloth.made_up import area_of, ell, rectangle
from tests.cloth.shapes_drawn import rings

CIRCLE = 200 * np.stack([np.cos(np.linspace(0, 2 * np.pi, 240)), np.sin(np.linspace(0, 2 * np.pi, 240))], -1)[:-1]


@given(rings())
@settings(max_examples=60)
def test_a_grown_ring_contains_the_ring(ring):
    ring = counterclockwise(ring)
    outside = shapely.Polygon(ring).difference(shapely.Polygon(grown(ring, 5.0)))
    assert outside.area < 1e-6


def test_a_circle_becomes_a_few_tangents():
    few = grown(CIRCLE, 0.5)
    assert len(few) < 80
    assert shapely.Polygon(CIRCLE).difference(shapely.Polygon(few)).area < 1e-6
    assert shapely.hausdorff_distance(shapely.Polygon(few), shapely.Polygon(CIRCLE)) < 1.0


def test_straight_sides_stay_where_they_are():
    assert np.allclose(grown(rectangle(300, 40), 1.0), rectangle(300, 40))


def test_a_ring_is_turned_the_right_way_round_also_when_mirrored():
    ring = counterclockwise(rectangle(30, 20)[::-1])
    assert area_of(ring) == pytest.approx(600)
    for across, along in ((-1, 1), (1, -1), (-1, -1)):
        assert area_of(flipped(ring, across, along)) == pytest.approx(600)


@pytest.fixture(scope="module")
def marlpit():
    return bundled("marlpit", "M").garment


def test_the_outlines_of_a_top_grow_by_little(marlpit):
    for cut_piece in cut_pieces_of(marlpit, 0):
        few = grown(cut_piece.ring, 0.5)
        whole, simple = shapely.Polygon(cut_piece.ring), shapely.Polygon(few)
        assert whole.difference(simple).area < 1e-6
        assert simple.area < whole.area * 1.002
        assert len(few) <= 90


@pytest.mark.parametrize("teeth", [60, 400])
@pytest.mark.parametrize("deep", [6.0, 50.0])
def test_an_edge_of_teeth_is_searched_with_as_a_line_along_their_tips(teeth, deep):
    """What two rings keep free takes about the cube of their points, so these may not grow with the teeth."""
    across = np.linspace(0.0, 400.0, 2 * teeth + 1)
    edge = np.stack([across, np.where(np.arange(2 * teeth + 1) % 2, 600.0 + deep, 600.0)], axis=1)
    ring = counterclockwise(np.concatenate([[[0.0, 0.0], [400.0, 0.0]], edge[::-1]]))
    few = of_few_points(ring, 0.5)
    whole, line = shapely.Polygon(ring), shapely.Polygon(few)
    assert len(few) <= 6
    assert whole.difference(line).area < 1e-6
    assert line.difference(whole.convex_hull).area < 1e-6


def test_an_outline_of_few_points_keeps_its_hollows():
    ring = ell(600.0, 900.0, 200.0, 300.0)
    assert np.array_equal(of_few_points(ring, 0.5), ring)
