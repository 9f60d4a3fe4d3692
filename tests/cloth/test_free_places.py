"""Places that are free are found once and asked for below any length; regions of two rings are one face or several."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from draft.cloth.batches import Shelf
from draft.cloth.cut_pieces import made
from draft.cloth.nofit import region
from draft.cloth.places import Free, lowest_of

PIECE = made(1, "square", "", 1, np.array([(0.0, 0.0), (10.0, 0.0), (10.0, 20.0), (0.0, 20.0)]))


def test_the_lowest_places_below_a_length_come_first() -> None:
    free = Free(
        shapely.MultiPolygon([shapely.box(0, 0, 5, 5), shapely.box(50, 30, 60, 40), shapely.box(20, 10, 25, 90)])
    )
    shape = Shelf().shape(PIECE, 1, 1)
    assert lowest_of(free, shape, 21.0, 9) == [(0.0, 0.0), (5.0, 0.0)]
    assert lowest_of(free, shape, 35.0, 3) == [(0.0, 0.0), (5.0, 0.0), (20.0, 10.0)]
    assert lowest_of(free, shape, 15.0, 3) == []
    assert lowest_of(Free(None), shape, 35.0, 3) == [] and Free(None).is_none and Free(shapely.Polygon()).is_none


@pytest.mark.parametrize("hollow", [False, True])
def test_a_region_is_where_two_rings_overlap(hollow: bool) -> None:
    """Against shapely: what is moved by a move lies on the other just where that move is in the region."""
    fixed = np.array([(0, 0), (30, 0), (30, 30), (20, 30), (20, 10), (10, 10), (10, 30), (0, 30)], dtype=float)
    moving = np.array([(0, 0), (6, 0), (6, 6), (0, 6)], dtype=float)
    fixed = fixed if hollow else fixed[[0, 1, 2, 7]]
    found = region(fixed, moving)
    moves = np.random.default_rng(5).uniform(-12, 36, (400, 2))
    apart = shapely.distance(shapely.Polygon(fixed).boundary, shapely.polygons(moving[None] + moves[:, None])) > 0.01
    lies = shapely.intersects(shapely.Polygon(fixed), shapely.polygons(moving[None] + moves[:, None]))
    near = shapely.distance(found.boundary, shapely.points(moves)) < 0.01
    assert (shapely.contains_xy(found, moves)[~near] == lies[~near]).all() and apart.any() and lies.any()
