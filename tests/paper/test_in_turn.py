"""Places for words looked at few by few are those that looking at each alone finds."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.paper.drawing.room import corners_of
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.in_turn import Places, first_places

INSIDES = (shapely.Point(0, 0).buffer(60), shapely.box(-80, -20, 80, 20), shapely.Polygon())


def lines_and_areas(random: np.random.Generator) -> list[object]:
    ends = random.uniform(-70, 70, (6, 2, 2))
    boxes = [shapely.Point(at).buffer(4) for at in random.uniform(-70, 70, (3, 2))]
    return [*(shapely.LineString(line) for line in ends), *boxes]


def alone(places: Places, taken: list[shapely.Geometry]) -> int | None:
    """The first rectangle within the shape that touches nothing, each looked at by itself."""
    for number, corners in enumerate(places.corners):
        shape = shapely.Polygon(corners)
        if places.inside.contains(shape) and not any(shape.intersects(one) for one in taken):
            return number
    return None


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.lists(st.integers(0, 90), min_size=1, max_size=4))
def test_the_first_place_of_each_wish_is_found_in_turn(seed: int, counts: list[int]) -> None:
    random = np.random.default_rng(seed)
    taken = lines_and_areas(random)
    clutter = Clutter(taken)
    wishes = [
        Places(corners_of(random.uniform(-60, 60, (n, 2)), random.uniform(-180, 180, n), 14.0, 3.0), INSIDES[k % 3])
        for k, n in enumerate(counts)
    ]
    for wish, found in zip(wishes, first_places(wishes, clutter), strict=True):
        expected = alone(wish, taken)
        assert (found and found[0]) == expected
        if found:
            assert found[1].equals(shapely.Polygon(wish.corners[found[0]]))
            clutter.take(found[1])
            taken.append(found[1])


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_a_stroke_crosses_as_its_line_does(seed: int) -> None:
    random = np.random.default_rng(seed)
    lines = lines_and_areas(random)[:6]
    begins, ends = random.uniform(-70, 70, (2, 20, 2))
    strokes = [shapely.LineString([a, b]) for a, b in zip(begins, ends, strict=True)]
    assert Clutter(lines).cross(begins, ends).tolist() == [any(one.intersects(s) for one in lines) for s in strokes]
