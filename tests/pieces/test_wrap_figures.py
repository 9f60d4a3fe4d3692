"""The Breakwater wrap jacket against what drafting handbooks say of wraps, and that its two fronts are two.

Figures of handbooks are common practice, from memory, given as ranges that several of them share.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.seams.joins_in_order import joins_in_order
from tests.asking import bundled
from tests.pieces.bundled import chord_length, finished, place_on, points

M = 2  # the place of size M in the chart


def _line(piece: str, edge: str, **styles: str) -> Floats:
    return points(bundled("breakwater", **styles).garment.piece(piece).edge(edge)) / 10


def test_the_bust_has_the_ease_of_an_easy_jacket() -> None:
    """12 to 24 cm for a jacket with sleeves cut on; from memory."""
    found = bundled("breakwater")
    ease = finished(found.garment, "bust") - found.bodies.values["bust_girth"] / 10
    assert np.all((ease >= 12) & (ease <= 24))


def test_the_fronts_overlap_as_far_as_a_wrap_must() -> None:
    """15 to 25 cm, so that it stays shut when one sits down; from memory. Read off the drawn edges."""
    right, left = _line("right_front", "right_edge"), _line("left_front", "left_edge")
    overlap = right[..., 0].max(axis=1) - left[..., 0].min(axis=1)
    assert np.all((overlap >= 15) & (overlap <= 25))
    assert np.allclose(overlap, finished(bundled("breakwater").garment, "overlap"), atol=0.01)


def test_the_right_front_goes_further_than_the_left_one() -> None:
    for styles in ({}, {"crosses": "11 cm", "under": "10 cm"}):
        right, left = _line("right_front", "right_edge", **styles), _line("left_front", "left_edge", **styles)
        assert np.all(right[..., 0].max(axis=1) > -left[..., 0].min(axis=1))


def test_the_right_front_lies_to_the_left_of_who_looks_at_the_wearer() -> None:
    """Both are cut with the right side up: the side seam of her right front is then at the left of the paper."""
    garment = bundled("breakwater").garment
    for name, edge, way in (("right_front", "right_underarm", -1), ("left_front", "underarm", 1)):
        assert garment.piece(name).cut_as == "right side up"
        side = points(garment.piece(name).edge(edge))[..., 0].mean(axis=1)
        assert np.all(way * side > 0)


@pytest.mark.parametrize(
    ("front", "edge", "facing", "faced"),
    [
        ("right_front", "right_edge", "right_facing", "right_faced"),
        ("left_front", "left_edge", "left_facing", "left_faced"),
    ],
)
def test_a_facing_is_its_front_edge_turned_over(front: str, edge: str, facing: str, faced: str) -> None:
    one, other = _line(front, edge), _line(facing, faced) * np.array([-1.0, 1.0])
    ends = [np.sort(line[:, (0, -1), 1], axis=1) for line in (one, other)]
    assert np.allclose(*ends, atol=1e-6)
    garment = bundled("breakwater").garment
    lengths = [chord_length(garment.piece(p).edge(e)) for p, e in ((front, edge), (facing, faced))]
    assert np.allclose(*lengths, atol=1e-3)
    assert all(join.is_facing for join in garment.joins if join.name in ("right_edge", "left_edge", "back_neck"))


def test_a_front_edge_runs_straight_from_the_shoulder_and_then_down() -> None:
    """A straight edge lies close to the breast; one that is hollowed gapes: common practice."""
    line = _line("right_front", "right_edge")[M]
    high = line[np.argmax(line[:, 1])]
    slant = line[(line[:, 1] < high[1] - 1) & (line[:, 1] > high[1] - 30)]
    ways = (slant - high) / np.hypot(*(slant - high).T)[:, None]
    assert np.allclose(ways, ways[0], atol=1e-3)


def test_the_neck_runs_on_over_the_shoulder_into_the_slant() -> None:
    """Seam laid on seam, back neck and front edge are one line: 180 degrees."""
    garment = bundled("breakwater").garment
    angles = []
    for piece, one, other in (("back", "neckline", "overarm"), ("left_front", "left_edge", "overarm")):
        ways = []
        top = points(garment.piece(piece).edge(other))[:, [0, -1]]
        neck = top[np.arange(len(top)), np.argmax(top[..., 1], axis=1)]
        for edge in (one, other):
            line = points(garment.piece(piece).edge(edge))
            far = np.hypot(*np.moveaxis(line - neck[:, None], -1, 0))
            near = np.where(far > 0.5, far, np.inf).argmin(axis=1)
            way = line[np.arange(len(line)), near] - neck
            ways.append(way / np.hypot(*way.T)[:, None])
        angles.append(np.degrees(np.arccos(np.clip(np.sum(ways[0] * ways[1], axis=-1), -1, 1))))
    assert np.all(np.abs(angles[0] + angles[1] - 180) < 1)


def test_all_four_ties_are_set_in_at_one_height() -> None:
    garment = bundled("breakwater").garment
    heights = [
        place_on(piece.edge(notch.edge), notch.at)[:, 1]
        for piece in garment.pieces
        for notch in piece.notches
        if piece.name.endswith("_front") and not notch.edge.endswith("overarm")
    ]
    assert len(heights) == 4
    assert np.allclose(heights, heights[0], atol=0.1)
    assert garment.piece("tie").cut == 4


def test_facings_are_sewn_once_their_shoulders_are_closed() -> None:
    order = [join.name for join in joins_in_order(bundled("breakwater").garment)]
    assert order.index("right_shoulder_faced") < order.index("right_edge") < order.index("left_edge")
    assert order.index("left_shoulder") < order.index("back_neck")
