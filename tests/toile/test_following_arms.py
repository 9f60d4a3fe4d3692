"""Cloth turned with arms and forearms, and brought out of a form."""

from __future__ import annotations

import numpy as np
import pytest

from draft.toile.following_arms import Elbow, below_arm, follow, follow_forearm, poses
from draft.toile.freeing import freed
from draft.toile.sewn_cloth import cloth_with
from draft.toile.trunk_laid import brought
from tests.toile.made_cloth import KNIT, Nothing, cylinder, sheet

JOINT = np.array([170.0, -90.0, -100.0])


def on_arm(along: float, angle: float) -> np.ndarray:
    return JOINT + along * np.array([np.cos(angle), 0.0, -np.sin(angle)])


def test_a_sleeve_follows_its_arm_and_the_trunk_stays() -> None:
    start, end, moved = 0.4, 0.9, np.array([-3.0, 0.0, 5.0])
    x = np.stack([on_arm(250.0, start), np.array([40.0, -200.0, -300.0]), np.array([200.0, -60.0, -600.0])])
    turned = follow(x, JOINT, start, end, moved)
    assert turned[0] == pytest.approx(on_arm(250.0, end) + moved)
    assert turned[1:] == pytest.approx(x[1:])


def test_a_forearm_is_bent_forward_about_its_elbow() -> None:
    arms = 0.8
    elbow = Elbow(1.0, on_arm(300.0, arms), lambda bend: Nothing())
    x = np.stack([on_arm(500.0, arms), on_arm(100.0, arms), np.array([200.0, -60.0, -600.0])])
    bent = follow_forearm(x, elbow, arms, 0.0, 1.0)
    way = (bent[0] - elbow.place) / 200.0
    assert np.linalg.norm(way) == pytest.approx(1.0)
    assert way[1] == pytest.approx(-np.sin(1.0))
    assert bent[1:] == pytest.approx(x[1:])
    twice = follow_forearm(follow_forearm(x, elbow, arms, 0.0, 0.5), elbow, arms, 0.5, 1.0)
    assert twice[0] == pytest.approx(bent[0])


def test_poses_are_no_farther_apart_than_a_step() -> None:
    assert poses(0.3, 0.3) == []
    found = [0.1, *poses(0.1, -0.75)]
    assert found[-1] == pytest.approx(-0.75)
    assert np.abs(np.diff(found)).max() <= np.radians(12.0) + 1e-9


def test_the_arm_is_held_above_a_wide_side_seam() -> None:
    wide = np.array([[330.0, -160.0], [300.0, -500.0]])
    found = below_arm(wide, JOINT, 0.8)
    assert found < 0.25
    assert JOINT[2] - (330.0 - JOINT[0]) * np.tan(found) > -160.0
    assert below_arm(np.array([[200.0, -500.0]]), JOINT, 0.8) == 0.8


def test_what_is_caught_is_brought_out_on_the_side_of_its_neighbours() -> None:
    sewn = sheet(120.0, 120.0, 20.0)
    cloth = cloth_with(sewn, KNIT, 2e-7, 2e-3)
    x = np.zeros((sewn.count, 3))
    x[sewn.merged] = np.stack([sewn.rest[:, 0] - 60.0, np.full(len(sewn.rest), -60.0), sewn.rest[:, 1]], axis=1)
    inner = int(np.argmin(np.hypot(x[:, 0], x[:, 2] - 60.0)))
    x[inner] = [0.0, 20.0, 60.0]
    found = freed(cloth, x, cylinder(50.0), 1.5)
    assert found[inner, 1] < -45.0
    assert np.delete(found, inner, axis=0) == pytest.approx(np.delete(x, inner, axis=0))
    assert freed(cloth, found, cylinder(50.0), 1.5) is found


def test_points_are_brought_where_they_were_turned_over() -> None:
    points = np.random.default_rng(1).normal(size=(12, 2))
    turned = points @ np.array([[0.6, 0.8], [0.8, -0.6]]) + [3.0, -4.0]
    assert brought(points, points[:5], turned[:5]) == pytest.approx(turned)
