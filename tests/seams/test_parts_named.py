"""Notches of a band bear the part of the way at which they lie, the same on both sides of its seam."""

from __future__ import annotations

import numpy as np
import pytest

from draft.garment.garment import Notch
from draft.seams.lying import Copies
from draft.seams.parts_named import part_at
from tests.asking import bundled


def _notches(pattern: str, piece: str) -> list[Notch]:
    return list(bundled(pattern).garment.piece(piece).notches)


@pytest.mark.parametrize(
    ("copies", "share", "part"),
    [(1, 0.5, "1/2"), (1, 0.25, "1/4"), (1, 0.75, "1/4"), (1, 0.3, ""), (2, 0.5, "1/4"), (2, 1.0, "1/2")],
)
def test_the_part_is_counted_from_the_nearer_end_of_the_whole_seam(copies: int, share: float, part: str) -> None:
    assert part_at(Copies(copies), np.array([share, share])) == part


def test_a_place_that_is_a_half_and_a_quarter_at_once_bears_neither() -> None:
    # four quarters of a round: what lies at the end of each lies at a quarter, at the half and at the beginning
    assert part_at(Copies(4), np.array([0.0])) == ""


def test_a_ring_bears_its_half_and_quarters_in_order() -> None:
    own = sorted((float(n.at[0]), n.part) for n in _notches("marlpit", "neckband"))
    assert [part for _, part in own] == ["1/4", "1/2", "1/4"]
    met = [n.part for name in ("front", "back") for n in _notches("marlpit", name) if n.edge == "neckline"]
    assert met and set(met) <= {"1/2", "1/4"}


def test_the_middle_of_a_row_is_told_from_the_notches_beside_it() -> None:
    own = sorted((float(n.at[0]), n.part) for n in _notches("boatyard", "waistband") if n.edge == "long")
    assert [part for _, part in own if part] == ["1/2"]
    assert len(own) == 4  # both side seams, the middle and where the lap begins


def test_notches_of_a_plain_seam_bear_none() -> None:
    assert not any(n.part for n in _notches("marlpit", "front") if n.edge in ("underarm", "overarm"))
    assert not any(n.part for n in _notches("tidemill", "sleeve"))
