"""The Roundhouse skirt against the geometry of circles."""

from __future__ import annotations

import numpy as np
import pytest

from tests.asking import bundled
from tests.pieces.bundled import chord_length, finished

SHARES = {"full": 1.0, "half": 0.5, "quarter": 0.25}


@pytest.mark.parametrize("circle", SHARES)
def test_waist_and_hem_lie_on_their_circles(circle: str) -> None:
    """The waist is its share of a circle; the hem is longer by as much of a circle as wide as the skirt is long."""
    found = bundled("roundhouse", circle=circle)
    waist = finished(found.garment, "waist")
    np.testing.assert_allclose(waist, found.bodies.values["waist_girth"] / 10 + 1, atol=0.05)
    hem = waist + SHARES[circle] * 2 * np.pi * 62
    np.testing.assert_allclose(finished(found.garment, "hem"), hem, rtol=5e-4)


@pytest.mark.parametrize("circle", SHARES)
def test_every_panel_of_the_longest_lies_within_cloth_150_wide(circle: str) -> None:
    """Across its grain, opened out where it lies on a fold, with its allowances."""
    garment = bundled("roundhouse", circle=circle, skirt_length="90cm").garment
    piece = garment.piece("skirt")
    corners = np.concatenate([edge.segments.reshape(len(edge.segments), -1, 2) for edge in piece.edges], axis=1)
    if piece.on_fold:
        corners = np.concatenate([corners, corners * np.array([-1.0, 1.0])], axis=1)
    across = np.stack([piece.grain[:, 1], -piece.grain[:, 0]], axis=-1)
    wide = np.ptp(np.einsum("bnk,bk->bn", corners, across), axis=1)
    assert np.all(wide / 10 + 3 < 150)


def test_the_waist_opens_far_enough_for_the_hip() -> None:
    for closing in ("zip", "elastic"):
        found = bundled("roundhouse", closing=closing)
        waist = 4 * chord_length(found.garment.piece("skirt").edge("waist"))
        opened = waist + 2 * 200 if closing == "zip" else waist
        assert np.all(opened > found.bodies.values["hip_girth"])
