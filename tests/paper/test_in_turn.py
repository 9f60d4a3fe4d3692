"""Places for words looked at few by few are those that looking at each alone finds."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.paper.drawing.room import corners_of, rectangles
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.in_turn import Places, first_places, nearest_of, take_first
from draft.paper.piece.taken_in_turn import Offer, taken_in_turn

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
@given(st.integers(0, 10**6), st.lists(st.integers(0, 60), min_size=1, max_size=6))
def test_places_taken_together_are_those_taken_one_by_one(seed: int, counts: list[int]) -> None:
    random = np.random.default_rng(seed)
    taken = lines_and_areas(random)
    together, one_by_one = Clutter(taken), Clutter(taken)
    wishes = [
        Places(corners_of(random.uniform(-40, 40, (n, 2)), 30.0, random.uniform(8, 20, n), 3.0), INSIDES[k % 2])
        for k, n in enumerate(counts)
    ]
    nearest = nearest_of(wishes, together)
    for part in (slice(0, 2), slice(2, None)):
        expected = []
        for place in first_places(wishes[part], one_by_one):
            expected.append(place and place[0])
            one_by_one.take(*(place[1:] if place else ()))
        assert take_first(wishes[part], nearest[part], together) == expected


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.lists(st.integers(0, 5), min_size=1, max_size=12))
def test_what_is_taken_keeps_more_clear_than_was_looked_for(seed: int, counts: list[int]) -> None:
    """Wishes that find none, and have more, are answered by whoever asks before the next is."""
    random = np.random.default_rng(seed)
    clutter, placed = Clutter([]), list[shapely.Geometry]()
    middles = [random.uniform(-20, 20, (n, 2)) for n in counts]
    offers = [Offer(rectangles(at, 0.0, 5.0, 2.0), rectangles(at, 0.0, 5.0, 2.0, 1.0), bool(k % 2))
              for k, at in enumerate(middles)]  # fmt: skip
    for offer, number in zip(offers, taken_in_turn(offers, clutter), strict=True):
        free = (k for k, shape in enumerate(offer.shapes) if not any(shape.intersects(one) for one in placed))
        assert number == next(free, None)
        other = shapely.Point(random.uniform(-20, 20, 2)).buffer(3)
        if number is not None:
            placed.append(offer.takes[number])
        elif offer.more:
            placed.append(other)
            clutter.take(other)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_a_stroke_crosses_as_its_line_does(seed: int) -> None:
    random = np.random.default_rng(seed)
    lines = lines_and_areas(random)[:6]
    begins, ends = random.uniform(-70, 70, (2, 20, 2))
    strokes = [shapely.LineString([a, b]) for a, b in zip(begins, ends, strict=True)]
    assert Clutter(lines).cross(begins, ends).tolist() == [any(one.intersects(s) for one in lines) for s in strokes]
