"""Cutting lines drawn all at once are those drawn one by one; what is not plain is left to the latter."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from outlines import ALLOWANCE, HEM, TOPS, backwards, curve, edge, half_top, is_a_garment, piece, polygon

from draft.garment.garment import Garment, Piece
from draft.geometry.flatten import flatten
from draft.seams.allowance import _one_by_one, cut_together, cutting_line, cutting_lines, sewing_line
from draft.seams.at_once import plain_cutting_lines
from draft.seams.proof import is_proved
from tests.asking import bundled

CLOSE = 0.005  # mm: both flattened within a thousandth; fitted curves are the same


def random_polygon(seed: int) -> Piece:
    """A star of three to seven straight edges, each of its own width, one of them perhaps a hem or a fold."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(3, 8))
    turn, reach = np.sort(rng.uniform(0, 2 * np.pi, count)), rng.uniform(60, 300, count)
    corners = np.stack([reach * np.cos(turn), reach * np.sin(turn)], axis=1)[:: int(rng.choice([1, -1]))]
    kind = {f"e{rng.integers(count)}": str(rng.choice(["mirror", "fold", "plain"]))}
    return polygon(corners, rng.choice([0, 6, ALLOWANCE, HEM], count), **kind)


def ring(path: np.ndarray) -> shapely.LinearRing:
    return shapely.LinearRing(flatten(path, 1e-3))


def at_once(shape: Piece) -> np.ndarray | None:
    """The plain cutting line of a piece of one body, if it is proved."""
    line = plain_cutting_lines([shape], 0.01)[0][0]
    return line if line is not None and is_proved(shape, 0, sewing_line(shape, 0), line) else None


def is_alike(shape: Piece) -> bool:
    """Whether the piece is plain; its line is that drawn with its corners looked at one by one."""
    line = at_once(shape)
    if line is None:
        return False
    assert shapely.hausdorff_distance(ring(line), ring(_one_by_one(shape, 0, 0.01))) < CLOSE
    return True


@pytest.fixture(scope="module", params=["marlpit", "ropewalk", "tidemill"])
def garment(request: pytest.FixtureRequest) -> Garment:
    return bundled(request.param).garment


@pytest.mark.parametrize("name", ["marlpit", "tidemill", "roundhouse", "slipway"])
def test_a_piece_without_darts_is_plain_in_every_size(name: str) -> None:
    garment = bundled(name).garment
    lines = plain_cutting_lines(garment.pieces, 0.01)
    for shape, of_piece in zip(garment.pieces, lines, strict=True):
        for body, line in enumerate(of_piece):
            assert line is not None, (shape.name, body)
            assert shapely.hausdorff_distance(ring(line), ring(_one_by_one(shape, body, 0.01))) < CLOSE


def test_all_at_once_is_each_alone(garment: Garment) -> None:
    for shape, of_piece in zip(garment.pieces, cutting_lines(garment.pieces), strict=True):
        for body, line in enumerate(of_piece):
            assert np.array_equal(line, cutting_line(shape, body))
            alone = replace(shape, edges=tuple(replace(e, segments=e.segments[body : body + 1]) for e in shape.edges))
            assert np.array_equal(line, cutting_line(alone, 0))


@settings(max_examples=25, deadline=None)
@given(TOPS, st.sampled_from(["mirror", "meet"]), st.lists(st.sampled_from([6.0, ALLOWANCE, HEM]), min_size=7))
def test_random_tops_come_out_the_same(measures: dict[str, float], hem: str, widths: list[float]) -> None:
    top = half_top(**measures, hem=hem)
    assume(is_a_garment(top))
    is_alike(top)
    each = zip(top.edges, widths, strict=False)
    is_alike(piece(*(e if e.on_fold else replace(e, allowance=width) for e, width in each)))


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000))
def test_random_polygons_come_out_the_same(seed: int) -> None:
    shape = random_polygon(seed)
    assume(shapely.Polygon(sewing_line(shape, 0)[:, 0]).is_valid)
    is_alike(shape)


def test_plain_are_square_slanting_and_hollow_corners_of_straight_edges() -> None:
    assert is_alike(polygon([(0, 0), (300, 0), (300, 200), (0, 200)]))
    assert is_alike(polygon([(0, 0), (300, 0), (260, 200), (150, 90), (0, 200)], [ALLOWANCE, 6, HEM, HEM, 0]))


@pytest.mark.parametrize("seed", [248, 1074, 1271, 1662, 2244, 3118, 6034])
def test_a_corner_that_trims_away_more_than_there_is_is_not_plain(seed: int) -> None:
    assert not is_alike(random_polygon(seed))


def test_plain_are_outlines_run_clockwise() -> None:
    assert is_alike(backwards(polygon([(0, 0), (300, 0), (260, 200), (0, 200)])))


@pytest.mark.parametrize("lean", [-60, 0, 60])
@pytest.mark.parametrize("turned", [False, True])
def test_plain_are_hems_of_leaning_sides_whether_straight_or_bent(lean: float, turned: bool) -> None:
    for bend in (0, 8):
        shape = piece(
            edge("hem", curve([(0, 0), (100, 0), (200, 0)], (1, 0), (1, 0)), HEM, corner="mirror"),
            edge("side", curve([(200, 0), (200 + lean / 2 + bend, 100), (200 + lean, 200)], None, None)),
            edge("top", curve([(200 + lean, 200), (-lean, 200)], None, None)),
            edge("other_side", curve([(-lean, 200), (-lean / 2 - bend, 100), (0, 0)], None, None)),
        )
        is_alike(backwards(shape) if turned else shape)
    assert is_alike(polygon([(0, 0), (200, 0), (200 + lean, 200), (-lean, 200)], e0="mirror"))


@pytest.mark.parametrize("hem", [0.6, 1.0, 2.0])
def test_plain_are_the_mirrored_corners_of_the_narrowest_hems(hem: float) -> None:
    assert is_alike(polygon([(0, 0), (200, 0), (260, 200), (-60, 200)], [hem, 0.5, 0.5, 0.5], e0="mirror"))


@pytest.mark.parametrize("turned", [False, True])
def test_plain_is_a_hem_as_wide_as_several_parts_of_the_side_that_ends_its_outline(turned: bool) -> None:
    side = curve([(0, 0), (-2, 10), (-5, 20), (-9, 30), (-30, 200)], (-0.2, 1), (-0.1, 1))
    rest = polygon([(-30, 200), (-200, 200), (-200, 0), (0, 0)], e2="mirror").edges[:3]
    ends_with_side = piece(*rest[:2], replace(rest[2], allowance=HEM), edge("side", side))
    shape = backwards(ends_with_side) if turned else ends_with_side
    assert is_alike(shape)


def test_not_plain_are_a_long_spike_a_corner_asked_for_and_a_hollow_between_curves() -> None:
    square = polygon([(0, 0), (50, 0), (50, 50), (0, 50)])
    asked = piece(replace(square.edges[0], end_corner="cut"), *square.edges[1:])
    spike = polygon([(0, 0), (200, 0), (0, 30)])
    hollow = piece(
        edge("below", curve([(0, 0), (200, 0)], (1, -0.2), (1, 0.2))),
        edge("one", curve([(200, 0), (100, 60)], (-1, 0), (-0.3, -1))),
        edge("other", curve([(100, 60), (0, 0)], (-0.3, 1), (0, -1))),
    )
    for shape in (asked, spike, hollow):
        assert at_once(shape) is None
        assert is_proved(shape, 0, sewing_line(shape, 0), cutting_line(shape, 0)) or shape is asked


def test_a_body_that_was_not_drafted_leaves_the_others_as_they_are() -> None:
    square = polygon([(0, 0), (50, 0), (50, 50), (0, 50)])
    segments = [np.concatenate([e.segments, np.full((1, 1, 4, 2), np.nan)]) for e in square.edges]
    two = piece(*(replace(e, segments=s) for e, s in zip(square.edges, segments, strict=True)))
    assert np.array_equal(cutting_line(two, 0), cutting_line(square, 0))
    assert np.isnan(cutting_line(two, 1)).all()


def test_pieces_that_are_cut_together_are_cut_as_each_alone() -> None:
    pieces = [replace(one) for one in bundled("marlpit").garment.pieces]  # others than any that is kept
    cut_together(pieces)
    for one in pieces:
        lines = cutting_lines([one])[0]
        assert all(np.allclose(cutting_line(one, body), line, atol=1e-9) for body, line in enumerate(lines))
    cut_together([])
