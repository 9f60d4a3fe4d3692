"""Notches as they are drawn: on the cutting line, square to the seam, half the allowance deep at most, or two."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest
import shapely

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Notch, Piece
from draft.geometry import cubic
from draft.geometry.length import point_at, tangent_at
from draft.geometry.nearest import nearest_place
from draft.geometry.ruler import Ruler
from draft.paper.piece.notch_lines import NOTCH_APART, NOTCH_OUT, NOTCH_PART, notch_line, notch_lines
from draft.paper.piece.piece_lines import Outlines
from draft.seams.sides import sewn_distance, side
from tests.asking import bundled
from tests.exchange.made_up import smock
from tests.seams.test_walk import garment, panel

BUNDLED = ("marlpit", "tidemill", "ropewalk")


def drawn(made: Garment) -> Iterator[tuple[Piece, int, Notch, list[Floats]]]:
    """Every notch of every piece and size, with the ends of its strokes `(2, 2)`: on the cutting line, and inside."""
    for piece in made.pieces:
        for body in range(len(made.sizes)):
            one = Outlines.of(made, piece, body)
            for notch in piece.notches:
                if np.isfinite(notch.at[body]):
                    strokes = notch_lines(piece, body, notch, one.cutting_ring, one.outward)
                    yield piece, body, notch, [stroke[0, [0, 3]] for stroke in strokes]


@pytest.mark.parametrize("name", BUNDLED)
def test_no_notch_is_deeper_than_half_of_the_allowance(name: str) -> None:
    for piece, body, notch, strokes in drawn(bundled(name).garment):
        edge = piece.edge(notch.edge)
        for outer, inner in strokes:
            _, room = nearest_place(edge.segments[body : body + 1], outer[None])
            _, left = nearest_place(edge.segments[body : body + 1], inner[None])
            assert 0 < cubic.norm(outer - inner) <= room[0] / 2 + 1e-6
            assert left[0] >= edge.allowance / 2 - 0.01


@pytest.mark.parametrize("name", BUNDLED)
def test_a_notch_begins_on_the_cutting_line_and_is_square_to_the_seam(name: str) -> None:
    made = bundled(name).garment
    for piece, body, notch, strokes in drawn(made):
        ring = Outlines.of(made, piece, body).cutting_ring
        path = piece.edge(notch.edge).segments[body : body + 1]
        for outer, inner in strokes:
            at, _ = nearest_place(path, inner[None])
            way, along = cubic.unit(outer - inner), tangent_at(path, at)[0]
            assert abs(cubic.dot(way, along)) < 2e-3
            assert ring.distance(shapely.Point(outer)) < 1e-6
            assert not shapely.Polygon(ring).contains(shapely.Point(outer + 0.1 * way))


@pytest.mark.parametrize("name", [*BUNDLED, "smock"])
def test_strokes_lie_where_the_notch_does_a_double_one_half_aside_each_way(name: str) -> None:
    made = smock() if name == "smock" else bundled(name).garment
    doubles = 0
    for piece, body, notch, strokes in drawn(made):
        path = piece.edge(notch.edge).segments[body : body + 1]
        places = np.array([float(nearest_place(path, inner[None])[0][0]) for _, inner in strokes])
        assert len(strokes) == notch.strokes
        asides = [0.0] if notch.strokes == 1 else [-NOTCH_APART / 2, NOTCH_APART / 2]
        assert np.allclose(places - notch.at[body], asides, atol=0.02)
        doubles += notch.strokes == 2
    assert doubles or name not in ("tidemill", "smock")


@pytest.mark.parametrize("name", BUNDLED)
def test_on_both_sides_of_an_even_seam_notches_lie_at_equal_distances(name: str) -> None:
    """Measured off the strokes themselves, as a maker lays one piece on the other."""
    made = bundled(name).garment
    strokes = {(piece.name, body, id(notch)): lines for piece, body, notch, lines in drawn(made)}
    compared = 0
    for join in made.joins:
        if join.fit != "even" or len(join.first) != 1 or len(join.second) != 1:
            continue
        found = []
        for parts in (join.first, join.second):
            (side_edge,) = side(made, parts).edges
            path = side_edge.edge.segments
            notches = [n for n in side_edge.piece.notches if n.span == join.span and n.edge == side_edge.edge.name]
            places = []
            for notch in notches:
                drawn_at = [
                    np.mean(
                        [
                            nearest_place(path[body : body + 1], inner[None])[0][0]
                            for _, inner in strokes[side_edge.piece.name, body, id(notch)]
                        ]
                    )
                    for body in range(len(made.sizes))
                ]
                at = sewn_distance(side_edge.piece, side_edge.edge, np.array(drawn_at))
                places.append(side_edge.length - at if side_edge.part.reverse else at)
            found.append(np.array(places))
        assert found[0].shape == found[1].shape
        if found[0].size:
            assert np.abs(found[0] - found[1]).max() < 0.05
            compared += 1
    assert compared >= 1


@pytest.mark.parametrize("there", [10.0, 4.0, 1.5])
def test_where_the_cutting_line_comes_nearer_than_the_allowance_a_notch_is_shorter(there: float) -> None:
    ring = shapely.LinearRing([(-50, -there), (250, -there), (250, 100), (-50, 100)])
    segments = cubic.line([0.0, 0.0], [200.0, 0.0])[None]
    outer, inner = notch_line(Ruler(segments), 50.0, 10.0, ring, 1.0)[0, [0, 3]]
    assert np.allclose(outer, [50, -there])
    assert np.allclose(inner, [50, -there + NOTCH_PART * there])


def test_without_an_allowance_the_notch_stands_outside() -> None:
    made = garment(
        panel("one", "20 cm").replace("side  b to c straight", "side  b to c straight, allowance 0 cm")
        + panel("two", "20 cm")
        + "\njoin\n    j one.side to two.side, notch at 50 %"
    )
    ((piece, body, notch, ((outer, inner),)),) = [found for found in drawn(made) if found[0].name == "one"][:1]
    at = point_at(piece.edge("side").segments, notch.at)[body]
    assert np.allclose(outer, at) and np.allclose(inner - at, [NOTCH_OUT, 0])
