"""One piece drawn on another, right sides together: which half it lies on, and that the edges of the seam meet."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from draft.drafting.drafting import Drafted
from draft.geometry.flatten import polyline
from draft.paper.booklet.folded_drawing import GROUND, WRONG
from draft.paper.booklet.order import sewing_order
from draft.paper.booklet.set_blocks import Block
from draft.paper.booklet.so_far import done_after
from draft.paper.booklet.step_drawing import Drawer
from draft.paper.drawing.drawing import Path
from tests.asking import bundled


def _drawn(drafted: Drafted, join: str) -> list[Path]:
    """The lower piece, the upper one and the seam, at the step of a join; mm, y down."""
    garment = drafted.garment
    steps = sewing_order(garment)
    at = next(k for k, step in enumerate(steps) if step.name == join and step.join)
    found: Block = replace(Drawer.of(garment, 0), done=done_after(steps[: at + 1])).join(
        next(one for one in garment.joins if one.name == join)
    )
    return [item for item in found.items if isinstance(item, Path)]


def _middle(path: Path) -> float:
    points = np.concatenate([polyline(run) for run in path.runs])
    return float(points[:, 0].min() + points[:, 0].max()) / 2


@pytest.fixture(scope="module")
def trousers() -> Drafted:
    return bundled("boatyard", "M")


@pytest.mark.parametrize(("join", "on_left"), [("fly_facing", True), ("fly_shield", False)])
def test_what_faces_the_left_front_lies_at_its_edge_and_the_shield_on_the_right(
    trousers: Drafted, join: str, on_left: bool
) -> None:
    """Right sides up, the fly is at the left edge of the left front, and at the right edge of the right one."""
    lower, upper, seam = _drawn(trousers, join)
    assert (lower.fill, upper.fill) == (GROUND, WRONG)
    assert (_middle(seam) < _middle(lower)) == on_left
    assert (_middle(seam) < _middle(upper)) == on_left  # and so it lies on the front, not beside it


@pytest.mark.parametrize(("join", "right"), [("right_shoulder", True), ("left_shoulder", False)])
def test_a_seam_of_one_side_is_thick_there_alone(join: str, right: bool) -> None:
    """Seen from its right side, a back has the wearer's right at the right."""
    lower, _, seam = _drawn(bundled("breakwater", "M"), join)
    assert (_middle(seam) > _middle(lower)) == right


@pytest.mark.parametrize(("join", "long_right"), [("right_shoulder_faced", False), ("left_shoulder_faced", True)])
def test_a_piece_of_which_there_is_one_is_not_turned_over_to_lie_below(join: str, long_right: bool) -> None:
    """Facings lie right side up as they are printed, and mirror one another."""
    lower, _, seam = _drawn(bundled("breakwater", "M"), join)
    points = np.concatenate([polyline(run) for run in lower.runs])
    hem = points[points[:, 1] > points[:, 1].max() - 1.0, 0].mean()
    assert (hem > _middle(seam)) == long_right


def test_a_yoke_is_laid_upside_down_on_its_back() -> None:
    lower, upper, seam = _drawn(bundled("lockside", "M"), "yoke_back")
    low, high = (np.concatenate([polyline(run) for run in path.runs])[:, 1] for path in (seam, upper))
    assert low.mean() < high.mean()  # the seam is at the upper edge, and the yoke hangs down from it
    assert np.ptp(np.concatenate([polyline(run) for run in lower.runs])[:, 1]) > np.ptp(high)
