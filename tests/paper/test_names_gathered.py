"""Blocks of names: looked at together as each would be alone, and looked for no longer than is paid for."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from draft.paper.drawing.room import Room, Spot
from draft.paper.piece.blocks_of_names import Blocks, Names, arrangements
from draft.paper.piece.budget import Budget
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.names_gathered import Grounds, gathered
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.surface import ANYWHERE

SHEET = shapely.box(0, 0, 400, 300)


def _anchors(count: int, far: float = 2.0) -> list[Anchor]:
    return [Anchor(k, np.array([150.0 + far * k, 120.0 + 7.0 * (k % 3)]), np.array([0.0, 1.0])) for k in range(count)]


def _names(count: int) -> Names:
    return Names([4.0 + k % 3 for k in range(count)], 2.8, [SHEET] * count, ANYWHERE)


def _clutter() -> Clutter:
    """A thicket of lines round the marks, and a word."""
    lines = [shapely.LineString([(100.0 + 3 * k, 100.0), (104.0 + 3 * k, 140.0)]) for k in range(40)]
    return Clutter([*lines, shapely.box(150, 150, 190, 170)])


@given(
    st.lists(st.tuples(st.floats(20, 380), st.floats(20, 280)), min_size=1, max_size=9),
    st.integers(1, 7),
    st.sampled_from([0.0, 30.0, -90.0]),
)
def test_places_looked_at_together_are_found_as_each_alone(
    middles: list[tuple[float, float]], count: int, angle: float
) -> None:
    anchors, names, clutter = _anchors(count), _names(count), _clutter()
    clutter.take(shapely.LineString([(0, 200), (400, 210)]))
    cells = next(iter(arrangements(count, max(names.wide), names.high, 1.6)))
    blocks = [Spot(x, y, 10.0, 20.0, angle) for x, y in middles]
    together = Blocks.of(anchors, blocks, cells, names)
    apart = together.apart(clutter, 0.6)
    clear, crossing = (set(together.clear(apart, clutter, way).tolist()) for way in (False, True))
    assert clear <= crossing <= set(apart.tolist())
    for number, block in enumerate(blocks):
        alone = Blocks.of(anchors, [block], cells, names)
        assert np.allclose(alone.middles[0], together.middles[number], atol=1e-9)
        found = alone.apart(clutter, 0.6)
        assert (len(found) == 1) == (number in apart)
        assert (len(alone.clear(found, clutter)) == 1) == (number in clear)


@given(st.floats(2, 60), st.floats(2, 40), st.floats(0, 400), st.floats(0, 300))
def test_places_come_nearest_first_and_half_a_rectangle_apart(wide: float, high: float, x: float, y: float) -> None:
    spots = list(Room(SHEET, 60).nearest(wide, high, 0.0, (x, y), 0.6, 9))
    away = [np.hypot(spot.x - x, spot.y - y) for spot in spots]
    assert all(after >= before - 1e-2 for before, after in pairwise(away))
    for k, one in enumerate(spots):
        assert all(abs(one.x - b.x) >= wide / 2 - 1e-6 or abs(one.y - b.y) >= high / 2 - 1e-6 for b in spots[:k])


@pytest.mark.parametrize("most", [0.0, 10.0, 30.0])
def test_a_search_ends_with_its_budget(most: float) -> None:
    """Marks so far apart that each is looked for alone."""
    anchors, budget = _anchors(40, far=5.0), Budget(most)
    found = gathered(anchors, _names(40), _clutter(), Grounds(lambda: [SHEET]), budget)
    assert budget.left > -60  # the step that it ended in
    assert len(found) < 40


def test_with_enough_to_spend_all_are_named() -> None:
    anchors, budget = _anchors(12, far=5.0), Budget(20_000.0)
    found = gathered(anchors, _names(12), _clutter(), Grounds(lambda: [SHEET]), budget)
    assert sorted(anchor.size for anchor, _, _ in found) == list(range(12))
    boxes = [spot.shape() for _, spot, _ in found]
    assert all(not a.intersects(b) for k, a in enumerate(boxes) for b in boxes[:k])
