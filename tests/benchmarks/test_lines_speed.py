"""How long measures of lines take beside shapely's on the same lines: `pytest tests/benchmarks -m slow -s` prints it.

Nothing is asserted of the times. Both are right to the same tolerance: shapely is given polylines within 0.01 mm.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
import shapely

from draft.checks import run
from draft.drafting.checked import draft_and_check
from draft.exchange.cutter import cutter_files
from draft.exchange.dxf import dxf_files
from draft.garment.garment import Piece
from draft.geometry import cubic
from draft.geometry.apart import farthest
from draft.geometry.fairness import fairness
from draft.geometry.flatten import flatten, flatten_each
from draft.geometry.length import length, point_at
from draft.geometry.meeting import edges_meet
from draft.geometry.nearest import nearest_place
from draft.geometry.part import part_along
from draft.geometry.spline import hobby
from draft.seams.allowance import cutting_lines, sewing_line
from draft.seams.at_once import plain_cutting_lines
from draft.seams.sections import sections
from tests.asking import asked

pytestmark = pytest.mark.slow

BODIES = 1000


def edges(seed: int) -> np.ndarray:
    """Edges of five segments for many bodies, half a metre long or so."""
    steps = np.random.default_rng(seed).uniform([60, -60], [140, 60], (BODIES, 6, 2))
    return hobby(np.cumsum(steps, axis=1), [None] * 6)


def timed(work: Callable[[], object]) -> float:
    """Milliseconds, the best of five."""
    times = []
    for _ in range(5):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1000 * min(times)


def test_measures_of_a_thousand_edges() -> None:
    path, other = edges(1), edges(2)
    whole = length(path)
    beside = point_at(path, 0.4 * whole) + np.array([3.0, 8.0])
    lines = np.array([shapely.LineString(flatten(body, 0.01)) for body in path])
    others = np.array([shapely.LineString(flatten(body, 0.01)) for body in other])
    points = shapely.points(beside)
    rows = [
        ("nearest place", lambda: nearest_place(path, beside), lambda: shapely.line_locate_point(lines, points)),
        ("first meeting", lambda: edges_meet(path, other), lambda: shapely.intersection(lines, others)),
        ("farthest apart", lambda: farthest(path, other), lambda: shapely.hausdorff_distance(lines, others)),
        ("part of an edge", lambda: part_along(path, 0.2 * whole, 0.7 * whole), None),
        ("fairness", lambda: fairness(path), None),
    ]
    print(f"\n{BODIES} edges of 5 segments, ms; shapely's lines have {shapely.get_num_points(lines).mean():.0f} points")
    for name, ours, theirs in rows:
        print(f"  {name:16} {timed(ours):7.1f}  " + (f"shapely {timed(theirs):7.1f}" if theirs else ""))
    along = nearest_place(path, beside)[0]
    assert np.abs(along - shapely.line_locate_point(lines, points)).max() < 0.5
    assert (cubic.norm(point_at(path, along) - beside) <= shapely.distance(lines, points) + 0.011).all()


def one_size(piece: Piece, body: int) -> Piece:
    edges = (replace(edge, segments=edge.segments[body : body + 1]) for edge in piece.edges)
    return replace(piece, edges=tuple(edges))


def buffered(pieces: list[Piece], flat: bool) -> Callable[[], object]:
    """Shapely's mitred buffer of all outlines at once, with their flattening to 0.01 mm or without it."""
    outlines = [sewing_line(piece, body) for piece in pieces for body in range(len(piece.edges[0].segments))]

    def polygons() -> np.ndarray:
        points, of = flatten_each(outlines, 0.01)
        return shapely.polygons(shapely.linearrings(points, indices=of))

    ready = polygons()
    return lambda: shapely.buffer(ready if flat else polygons(), 12.7, join_style="mitre")


def test_cutting_lines_beside_shapelys_buffer() -> None:
    """All that a cutting line is (each edge's own width, mirrored hems, cubics) beside a plain buffer's polylines."""
    demo = list(draft_and_check(asked("marlpit")).garment.pieces)
    bundled = demo + [p for name in ("roundhouse", "tidemill") for p in draft_and_check(asked(name)).garment.pieces]
    rows = [
        ("one outline", [one_size(demo[1], 2)]),
        ("marlpit, 28", demo),
        ("bundled, 77", bundled),
        ("1,540", bundled * 20),
    ]
    print("\noutlines, ms        cutting lines | and proved | shapely: flattened and buffered | buffered alone")
    for name, pieces in rows:
        times = (
            lambda pieces=pieces: plain_cutting_lines(pieces, 0.01),
            lambda pieces=pieces: cutting_lines(pieces),
            buffered(pieces, flat=False),
            buffered(pieces, flat=True),
        )
        print(f"  {name:16}" + "".join(f"{timed(work):12.2f}" for work in times))
    drawn = [line for lines in plain_cutting_lines(bundled, 0.01) for line in lines]
    assert all(line is not None for line in drawn)
    assert shapely.get_num_coordinates(buffered(bundled, flat=True)()).sum() > 2 * sum(map(len, drawn))


def test_checks_sections_and_exports_of_the_demo() -> None:
    made = draft_and_check(asked("marlpit")).garment
    checked, walked = timed(lambda: run(made)), timed(lambda: sections(made))
    print(f"\nmarlpit, 7 sizes, ms: all checks {checked:.0f}, sections {walked:.0f}")
    print(f"  DXF {timed(lambda: dxf_files(made)):.0f}, bare outlines {timed(lambda: cutter_files(made)):.0f}")
    assert sum(name.endswith(".dxf") for name in dxf_files(made)) >= len(cutter_files(made)) == 7
