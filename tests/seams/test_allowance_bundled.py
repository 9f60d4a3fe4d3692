"""Cutting lines of the bundled patterns in every size: closed, simple, outside the sewing line by each allowance."""

from __future__ import annotations

import numpy as np
import pytest
from shapely import LineString, Polygon, points
from shapely import distance as apart

from draft.base.resources import folder
from draft.bodies.chart import read_chart
from draft.drafting.drafting import draft_plan
from draft.garment.garment import Piece
from draft.geometry import cubic
from draft.geometry.area import outline_area
from draft.geometry.flatten import flatten
from draft.geometry.tangle import self_crossings
from draft.plan.library import find
from draft.seams.allowance import cutting_line, opened_out, sewing_line
from tests.pieces.wearing import whole
from tests.written import make_plan

BUNDLED = ["marlpit", "ropewalk", "tidemill"]


def drafted(name: str) -> tuple[Piece, ...]:
    plan = make_plan(find(name), {})
    return draft_plan(plan, whole(plan, read_chart(folder("pieces") / "women.csv"))).garment.pieces


@pytest.mark.parametrize("name", BUNDLED)
def test_every_cutting_line_can_be_cut(name: str) -> None:
    for piece in drafted(name):
        for body in range(len(piece.grain)):
            seam, cut = sewing_line(piece, body), cutting_line(piece, body)
            opened = opened_out(cut, piece, body)
            assert np.array_equal(opened[:, 3], np.roll(opened[:, 0], -1, axis=0)), (piece.name, body)
            assert not len(self_crossings(opened, closed=True)), (piece.name, body)
            inside = Polygon(flatten(cut, 1e-3)).buffer(0.01)
            assert inside.covers(LineString(flatten(seam, 1e-3))), (piece.name, body)
            assert outline_area(cut) * outline_area(seam) > 0


@pytest.mark.parametrize("name", BUNDLED)
def test_every_edge_has_its_allowance_outside_it(name: str) -> None:
    for piece in drafted(name):
        opened = LineString(flatten(opened_out(cutting_line(piece, 0), piece, 0), 1e-3))
        for edge in piece.edges:
            middle = cubic.point(edge.segments[0][:, None], np.linspace(0.05, 0.95, 19)[None]).reshape(-1, 2)
            far = apart(points(np.concatenate(corners(piece, edge.name))[:, None]), points(middle)[None]).min(axis=0)
            clear = far > max(e.allowance for e in piece.edges)
            if not edge.on_fold and clear.any():
                assert np.abs(apart(opened, points(middle[clear])) - edge.allowance).max() < 0.02, (
                    piece.name,
                    edge.name,
                )


def corners(piece: Piece, name: str) -> tuple[np.ndarray, np.ndarray]:
    """The ends of an edge: near them a neighbour's cutting line may be nearer than its own."""
    ends = cubic.ends(piece.edge(name).segments[:1])
    return ends[0], ends[1]
