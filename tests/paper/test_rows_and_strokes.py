"""What is looked at for all sizes at once is what looking at each alone finds: rows of names, and notches in line."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.arrays import Floats
from draft.geometry.cubic import line
from draft.paper.drawing.drawing import Item, Label
from draft.paper.drawing.room import label_spot
from draft.paper.piece.clutter import KEPT, Clutter
from draft.paper.piece.names_gathered import Grounds
from draft.paper.piece.names_in_row import _clear_rows, _Row, _rows, in_row
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.sizes_drawn import Sizes
from draft.paper.piece.surface import ANYWHERE
from draft.paper.piece.together import _shortened

SHEET = shapely.box(0, 0, 200, 160)


def _sizes(count: int) -> Sizes:
    return Sizes([f"S{k}" for k in range(count)], [SHEET.buffer(-k) for k in range(count)], ANYWHERE, Grounds(tuple))


def _thicket(random: np.random.Generator) -> Clutter:
    lines = [shapely.LineString(ends) for ends in random.uniform(0, 200, (int(random.integers(0, 9)), 2, 2))]
    return Clutter([*lines, *(shapely.box(x, y, x + 14, y + 4) for x, y in random.uniform(0, 150, (4, 2)))])


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6), st.integers(1, 7))
def test_rows_are_clear_as_each_alone_is(seed: int, count: int) -> None:
    random = np.random.default_rng(seed)
    clutter, sizes = _thicket(random), _sizes(count)
    clutter.take(shapely.box(60, 40, 90, 44), shapely.LineString([(0, 90), (200, 95)]))
    inward = np.array([[0.0, 1.0], [1.0, 0.0]][seed % 2])
    anchors = [Anchor(k, np.array([50.0 + 4 * k, 30.0 + 3 * (k % 2)]), inward) for k in range(count)]
    row = _Row.of(anchors, sizes)
    alone = []
    for number in np.ndindex(_rows(row).shape[:2]):
        middles = _rows(row)[number]
        names, lines = row.shapes(middles), row.leaders(middles)
        roomy = all(sizes.shapes[k].contains(name) for k, name in enumerate(names)) and clutter.free(names).all()
        apart = all(not one.intersects(name) for k, one in enumerate(lines) for j, name in enumerate(names) if j != k)
        if roomy and apart and clutter.off_words(lines).all():
            alone.append(number)
    assert [number for number, _ in _clear_rows(row, clutter)] == alone


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6), st.integers(2, 7))
def test_a_row_that_is_set_is_kept_clear(seed: int, count: int) -> None:
    random = np.random.default_rng(seed)
    clutter, sizes = _thicket(random), _sizes(count)
    found: list[list[Item]] = [[] for _ in range(count)]
    points = random.uniform((40, 20), (110, 60), (count, 2))
    if in_row([Anchor(k, points[k], np.array([0.0, 1.0])) for k in range(count)], sizes, clutter, found):
        labels = [item for items in found for item in items if isinstance(item, Label)]
        shapes = np.array([label_spot(label).shape(KEPT / 2) for label in labels])
        assert len(labels) == count and clutter.off_lines(shapes).all() and not clutter.free(shapes).any()


STROKES = st.lists(st.tuples(st.floats(-12, 12), st.floats(-2, 2), st.floats(0, 6)), min_size=1, max_size=2)


@given(st.lists(STROKES, min_size=1, max_size=6), st.floats(0, 6.2))
def test_strokes_of_all_sizes_are_shortened_as_each_alone(
    sizes: list[list[tuple[float, float, float]]], angle: float
) -> None:
    way = np.array([np.cos(angle), np.sin(angle)])
    aside = np.array([-way[1], way[0]])
    strokes = [
        np.array([line(a * way + b * aside, (a + long) * way + b * aside)[None] for a, b, long in some])
        for some in sizes
    ]
    for k, found in enumerate(_shortened(strokes)):
        others = [other[0, 0] for j, some in enumerate(strokes) if j != k for other in some]
        assert np.allclose(found, np.array([_alone(one, np.reshape(others, (-1, 2))) for one in strokes[k]]))


def _alone(stroke: Floats, others: Floats) -> Floats:
    """A stroke that ends before the nearest of the points `(n, 2)` that lies in line with it."""
    start, end = stroke[0, 0], stroke[0, 3]
    long = float(np.hypot(*(end - start)))
    way = (end - start) / max(long, 1e-9)
    ahead, aside = (others - start) @ way, (others - start) @ np.array([-way[1], way[0]])
    near = ahead[(np.abs(aside) < 1.2) & (ahead > 1.0 / 3) & (ahead < long + 1.0)]
    most = max(1.0, 0.6 * float(near.min())) if len(near) else long
    return line(start, start + min(long, most) * way)[None]
