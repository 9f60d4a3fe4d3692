"""An edge trued across its darts meets a fold at a right angle, and bends one way from there."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Piece
from draft.geometry.cubic import cross, dot, norm, turned
from draft.geometry.ends import end_directions
from draft.geometry.length import length, point_at
from tests.asking import asked

PATTERN = Path(__file__).parents[1] / "good" / "trued_at_a_fold.piece"
PIECES = draft_and_check(asked(PATTERN)).garment.pieces


def waist_of(piece: Piece) -> Floats:
    return piece.edge("waist").segments


@pytest.mark.parametrize("piece", PIECES, ids=lambda piece: piece.name)
def test_the_waist_meets_the_fold_at_a_right_angle(piece: Piece) -> None:
    fold, waist = (end_directions(piece.edge(name).segments)[0] for name in ("centre", "waist"))
    arriving = end_directions(waist_of(piece))[1] if piece.name == "front" else waist
    assert np.abs(dot(fold, arriving)).max() < 1e-9


@pytest.mark.parametrize("piece", PIECES, ids=lambda piece: piece.name)
def test_the_legs_of_each_dart_are_of_one_length(piece: Piece) -> None:
    for dart in piece.takeups:
        assert dart.to is not None
        one, other = (norm(point_at(waist_of(piece), dart.at + way * dart.width / 2) - dart.to) for way in (-1, 1))
        np.testing.assert_allclose(one, other, atol=1e-6)


def test_with_its_darts_shut_the_waist_bends_one_way() -> None:
    """Points along it, the cloth of the darts left out, turn to one side alone."""
    (front,) = [piece for piece in PIECES if piece.name == "front"]
    path = waist_of(front)
    darts = sorted(front.takeups, key=lambda dart: float(dart.at[0]))
    ends = [0 * darts[0].at, *(d.at + way * d.width / 2 for d in darts for way in (-1, 1)), length(path)]
    places = []
    for k in range(len(darts) + 1):
        for share in np.linspace(0.02, 0.98, 12):
            place = point_at(path, ends[2 * k] + share * (ends[2 * k + 1] - ends[2 * k]))
            for dart in reversed(darts[:k]):
                place = shut(place, path, dart)
            places.append(place)
    ways = np.diff(np.stack(places, axis=1), axis=1)
    turns = np.arctan2(cross(ways[:, :-1], ways[:, 1:]), dot(ways[:, :-1], ways[:, 1:]))
    assert np.all(turns > -1e-9) or np.all(turns < 1e-9)
    assert np.degrees(np.abs(turns)).max() < 3.0
    assert np.degrees(np.abs(turns.sum(axis=1))).min() > 5.0


def shut(place: Floats, path: Floats, dart: object) -> Floats:
    """A place behind a dart as it lies once that is folded shut."""
    first, last = (point_at(path, dart.at + way * dart.width / 2) - dart.to for way in (-1, 1))  # type: ignore[attr-defined]
    angle = np.arctan2(cross(last, first), dot(last, first))
    return turned(place - dart.to, angle) + dart.to  # type: ignore[attr-defined]
