"""The legs of a bowed dart walk together, and what is trued across it runs on smoothly once they are sewn."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.checks.dart_legs import darts, legs
from draft.drafting.checked import draft_and_check
from draft.geometry.cubic import cross, dot, norm
from draft.geometry.length import length, point_at, tangent_at
from tests.asking import asked

TOGETHER = 0.01  # mm


def drafted():  # type: ignore[no-untyped-def]
    return draft_and_check(asked("tests/good/bowed_darts.piece")).garment


def test_the_two_legs_of_every_bowed_dart_walk_together() -> None:
    seen = set()
    for piece, dart, to in darts(drafted()):
        first, last = legs(piece, dart, to)
        assert np.all(np.abs(length(first) - length(last)) < TOGETHER)
        for share in (0.25, 0.5, 0.75):  # along the way too: places that are pinned on one another
            reach = [norm(point_at(leg, share * length(leg)) - to) for leg in (first, last)]
            assert np.all(np.abs(reach[0] - reach[1]) < TOGETHER)
        seen.add(dart.name)
    assert seen == {"long_dart", "waist_dart", "side_dart"}


def bow_of(leg: Floats, to: Floats) -> Floats:
    """By how many mm the middle of a leg lies off its chord: left of the way to the point is more than none."""
    chord = to - leg[:, 0, 0]
    return cross(chord, point_at(leg, length(leg) / 2) - leg[:, 0, 0]) / norm(chord)


@pytest.mark.parametrize(("name", "bows"), [("long_dart", (12, 12)), ("waist_dart", (3, -3)), ("side_dart", (-2, 2))])
def test_legs_are_bowed_by_what_is_said(name: str, bows: tuple[float, float]) -> None:
    piece, dart, to = next(found for found in darts(drafted()) if found[1].name == name)
    found = [bow_of(leg, to) for leg in legs(piece, dart, to)]
    way = np.sign(found[0] * bows[0])
    assert np.allclose(found, [way * bows[0], way * bows[1]], atol=0.02)


@pytest.mark.parametrize("name", ["long_dart", "waist_dart", "side_dart"])
def test_the_trued_edge_runs_on_once_the_legs_are_sewn(name: str) -> None:
    piece, dart, to = next(found for found in darts(drafted()) if found[1].name == name)
    path = piece.edge(dart.edge).segments
    angles = []
    for way, leg in zip((-1, 1), legs(piece, dart, to), strict=True):
        out, along = -tangent_at(leg, np.zeros(len(leg))), tangent_at(path, dart.at + way * (dart.width / 2 + 1e-3))
        angles.append(np.degrees(np.arctan2(cross(out, along), dot(out, along))))
    kink = (angles[1] - angles[0] + 180) % 360 - 180
    assert np.all(np.abs(kink) < 0.5)


@pytest.mark.parametrize(("name", "way"), [("centre_front", 1), ("side_front", -1)])
def test_a_line_straight_to_a_bowed_dart_follows_its_leg_on_either_piece(name: str, way: int) -> None:
    """Bowed together: towards the other piece."""
    garment = draft_and_check(asked("tests/good/bowed_princess.piece")).garment
    path = next(piece for piece in garment.pieces if piece.name == name).edge("princess").segments
    bent = next(k for k in range(path.shape[1]) if path[:, k, :, 1].min() > -201)  # from the top to the dart's point
    middle = point_at(path[:, bent : bent + 1], length(path[:, bent : bent + 1]) / 2)
    chord = (path[:, bent, 0] + path[:, bent, 3]) / 2
    assert np.allclose(norm(middle - chord), 4.9, atol=0.01)
    assert np.all(way * (middle - chord)[:, 0] > 4.8)
