"""The corners of an outline that is set on a piece: where they are found, and what is drawn about them."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given
from hypothesis import strategies as st

from draft.paper.piece.placing_lines import at_corners, corners_of

SQUARE = np.array([(0, 0), (60, 0), (60, 40), (0, 40), (0, 0)], dtype=float)
PLACES = st.tuples(*(st.floats(-300, 300).map(lambda mm: round(mm, 2)) for _ in range(2)))


def test_a_closed_outline_has_a_corner_where_it_closes_and_a_curve_has_none() -> None:
    assert corners_of(SQUARE).tolist() == [1, 2, 3, 4]
    turns = np.radians(np.arange(0, 181, 10.0))
    assert not len(corners_of(50 * np.stack([np.cos(turns), np.sin(turns)], axis=-1)))
    assert not len(corners_of(SQUARE[:2]))


def test_what_is_drawn_of_an_outline_is_less_the_longer_its_sides_are() -> None:
    assert len(at_corners(SQUARE[:2])) == 1
    assert sum(shapely.LineString(line).length for line in at_corners(SQUARE)) <= 8 * 12.0 + 1e-9


def test_an_end_of_an_open_line_is_marked_by_a_stroke_across_it() -> None:
    pocket = np.array([(0, 0), (0, 60), (50, 60), (50, 0)], dtype=float)
    assert len(at_corners(pocket)) == 6
    for end in ([(-2.5, 0), (2.5, 0)], [(47.5, 0), (52.5, 0)]):
        drawn = [np.sort(line, axis=0) for line in at_corners(pocket) if len(line) == 2]
        assert any(np.allclose(line, end) for line in drawn)


@given(st.lists(PLACES, min_size=2, max_size=8, unique=True))
def test_what_is_drawn_of_a_line_lies_on_it_and_has_its_ends(places: list[tuple[float, float]]) -> None:
    points = np.array(places)
    whole, drawn = shapely.LineString(points), [shapely.LineString(line) for line in at_corners(points)]
    beside = [line for line in drawn if not line.within(whole.buffer(0.01))]
    across = [line for line in beside if abs(line.length - 5.0) < 1e-6]
    assert len(across) == len(beside) <= 2
    middles = [line.interpolate(2.5) for line in across]
    assert all(min(middle.distance(shapely.Point(points[k])) for k in (0, -1)) < 0.01 for middle in middles)
    ends = [shapely.Point(points[k]) for k in (0, -1)]
    assert all(min(line.distance(end) for line in drawn) < 0.01 for end in ends)
