"""The check that stands before every figure: each kind of fault is seen in a lay that is spoilt on purpose."""

from dataclasses import replace

import pytest
import shapely

from draft.cloth.bolt import Cloth
from draft.cloth.effort import Effort
from draft.cloth.layout import Move
from draft.cloth.lays import lay_as
from draft.cloth.parts import made
from draft.cloth.shapes import Shelf
from draft.cloth.verify import faults, stop_if_faulty
from tests.cloth.made_up import ell, rectangle

PIECES = (made(1, "front", "M", 1, rectangle(400, 600)), made(2, "sleeve", "M", 2, ell(300, 300, 100, 100)))


@pytest.fixture(scope="module")
def layout():
    return lay_as("open", PIECES, Cloth(1000.0), Effort(500, 2), Shelf())


def _spoilt(layout, index, move):
    spots = list(layout.spots)
    spots[index] = replace(spots[index], move=move)
    return replace(layout, spots=tuple(spots))


def test_a_sound_lay_has_no_faults(layout):
    assert faults(layout, PIECES) == []
    assert stop_if_faulty(layout, PIECES) is layout


def test_a_shift_of_a_twentieth_of_a_mm_is_an_overlap_or_leaves_the_cloth(layout):
    for index, spot in enumerate(layout.spots):
        found = [
            faults(_spoilt(layout, index, spot.move.then(Move(1, 1, dx, dy))), PIECES)
            for dx, dy in ((0.05, 0), (-0.05, 0), (0, 0.05), (0, -0.05))
        ]
        assert any(found), spot.part


def test_overlap_names_both(layout):
    spoilt = _spoilt(layout, 0, layout.spots[1].move)
    assert any("`front` in size M" in fault and "overlap" in fault for fault in faults(spoilt, PIECES))


def test_outside(layout):
    spoilt = _spoilt(layout, 0, Move(1, 1, 900.0, 0.0))
    assert "`front` in size M leaves the cloth" in faults(spoilt, PIECES)


def test_a_lay_too_short_for_its_pieces(layout):
    assert any("leaves the cloth" in fault for fault in faults(replace(layout, length=layout.length - 0.1), PIECES))


def test_too_few_copies(layout):
    short = replace(layout, spots=layout.spots[:-1])
    assert any("times" in fault for fault in faults(short, PIECES))


def test_the_wrong_hand(layout):
    index = next(k for k, spot in enumerate(layout.spots) if spot.move.face_down)
    move = layout.spots[index].move
    spoilt = _spoilt(layout, index, Move(-move.across, move.along, move.dx, move.dy))
    assert any("`sleeve` in size M is there 2 + 0 times" in fault for fault in faults(spoilt, PIECES))


def test_tilt(layout):
    spoilt = _spoilt(layout, 0, replace(layout.spots[0].move, across=0))
    assert "`front` in size M is tilted" in faults(spoilt, PIECES)


def test_a_remnant_has_its_own_outline(layout):
    cloth = shapely.box(0, 0, 1000, layout.length - 100)
    assert any("leaves the cloth" in fault for fault in faults(layout, PIECES, cloth))


def test_a_faulty_lay_is_never_handed_on(layout):
    with pytest.raises(RuntimeError, match="fault of the program"):
        stop_if_faulty(replace(layout, length=layout.length / 2), PIECES)
