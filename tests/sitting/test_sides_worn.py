"""A body whose sides differ: the halves of two tubes together, and what is said of the tighter."""

from __future__ import annotations

import numpy as np
import pytest

from draft.form.field import field_of
from draft.form.landmarks import landmarks_of
from draft.sitting.reading import HemRead, LevelRead, Reading
from draft.sitting.sides_worn import joined, tighter
from draft.sitting.sit_told import telling
from draft.sitting.worn import Worn
from draft.sitting.worn_of import worn_of
from tests.form.made_up import form
from tests.sitting.tube import dressed

FORM = form()
FIELD, BARE = (field_of(FORM, 0, 0.9, armless=armless) for armless in (False, True))


def _worn(radius: float) -> Worn:
    tube = dressed(200.0, radius)
    return worn_of(tube, FIELD, BARE, landmarks_of(FORM, 0), np.zeros(tube.sewn.count))


def test_left_is_of_one_and_right_of_the_other() -> None:
    both = joined(_worn(140.0), _worn(150.0))
    assert both.points[:, 0].max() == pytest.approx(140.0) and both.points[:, 0].min() == pytest.approx(-150.0)
    assert both.triangles.max() == len(both.points) - 1
    corners = both.points[both.triangles]
    assert not ((corners[..., 0] > 1).any(axis=1) & (corners[..., 0] < -1).any(axis=1)).any()  # each lies on one side
    assert both.stretched[both.points[:, 0] > 1].max() < both.stretched[both.points[:, 0] < -1].min()
    assert [round(float(line[0, 0])) for line in both.seams] == [140, -150]


def test_what_is_read_is_of_the_tighter_side() -> None:
    left = Reading((LevelRead("hip", -570.0, 0.0, 0.0, 0.0, 0.4, 30.0),), HemRead(10.0, 0.0), 2.0, 8.0, 20.0)
    right = Reading((LevelRead("hip", -570.0, 0.06, 0.06, 0.06, 0.4, None),), HemRead(20.0, 0.0), 4.0, 30.0)
    found = tighter(left, right)
    assert found.levels == right.levels and found.hem.front == 15.0
    assert (found.stays, found.rides, found.reaches) == (4.0, 30.0, 20.0)
    assert "sides_apart" in [one.key for one in telling(found, True)]
