"""Cutting lines of the small garments, held to what shapely and a ruler find, whatever corner code drew them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest
import shapely

from draft.drafting.checked import draft_and_check
from draft.garment.garment import Edge, Piece
from draft.geometry import cubic
from draft.geometry.corner import LIMIT
from draft.geometry.flatten import flatten
from draft.seams.allowance import cutting_line, opened_out, sewing_line
from draft.seams.proof import is_proved
from tests.asking import asked
from tests.good.cases import CASES, styles_of

every_garment = pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
CLOSE = 0.0115  # mm: the parallel is within 0.01, the flattened lines within 0.001
FINE = 0.001  # mm
ALONG = np.linspace(0, 1, 17)


@cache
def pieces(path: Path) -> tuple[Piece, ...]:
    return draft_and_check(asked(path, styles=styles_of(path))).garment.pieces


@cache
def drawn(path: Path) -> tuple[tuple[Piece, int, np.ndarray], ...]:
    """Each piece and body with its cutting line."""
    return tuple((piece, body, cutting_line(piece, body)) for piece in pieces(path) for body in range(len(piece.grain)))


def spread(path: np.ndarray) -> np.ndarray:
    return cubic.point(path[:, None], ALONG[None]).reshape(-1, 2)


def sewn(piece: Piece, body: int) -> list[tuple[Edge, shapely.LineString]]:
    """The edges that have an allowance or are cut on their line."""
    return [
        (edge, shapely.LineString(flatten(edge.segments[body], FINE)))
        for edge in piece.edges
        if not edge.on_fold and not lies_on_fold(piece, edge, body)
    ]


def lies_on_fold(piece: Piece, edge: Edge, body: int) -> bool:
    """Whether an edge runs on in the line of a fold, as a slit in the middle does: the other half lies beyond it."""
    folds = [other.segments[body, [0, -1], [0, 3]] for other in piece.edges if other.on_fold]
    points = edge.segments[body].reshape(-1, 2)
    return any(np.abs(cubic.cross(points - a, cubic.unit(b - a))).max() < 1e-6 for a, b in folds)


def widest(piece: Piece) -> float:
    return max(edge.allowance for edge in piece.edges)


def from_corners(piece: Piece, body: int, points: np.ndarray) -> np.ndarray:
    """How far points lie from the nearest end of an edge, or peak of one at a dart."""
    seam = np.concatenate([edge.segments[body] for edge in piece.edges])
    begins = np.cumsum([0, *[edge.segments.shape[1] for edge in piece.edges[:-1]]])
    drawn_on = seam[cubic.norm(seam[:, 3] - seam[:, 0]) > 1e-9]  # one without length has no direction to turn from
    turns = np.abs(cubic.cross(cubic.end_tangent(np.roll(drawn_on, 1, axis=0)), cubic.start_tangent(drawn_on))) > 1e-3
    corners = np.concatenate([seam[begins, 0], drawn_on[turns, 0]])
    return cubic.norm(points[:, None] - corners[None]).min(axis=1)


@every_garment
def test_it_can_be_cut(path: Path) -> None:
    for piece, body, cut in drawn(path):
        seam = sewing_line(piece, body)
        opened = shapely.LinearRing(flatten(opened_out(cut, piece, body), FINE))
        assert opened.is_simple and is_proved(piece, body, seam, cut), (piece.name, body)
        assert shapely.Polygon(opened).buffer(FINE).covers(shapely.LineString(flatten(seam, FINE)))


@every_garment
def test_between_its_corners_each_edge_has_its_allowance(path: Path) -> None:
    """Square out from the edge by its allowance lies the cutting line, or cloth, where another edge reaches further."""
    for piece, body, cut in drawn(path):
        line, way = shapely.LinearRing(flatten(cut, FINE)), _outwards(piece, body)
        reached = shapely.union_all([line.buffer(edge.allowance, quad_segs=256) for edge, line in sewn(piece, body)])
        for edge, _ in sewn(piece, body):
            on, along = (f(edge.segments[body][:, None], ALONG[None]) for f in (cubic.point, cubic.derivative))
            clear = from_corners(piece, body, on.reshape(-1, 2)) > widest(piece)
            out = shapely.points((on + edge.allowance * way * cubic.right_of(cubic.unit(along))).reshape(-1, 2)[clear])
            covered = shapely.contains_properly(reached.buffer(-0.01), out)
            assert (shapely.distance(line, out[~covered]) < CLOSE).all(), (piece.name, edge.name, body)
            assert shapely.covers(shapely.Polygon(line), out[covered]).all(), (piece.name, edge.name, body)


@every_garment
def test_away_from_corners_it_is_as_far_off_as_the_allowance_and_no_further(path: Path) -> None:
    for piece, body, cut in drawn(path):
        points = spread(cut)
        far = [shapely.distance(line, shapely.points(points)) - edge.allowance for edge, line in sewn(piece, body)]
        folds = [
            shapely.LineString(edge.segments[body, [0, -1], [0, 3]])
            for edge in piece.edges
            if edge.on_fold or lies_on_fold(piece, edge, body)
        ]
        off = np.min([*far, *[shapely.distance(fold, shapely.points(points)) for fold in folds]], axis=0)
        beside = from_corners(piece, body, points) <= 1.1 * LIMIT * widest(piece)
        assert (np.abs(off[~beside]) < CLOSE).all(), (piece.name, body)


def _outwards(piece: Piece, body: int) -> float:
    """1 with the outside on the right of the outline, -1 with it on the left."""
    x, y = flatten(sewing_line(piece, body), FINE).T  # `is_ccw` looks at one corner, and errs where two points are one
    return float(np.sign(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1))))
