"""The room that every bundled garment leaves, and its waistbands, beside what handbooks allow.

The ranges are those of common practice, from memory: of close and easy garments of each kind, in cm.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.garment.garment import Piece
from tests.asking import bundled
from tests.pieces.bundled import PATTERNS, chord_length, finished, points

Rows = dict[str, tuple[tuple[str, float, float], ...]]
"""By garment: a finished measurement, and the least and the most that it is larger than the body."""

EASE: Rows = {
    "marlpit": (("bust", 4, 10), ("waist", 8, 20), ("hip", 3, 8), ("upper_arm", 4, 8)),
    "hooded": (("bust", 4, 10), ("waist", 8, 20), ("hip", 3, 8), ("upper_arm", 4, 8)),
    "tidemill": (("bust", 2, 8), ("waist", 6, 16), ("hip", 2, 8), ("upper_arm", 2, 5)),
    "ropewalk": (("waist", 0.5, 2.5), ("hip", 3, 6)),
    "lockside": (("bust", 8, 12), ("waist", 10, 18), ("hem", 6, 12), ("neck", 1, 2.5), ("upper_arm", 5, 7)),
    "boatyard": (("waist", 1, 4), ("hip", 6, 12), ("thigh", 5, 14), ("knee", 6, 14)),
    "slipway": (("waist", -14, -3), ("hip", -20, -5), ("thigh", -13, -3), ("knee", -8, -1)),
    "roundhouse": (("waist", 0, 2.5),),
    "netloft": (("bust", 5, 12), ("waist", 10, 18), ("hip", 4, 10), ("upper_arm", 4, 8), ("cuff", 4, 7)),
    "breakwater": (("bust", 14, 22), ("hem", 8, 26), ("upper_arm", 8, 14)),
}


def test_every_bundled_garment_has_its_figures() -> None:
    assert set(EASE) == set(PATTERNS)


@pytest.mark.parametrize(("name", "where", "least", "most"), [(n, *row) for n, rows in EASE.items() for row in rows])
def test_the_room_is_that_of_such_a_garment(name: str, where: str, least: float, most: float) -> None:
    """Finished, less the body that it is worn over, in every size."""
    worn = next(one for one in bundled(name).garment.finished if one.name == where)
    assert worn.over is not None
    room = (worn.values - worn.over[1]) / 10
    assert np.all((room >= least) & (room <= most)), room.round(1)


def _wide(piece: Piece, axis: int) -> Floats:
    """How far a piece reaches across or up, cm."""
    return np.asarray(np.ptp(np.concatenate([points(edge, 40) for edge in piece.edges], axis=1), axis=1)[:, axis] / 10)


@pytest.mark.parametrize("name", ["ropewalk", "roundhouse", "boatyard"])
def test_a_waistband_is_the_waist_and_its_lap(name: str) -> None:
    """As long as the finished waist, the lap 2.5 to 4.5 cm beyond it; 3 to 5 cm wide once it is folded."""
    band = bundled(name).garment.piece("waistband")
    long = chord_length(band.edge("long")) / 10
    np.testing.assert_allclose(long, finished(bundled(name).garment, "waist"), atol=0.05)
    lap, wide = _wide(band, 0) - long, _wide(band, 1) / 2
    assert np.all((lap >= 2.5) & (lap <= 4.5)), lap
    assert np.all((wide >= 3) & (wide <= 5)), wide


def test_a_hood_goes_over_the_head() -> None:
    """31 to 38 cm from the neck over the crown, and as deep as half of the head, to within 4 cm."""
    found = bundled("hooded")
    hood, head = found.garment.piece("hood"), found.bodies.values["head_girth"] / 10
    high, deep = _wide(hood, 1), _wide(hood, 0)
    assert np.all((high >= 31) & (high <= 38)), high
    assert np.all(np.abs(deep - head / 2) <= 4), deep
    assert np.all(2 * chord_length(hood.edge("face")) / 10 >= head), "it is pulled back over the head"
    assert np.all(2 * chord_length(hood.edge("crown_seam")) / 10 >= head), "over the crown from brow to neck"


def test_both_hands_go_into_the_pouch() -> None:
    """Mouths of 13 to 18 cm, 28 to 52 cm across at its foot, which keeps clear of the side seams."""
    garment = bundled("hooded").garment
    pouch, front = garment.piece("pouch"), garment.piece("front")
    mouth, foot = chord_length(pouch.edge("pouch_mouth")) / 10, 2 * chord_length(pouch.edge("pouch_base")) / 10
    assert np.all((mouth >= 13) & (mouth <= 18)), mouth
    assert np.all((foot >= 28) & (foot <= 52)), foot
    assert np.all(foot < 2 * chord_length(front.edge("hem")) / 10 * 0.75)
