"""The check that stands before every figure: each kind of fault is seen in a lay that is spoilt on purpose."""

from dataclasses import replace

import pytest
import shapely

from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import made
from draft.cloth.effort import Effort
from draft.cloth.lay import Move
from draft.cloth.lays import lay_as
from draft.cloth.verify import faults, stop_if_faulty
from tests.cloth.made_up import ell, rectangle

PIECES = (made(1, "front", "M", 1, rectangle(400, 600)), made(2, "sleeve", "M", 2, ell(300, 300, 100, 100)))


@pytest.fixture(scope="module")
def lay():
    return lay_as("open", PIECES, Cloth(1000.0), Effort(500, 2), Shelf())


def _spoilt(lay, index, move):
    placements = list(lay.placements)
    placements[index] = replace(placements[index], move=move)
    return replace(lay, placements=tuple(placements))


def test_a_sound_lay_has_no_faults(lay):
    assert faults(lay, PIECES) == []
    assert stop_if_faulty(lay, PIECES) is lay


def test_a_shift_of_a_twentieth_of_a_mm_is_an_overlap_or_leaves_the_cloth(lay):
    for index, placement in enumerate(lay.placements):
        found = [
            faults(_spoilt(lay, index, placement.move.then(Move(1, 1, dx, dy))), PIECES)
            for dx, dy in ((0.05, 0), (-0.05, 0), (0, 0.05), (0, -0.05))
        ]
        assert any(found), placement.cut_piece


def test_overlap_names_both(lay):
    spoilt = _spoilt(lay, 0, lay.placements[1].move)
    assert any("`front` in size M" in fault and "overlap" in fault for fault in faults(spoilt, PIECES))


def test_outside(lay):
    spoilt = _spoilt(lay, 0, Move(1, 1, 900.0, 0.0))
    assert "`front` in size M leaves the cloth" in faults(spoilt, PIECES)


def test_a_lay_too_short_for_its_pieces(lay):
    assert any("leaves the cloth" in fault for fault in faults(replace(lay, length=lay.length - 0.1), PIECES))


def test_too_few_copies(lay):
    short = replace(lay, placements=lay.placements[:-1])
    assert any("times" in fault for fault in faults(short, PIECES))


def test_the_wrong_hand(lay):
    index = next(k for k, placement in enumerate(lay.placements) if placement.move.face_down)
    move = lay.placements[index].move
    spoilt = _spoilt(lay, index, Move(-move.across, move.along, move.dx, move.dy))
    assert any("`sleeve` in size M is there 2 + 0 times" in fault for fault in faults(spoilt, PIECES))


def test_tilt(lay):
    spoilt = _spoilt(lay, 0, replace(lay.placements[0].move, across=0))
    assert "`front` in size M is tilted" in faults(spoilt, PIECES)


def test_a_remnant_has_its_own_outline(lay):
    cloth = shapely.box(0, 0, 1000, lay.length - 100)
    assert any("leaves the cloth" in fault for fault in faults(lay, PIECES, cloth))


def test_a_faulty_lay_is_never_handed_on(lay):
    with pytest.raises(RuntimeError, match="fault of the program"):
        stop_if_faulty(replace(lay, length=lay.length / 2), PIECES)
