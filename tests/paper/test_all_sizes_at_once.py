"""What is made for all sizes at once is what is made for each alone; what is in the way is found as one by one."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.drafting.checked import draft_and_check
from draft.paper.drawing.drawing import Label
from draft.paper.drawing.polygons import mask
from draft.paper.drawing.room import Spot, rectangles, spot_shapes
from draft.paper.pages.sheet import draw_pattern
from draft.paper.piece.clips import clips
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.piece_drawing import PieceDrawing
from draft.paper.piece.piece_lines import Outlines, outlines_of
from tests.asking import asked


@pytest.mark.parametrize("name", ["marlpit", "lockside", "tidemill"])
def test_a_size_among_others_is_as_it_is_alone(name: str) -> None:
    garment = draft_and_check(asked(name)).garment
    sizes = [(size, body) for body, size in enumerate(garment.sizes)]
    for piece in garment.pieces:
        for together in outlines_of(piece, sizes)[::3]:
            alone = Outlines.of(garment, piece, together.body)
            assert np.array_equal(alone.cutting, together.cutting) and alone.outward == together.outward
            assert alone.cutting_shape.equals_exact(together.cutting_shape)
            assert alone.sewing_shape.equals_exact(together.sewing_shape)
            for (edge, line), (other, same) in zip(alone.cutting_edges, together.cutting_edges, strict=True):
                assert edge is other and np.array_equal(line, same)
            lengths = [ruler.length for ruler in alone.cutting_rulers]
            assert lengths == [ruler.length for ruler in together.cutting_rulers]
            for (number, strokes), (twin, same) in zip(alone.notch_strokes, together.notch_strokes, strict=True):
                assert number == twin and np.array_equal(strokes, same)
            assert all(map(np.array_equal, clips(alone), clips(together)))
            assert len(clips(alone)) == len(clips(together))


PLACES = st.tuples(*(st.integers(-50_000_000, 50_000_000).map(lambda n: n / 1e6) for _ in range(2)))
SPOTS = st.builds(
    Spot,
    st.floats(-50, 50),
    st.floats(-50, 50),
    st.floats(0.5, 30),
    st.floats(0.5, 10),
    st.sampled_from([0.0, -90, 33]),
)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.lists(PLACES, min_size=2, max_size=5), max_size=8),
    st.lists(SPOTS, max_size=4),
    st.lists(SPOTS, min_size=1),
)
def test_what_is_free_of_clutter_touches_none_of_it(
    lines: list[list[tuple[float, float]]], words: list[Spot], tried: list[Spot]
) -> None:
    every = [*map(shapely.LineString, lines), *(spot.shape() for spot in words)]
    clutter, shapes = Clutter(every), spot_shapes(tried)
    touching = np.array([[one.intersects(shape) for one in every] for shape in shapes]).reshape(len(tried), -1)
    assert (clutter.off_lines(shapes) == ~touching.any(axis=1)).all()
    placed = [spot.shape(2.0) for spot in words]
    for shape in placed:
        clutter.take(shape)
    also = np.array([[one.intersects(shape) for one in placed] for shape in shapes]).reshape(len(tried), -1)
    free = ~touching.any(axis=1) & ~also.any(axis=1)
    assert (clutter.free(shapes) == free).all()
    apart = np.flatnonzero(~also.any(axis=1))
    assert clutter.first_apart(shapes, np.ones(len(tried), dtype=bool)) == (apart[0] if len(apart) else None)


@settings(max_examples=60, deadline=None)
@given(st.lists(SPOTS, min_size=1, max_size=5), st.floats(0, 3))
def test_rectangles_of_spots_are_those_of_each(spots: list[Spot], margin: float) -> None:
    for spot, shape in zip(spots, spot_shapes(spots, margin), strict=True):
        assert np.allclose(shapely.get_coordinates(shape), shapely.get_coordinates(spot.shape(margin)), atol=1e-9)
    middles, angles = np.array([(s.x, s.y) for s in spots]), np.array([s.angle for s in spots])
    for spot, shape in zip(spots, rectangles(middles, angles, 4.0, 2.0), strict=True):
        assert shape.equals_exact(Spot(spot.x, spot.y, 4.0, 2.0, spot.angle).shape(), 1e-9)


@settings(max_examples=40, deadline=None)
@given(st.lists(PLACES, min_size=3, max_size=9, unique=True), st.floats(0.7, 9.0))
def test_cells_of_a_mask_have_their_middles_inside(corners: list[tuple[float, float]], cell: float) -> None:
    ring = np.array([*corners, corners[0]])
    count = int(120 / cell)
    found = mask([ring], np.array([-60.0, -60.0]), (cell, cell), (count, count))
    y, x = np.divmod(np.arange(count * count), count)
    at = -60.0 + (np.array([x, y]).T + 0.5) * cell
    turns = np.zeros(len(at), dtype=int)
    for a, b in pairwise(ring):
        crossed = (a[1] <= at[:, 1]) != (b[1] <= at[:, 1])
        with np.errstate(divide="ignore", invalid="ignore"):
            where = a[0] + (at[:, 1] - a[1]) * (b[0] - a[0]) / (b[1] - a[1])
        turns += crossed & (where <= at[:, 0])
    near = shapely.distance(shapely.LineString(ring), shapely.points(at)) < 1e-6
    assert (found.ravel() == (turns % 2 == 1))[~near].all()


def test_a_line_without_length_in_a_size_takes_no_name() -> None:
    """Lockside has such an edge: its sewing lines, nested, could not be drawn."""
    garment = draft_and_check(asked("lockside")).garment
    shown = draw_pattern(garment, range(len(garment.sizes)), "sewing")
    assert all(np.isfinite([label.x, label.y]).all() for piece in shown.pieces for label in _labels(piece))


def _labels(piece: PieceDrawing) -> list[Label]:
    return [item for items in piece.sized for item in items if isinstance(item, Label)]
