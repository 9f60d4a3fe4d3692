"""A draft drawn again in a warm process after one style has changed: `pytest tests/benchmarks -k redraw -m slow -s`.

Milliseconds of the processor, the best of twenty different values; nothing is asserted of them. The floor beside them
is what numpy and shapely alone take for the same lines: their points, one buffer of each outline, and no label.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest
import shapely

from draft.checks import run
from draft.drafting.drafting import draft_plan
from draft.drafting.planned import plan_for
from draft.drafting.whom import find_bodies
from draft.garment.garment import Garment
from draft.geometry.flatten import flatten_each
from draft.paper.pages.sheet import draw_pattern
from draft.seams.allowance import cut_together, sewing_line
from tests.asking import asked

pytestmark = pytest.mark.slow
STYLES = {"bust_ease": 5.0, "hip_ease": 4.0, "band_width": 1.5, "front_longer": 0.5}
TIMES = 20


def redrawn(style: str, value: float) -> tuple[list[float], Garment]:
    """What each step from evaluation to lines and labels takes, and the checks after it."""
    request = asked("marlpit", styles={style: f"{value:.3f} cm"})
    plan = plan_for(request)
    bodies, _ = find_bodies(request.whom, plan.chart, plan.plan.measures, plan.plan.known)
    at = [time.process_time()]
    garment = draft_plan(plan.plan, bodies).garment
    steps: tuple[Callable[[], object], ...] = (
        lambda: cut_together(garment.pieces),
        lambda: draw_pattern(garment, range(len(garment.sizes))),
        lambda: run(garment),
    )
    for step in (lambda: None, *steps):
        step()
        at.append(time.process_time())
    return [1000 * (b - a) for a, b in pairwise(at)], garment


def floor(garment: Garment) -> float:
    start = time.process_time()
    outlines = [sewing_line(piece, body) for piece in garment.pieces for body in range(len(garment.sizes))]
    points, of = flatten_each(outlines, 0.01)
    shapely.buffer(shapely.polygons(shapely.linearrings(points, indices=of)), 12.7, join_style="mitre")
    return 1000 * (time.process_time() - start)


def test_seven_sizes_after_one_style() -> None:
    print(
        f"\n{'style changed':14} {'evaluated':>9} {'cut lines':>9} {'drawn':>6} {'all':>6} {'checks':>7} {'floor':>6}"
    )
    for style, first in STYLES.items():
        found = [redrawn(style, first + k / 100) for k in range(TIMES)]
        evaluated, cut, drawn, checks = np.min([times for times, _ in found], axis=0)
        least = min(floor(garment) for _, garment in found)
        total = evaluated + cut + drawn
        print(f"{style:14} {evaluated:9.1f} {cut:9.1f} {drawn:6.1f} {total:6.1f} {checks:7.1f} {least:6.1f}")
        assert all(len(garment.pieces) == 4 for _, garment in found)
