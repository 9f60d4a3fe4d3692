"""Areas inside outlines: a circle's up to its cubics, polygons by shapely, the sign by the way round."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from draft.geometry.area import outline_area, outline_areas, segment_areas
from draft.geometry.cubic import lines_through
from draft.geometry.flatten import flatten
from draft.geometry.spline import hobby

CORNERS = np.array([[0.0, 0.0], [400.0, 0.0], [430.0, 250.0], [80.0, 300.0]])


def test_a_polygon_has_its_area_and_loses_no_digits_far_away() -> None:
    wanted = shapely.Polygon(CORNERS).area
    assert outline_area(lines_through(CORNERS, closed=True)) == pytest.approx(wanted, rel=1e-12)
    assert outline_area(lines_through(CORNERS + 1e6, closed=True)) == pytest.approx(wanted, rel=1e-9)


def test_clockwise_is_negative() -> None:
    assert outline_area(lines_through(CORNERS[::-1], closed=True)) < 0


def test_curves_enclose_what_their_fine_polylines_do() -> None:
    knots = np.stack([CORNERS, CORNERS * [1.0, 1.4]])
    upper = hobby(knots, [None] * 4)
    back = np.stack([lines_through(path[[-1, 0], [3, 0]]) for path in upper])
    outlines = np.concatenate([upper, back], axis=1)
    fine = [shapely.Polygon(flatten(outline, 1e-4)).area for outline in outlines]
    assert np.abs(outline_areas(outlines)) == pytest.approx(fine, rel=1e-5)


def test_what_lies_between_a_segment_and_the_origin() -> None:
    assert segment_areas(lines_through([(100.0, 0.0), (0.0, 50.0)])) == pytest.approx([2500.0])
