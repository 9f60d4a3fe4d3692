"""The name of a piece in a cutting layout stands where looking at every place finds it too."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.paper.pictures import lay_labels


@st.composite
def _shapes(draw: st.DrawFn) -> shapely.Polygon:
    count = draw(st.integers(3, 14))
    turns = np.sort(draw(st.lists(st.integers(0, 628), min_size=count, max_size=count, unique=True))) / 100
    out = np.array(draw(st.lists(st.integers(20, 100), min_size=count, max_size=count))) / 100
    scale = draw(st.sampled_from([(4.0, 4.0), (15.0, 60.0), (120.0, 40.0), (60.0, 2.0)]))
    return shapely.Polygon(np.stack([out * np.cos(turns), out * np.sin(turns)], axis=1) * scale)


@settings(max_examples=80)
@given(_shapes())
def test_the_roomiest_place_is_that_of_all_places(shape: shapely.Polygon) -> None:
    if not shape.is_valid or shape.area < 1e-3:
        return
    low_x, low_y, high_x, high_y = shape.bounds
    across, along = np.meshgrid(np.linspace(low_x, high_x, 41), np.linspace(low_y, high_y, 41))
    points = np.stack([across.ravel(), along.ravel()], axis=-1)
    inside = points[shapely.contains_xy(shape, points)]
    found = lay_labels._middle(shape)
    if not len(inside):
        assert shape.covers(shapely.Point(found))
        return
    depth = shapely.distance(shape.boundary, shapely.points(inside))
    off = np.hypot(*(inside - np.array([(low_x + high_x) / 2, (low_y + high_y) / 2])).T)
    room = np.minimum(depth, lay_labels._DEEP) - lay_labels._PULL * off
    assert (found == inside[int(np.argmax(room > room.max() - lay_labels._AS_ROOMY))]).all()
