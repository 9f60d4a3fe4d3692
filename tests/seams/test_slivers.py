"""Corners of slivers, where a rule of corners finds nothing to hold on to and a plainer one takes its place."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from outlines import ALLOWANCE, HEM, curve, edge, piece, polygon

from draft.garment.garment import Piece
from draft.geometry import cubic
from draft.geometry.corner import LIMIT
from draft.seams.allowance import cutting_line, sewing_line
from draft.seams.proof import is_proved

NEEDLE = [(0, 0), (300, 0), (300, 15)]  # less than 3 degrees at its point


def drawn(shape: Piece) -> np.ndarray:
    """The cutting line, as the corners drew it: the proof has not put another in its place."""
    cut = cutting_line(shape, 0)
    assert is_proved(shape, 0, sewing_line(shape, 0), cut)
    return cut


@pytest.mark.parametrize("widths", [(HEM, 6, 6), (6, 6, HEM)])
def test_allowances_are_not_stepped_where_the_narrower_cannot_reach_the_wider(widths: tuple[float, ...]) -> None:
    needle = polygon(NEEDLE, widths)
    stepped = piece(*needle.edges[:2], replace(needle.edges[2], end_corner="stepped"))
    assert np.array_equal(drawn(stepped), drawn(needle))


def test_a_hem_is_not_mirrored_where_its_seam_never_comes_to_its_line() -> None:
    found = drawn(polygon(NEEDLE, e0="mirror"))[:, 0]
    tip = found[found[:, 0] < 0]
    out = -cubic.unit(np.array([1.0, 0.0]) + cubic.unit(np.array([300.0, 15.0])))
    assert len(tip) == 2 and np.allclose(cubic.dot(out, tip), LIMIT * ALLOWANCE)


def test_a_hem_is_not_mirrored_over_a_corner_that_it_hooks_away_from() -> None:
    hook = curve([(29, 0), (53, -80)], (np.cos(-3.3), np.sin(-3.3)), (np.cos(-2.0), np.sin(-2.0)))
    rest = polygon([(53, -80), (-118, -7), (-9, 17), (53, 67), (29, 0)], [6, ALLOWANCE, 6, ALLOWANCE, 0]).edges[:4]
    hem = edge("hem", hook, HEM, corner="mirror")
    found = [drawn(piece(*rest, last))[:, 0] for last in (hem, replace(hem, turned_up=False))]
    beside, plain = (points[cubic.norm(points - [29, 0]) < HEM] for points in found)
    assert len(plain) == 1 and np.array_equal(beside, plain)


def test_where_a_parallel_crosses_itself_by_less_than_a_millimetre_that_is_left_out() -> None:
    sides = polygon([(-145, 79), (-44, 79), (-30, 78), (-55, -102)], [0, ALLOWANCE, 6, 6], e2="mirror").edges
    bulge = edge("bulge", curve([(-145, 79), (-44, 79)], (np.cos(0.3), np.sin(0.3)), (np.cos(1.0), np.sin(1.0))), HEM)
    drawn(piece(sides[3], bulge, *sides[1:3]))
