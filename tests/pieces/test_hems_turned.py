"""What is turned up is as wide as what it is sewn to, in every hem of every bundled pattern and size.

Outside check: by Steiner's formula the parallel of a line at a distance d is d times its total turning longer than the
line on the one side, and shorter on the other. The seams go on mirrored at a hem, so between them the cut edge and the
line that it is sewn to differ by twice that, whatever way the seams run.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.garment.garment import Edge, Piece
from draft.geometry.flatten import polyline
from tests.asking import bundled

PATTERNS = (
    *("marlpit", "ropewalk", "tidemill", "lockside", "netloft", "breakwater", "boatyard", "slipway", "hooded"),
    "roundhouse",
)
NARROWER = 1.0
"""A hem's edge may be so many mm narrower than what it is sewn to: less than the thickness of a line of chalk."""
ROUND = {"roundhouse": 24.0}
"""A skirt cut round is wider at its edge, mm on half of it: eased in, its hem being narrow (common practice)."""
WIDER = 2.5


def _hems() -> list[tuple[str, Piece, Edge]]:
    return [
        (name, piece, edge)
        for name in PATTERNS
        for piece in bundled(name).to_cut.pieces
        for edge in piece.edges
        if edge.turned_up and edge.allowance > 0
    ]


def _turned(edge: Edge, body: int) -> float:
    """By how much an edge turns from its beginning to its end, radians, positive to the left."""
    ways = np.diff(polyline(edge.segments[body]), axis=0)
    ways = ways[np.hypot(*ways.T) > 1e-9]
    angles = np.unwrap(np.arctan2(ways[:, 1], ways[:, 0]))
    return float(angles[-1] - angles[0])


def _area(ring: Floats) -> float:
    return float(np.sum(ring[:, 0] * np.roll(ring[:, 1], -1) - ring[:, 1] * np.roll(ring[:, 0], -1)) / 2)


def test_there_are_hems_of_every_kind() -> None:
    assert {(name, piece.name) for name, piece, _ in _hems()} >= {
        *(("tidemill", "sleeve"), ("netloft", "sleeve"), ("boatyard", "front"), ("lockside", "back")),
        *(("breakwater", "back"), ("roundhouse", "skirt"), ("slipway", "front"), ("hooded", "hood")),
    }


@pytest.mark.parametrize("pattern", PATTERNS)
def test_an_edge_turned_up_is_as_wide_as_the_line_that_it_is_sewn_to(pattern: str) -> None:
    for name, piece, edge in _hems():
        for body in range(len(edge.segments)) if name == pattern else ():
            ring = np.concatenate([polyline(one.segments[body]) for one in piece.edges])
            wider = 2.0 * edge.allowance * _turned(edge, body) * np.sign(_area(ring))
            assert -NARROWER <= wider <= ROUND.get(name, WIDER), (piece.name, edge.name, body, wider)
