"""Trousers drawn flat: both legs hang from the fork, and a fly shows the stitches of its facing."""

from __future__ import annotations

import numpy as np

from draft.garment.garment import Garment
from draft.paper.flat.bands import bands
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.done import Done
from draft.paper.flat.legs import between_legs
from draft.paper.flat.panels import front_and_back, panels
from draft.paper.flat.views import STITCH, views
from tests.asking import bundled

M = 2


def _garment() -> Garment:
    return bundled("boatyard").garment


def _stitches(canvas: Canvas) -> int:
    return sum(len(runs) for _, runs, stroke in canvas.items if stroke == STITCH)


def test_a_crotch_goes_between_the_legs_and_a_centre_back_does_not() -> None:
    front = _garment().piece("front")
    assert between_legs(front, front.edge("crotch"), M)
    skirt = bundled("ropewalk").garment.piece("back")
    assert not between_legs(skirt, skirt.edge("centre"), M)


def test_the_middle_is_upright_and_the_inseams_part_below_the_fork() -> None:
    front, back = front_and_back(panels(_garment(), M))
    for panel in (front, back):
        assert panel is not None and panel.piece.name in ("front", "back")
        crotch = panel.move.along(panel.piece.edge("crotch").segments[M])
        assert np.abs(crotch[..., 0]).max() < 0.5
        inseam = panel.move.along(panel.piece.edge("inseam").segments[M])[:, 0]
        assert abs(inseam[0, 0]) < 0.5 and inseam[-1, 0] > 20.0
        assert np.all(inseam[5:, 0] > 0.0)


def test_a_leg_keeps_its_width_from_the_knee_down() -> None:
    front, _ = front_and_back(panels(_garment(), M))
    assert front is not None
    hem = front.move.along(front.piece.edge("hem").segments[M])
    drafted = front.piece.edge("hem").segments[M]
    assert abs(np.ptp(hem[..., 0]) - np.ptp(drafted[..., 0])) < 0.5


def test_a_narrow_leg_and_what_lies_behind_a_fly_are_no_bands() -> None:
    assert [band.piece.name for band in bands(_garment(), M)] == ["waistband"]


def test_only_a_fly_that_is_sewn_shows_its_stitches() -> None:
    hems = frozenset({("front", "hem")})
    without = views(_garment(), M, Done(hems=hems))["front"]
    sewn = views(_garment(), M, Done(hems=hems, joins=frozenset({"fly_facing", "fly_shield"})))["front"]
    closed = views(_garment(), M, Done(hems=hems, joins=frozenset({"fly_facing", "fly_shield", "front_seam"})))["front"]
    assert _stitches(sewn) == _stitches(without)  # nothing is stitched through both fronts yet
    assert _stitches(closed) == _stitches(without) + 1
