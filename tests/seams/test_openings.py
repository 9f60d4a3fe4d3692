"""Where along its join an opening lies, and the notches that say so."""

from pathlib import Path

import numpy as np
import pytest

from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment, Join
from draft.seams.openings import gaps
from tests.asking import asked

GOOD = Path(__file__).parents[1] / "good"


@pytest.fixture(scope="module")
def skirt() -> Garment:
    return draft_and_check(asked(GOOD / "left_open.piece", sizes=["S", "M"])).garment


def join(garment: Garment, name: str) -> Join:
    return next(each for each in garment.joins if each.name == name)


def test_from_the_start_of_a_seam_it_begins_there(skirt: Garment) -> None:
    (gap,) = gaps(skirt, join(skirt, "side"))
    assert gap.at_start and not gap.at_end and gap.opening.on_side == "left"
    assert gap.ends == pytest.approx([180.0, 180.0])


def test_a_seam_that_runs_the_other_way_is_open_from_the_same_place(skirt: Garment) -> None:
    (gap,) = gaps(skirt, join(skirt, "centre_back"))
    assert gap.at_start and np.ptp(gap.ends) > 1.0, "a length of the body differs from size to size"


def test_from_a_place_within_it_goes_on_towards_the_end(skirt: Garment) -> None:
    (gap,) = gaps(skirt, join(skirt, "lining_side"))
    assert not gap.at_start and not gap.at_end
    assert gap.begins == pytest.approx([150.0, 150.0]) and gap.ends == pytest.approx([270.0, 270.0])


def test_both_sides_are_notched_where_it_ends(skirt: Garment) -> None:
    lining = [skirt.piece(name).notches for name in ("front_lining", "back_lining")]
    for notches in lining:
        side = sorted(float(notch.at[0]) for notch in notches if notch.edge == "side")
        assert side == pytest.approx([550.0 - 270.0, 550.0 - 150.0])
    front, back = (
        sorted(float(notch.at[0]) for notch in skirt.piece(name).notches if notch.edge == "side")
        for name in ("front", "back")
    )
    assert front == back == pytest.approx([180.0, 330.0])
