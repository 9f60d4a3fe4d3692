"""Fronts that lap over one another: cut off where they are buttoned, with the other half's cloth beside the cut."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.base.notes import Source, Span
from draft.garment.garment import Edge, Garment, Join, Mark, Piece, SidePart
from draft.geometry.area import outline_areas
from draft.toile.chosen_panels import Chosen, chosen
from draft.toile.closing_laps import CLOSED, close_laps
from draft.toile.mesher import mesh
from draft.toile.sewing_up import layers_of, sew
from tests.asking import bundled

SPAN = Span(Source("front.piece", ""), 0, 0)
NAMES = ("hem", "front_edge", "shoulder", "side")
WIDE, LONG, LAP = 260.0, 600.0, 20.0


def front(*marks: Mark) -> Chosen:
    """Half of a front with its lap: the middle at x = 0, the side at x = -WIDE, sewn there and at the shoulder."""
    corners = np.array([[-WIDE, 0.0], [80.0, 0.0], [80.0, LONG], [-WIDE, LONG]])
    edges = tuple(
        Edge(SPAN, name, np.linspace(corners[k], corners[(k + 1) % 4], 4)[None, None]) for k, name in enumerate(NAMES)
    )
    up = np.array([[0.0, 1.0]])
    piece = Piece(SPAN, "front", edges, 2, up, np.array([[1.0, 0.0]]), cut_as="as a pair", marks=marks)
    joins = tuple(
        Join(SPAN, name, (SidePart("front", name),), (SidePart("back", name),)) for name in ("side", "shoulder")
    )
    garment = Garment("", "", ("M",), (piece, replace(piece, name="back")), joins, ())
    found = chosen(garment, 0)
    return Chosen({"front": found.panels["front"]}, found.joins, ())


def row(kind: str, x: float = 0.0) -> Mark:
    points: Floats = np.array([[[x, 500.0], [x, 300.0], [x, 100.0], [np.nan, np.nan]]])
    return Mark(SPAN, kind, False, points, fastening=kind)  # type: ignore[arg-type]


def fold(x: float) -> Mark:
    return Mark(SPAN, "turned", False, np.array([[[x, 0.0], [x, LONG]]]), line="fold")


@pytest.mark.parametrize("kind", ["button", "snap", "buttonhole"])
def test_a_front_ends_where_it_is_buttoned(kind: str) -> None:
    found = front(row(kind))
    panel = found.panels["front"]
    close_laps(found, {"front": "front"}, 0)
    mesh(panel, 20.0)
    assert panel.middles == {CLOSED}
    assert np.abs(panel.rest[panel.at[CLOSED], 0]).max() < 1e-9
    assert panel.rest[:, 0].max() < 1e-9
    assert panel.rest[:, 0].min() == pytest.approx(-WIDE)
    assert "front_edge" not in panel.parts


def test_what_laps_over_is_there_twice() -> None:
    """The edge lies 80 mm beyond the buttons: so far from the middle there is the cloth of the other half too."""
    found = front(row("button"))
    panel = found.panels["front"]
    close_laps(found, {"front": "front"}, 0)
    mesh(panel, 20.0)
    layers, off = layers_of(panel), -panel.rest[panel.triangles].mean(axis=1)[:, 0]
    assert set(layers[off < 80.0].tolist()) == {2.0}
    assert set(layers[off > 80.0].tolist()) == {1.0}


def test_a_front_that_is_folded_back_is_its_own_facing() -> None:
    """Folded 20 mm beyond the buttons, it is four layers as far as it laps and two as far as it reaches back."""
    found = front(row("button"), fold(LAP))
    panel = found.panels["front"]
    close_laps(found, {"front": "front"}, 0)
    mesh(panel, 8.0)
    layers, off = layers_of(panel), -panel.rest[panel.triangles].mean(axis=1)[:, 0]
    assert set(layers[off < LAP].tolist()) == {4.0}
    assert set(layers[(off > LAP) & (off < 80.0 - 2 * LAP)].tolist()) == {2.0}
    assert set(layers[off > 80.0 - 2 * LAP].tolist()) == {1.0}


def test_one_without_buttons_stays_open() -> None:
    found = front()
    close_laps(found, {"front": "front"}, 0)
    assert found.panels["front"].middles == set()


def test_a_blouse_is_half_of_what_it_is_buttoned() -> None:
    """Lockside: its placket lies as far on either side of the middle, and is cut of two layers."""
    garment = bundled("lockside", "M").garment
    sewn = sew(garment, 0, 20.0)
    piece, number = garment.piece("placket"), sewn.pieces.index("placket")
    whole = abs(float(outline_areas(np.concatenate([edge.segments for edge in piece.edges], axis=1))[0]))
    own = sewn.piece_of_triangle == number
    corners = sewn.rest[sewn.triangles[own]]
    first, second = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    found = np.abs(first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]).sum() / 2
    assert found == pytest.approx(whole / 2, rel=0.01)
    assert set(sewn.layers[own].tolist()) == {4.0}
    assert sewn.on_middle[sewn.edges[("placket", CLOSED)]].all()
