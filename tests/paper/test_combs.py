"""Curvature combs: teeth of the right length on the right side, none where an edge is straight, and room for them."""

from __future__ import annotations

from pathlib import Path as FilePath

import numpy as np
import pytest
import shapely
from click.testing import CliRunner

from draft.command.main import commands
from draft.garment.garment import Edge, Garment
from draft.geometry import cubic
from draft.geometry.arc import arc
from draft.paper.drawing.drawing import Path
from draft.paper.pages.combs import APART, TALL, TALLEST, comb, combed
from draft.paper.pages.sheet import draw_set, on_screen
from tests.paper.made_up import span
from tests.paper.reading import line_shape


def edge(segments: np.ndarray) -> Edge:
    return Edge(span(1), "curve", segments, allowance=12.7)


def quarter(radius: float) -> Edge:
    """A quarter circle about the origin, from across to up: it turns left."""
    path, _ = arc(np.zeros((1, 2)), np.array([[radius, 0.0]]), np.array([[0.0, radius]]))
    return edge(path)


def test_the_teeth_of_an_arc_are_of_one_length_and_stand_outside_it() -> None:
    teeth = comb(quarter(100), 0)
    assert teeth is not None
    roots, tips = cubic.norm(teeth[:, 0]), cubic.norm(teeth[:, 1])
    assert np.allclose(roots, 100, atol=0.01)
    assert np.allclose(tips, 100 + TALL / 100, atol=0.05)  # four cubics are no circle


def test_the_teeth_are_square_to_the_edge_and_evenly_apart() -> None:
    teeth = comb(quarter(80), 0)
    assert teeth is not None
    at = np.arctan2(-teeth[:, 0, 1], teeth[:, 0, 0])  # y is down on paper
    assert np.allclose(cubic.cross(teeth[:, 0], teeth[:, 1] - teeth[:, 0]), 0, atol=0.2)
    gaps = np.diff(at) * 80
    assert (gaps[gaps > 1e-6] <= APART + 0.01).all() and (gaps[gaps > 1e-6] > APART / 2).all()


def test_a_bend_too_tight_for_the_comb_is_cut_off() -> None:
    teeth = comb(quarter(10), 0)
    assert teeth is not None
    assert cubic.norm(teeth[:, 1] - teeth[:, 0]).max() == pytest.approx(TALLEST)


@pytest.mark.parametrize("far", [300.0, 0.0])
def test_a_straight_edge_has_no_comb(far: float) -> None:
    assert comb(edge(cubic.line([[0.0, 0.0]], [[far, far]])[:, None]), 0) is None


def test_where_a_line_turns_the_other_way_the_teeth_change_sides() -> None:
    wave = np.array([[[[0, 0], [40, 60], [80, -60], [120, 0]]]], dtype=float)
    teeth = comb(edge(wave), 0)
    assert teeth is not None
    sides = cubic.cross(np.array([1.0, 0.0]), teeth[:, 1] - teeth[:, 0])
    early, late = teeth[:, 0, 0] < 50, teeth[:, 0, 0] > 70
    assert (sides[early] < 0).all() and (sides[late] > 0).all()  # above the crest first, then below the trough


def test_every_size_of_a_nest_has_its_combs_and_they_do_not_run_into_other_pieces(garment: Garment) -> None:
    drawing = on_screen(combed(draw_set(garment, range(3))))
    combs = [item for item in drawing.items() if isinstance(item, Path) and ".comb" in item.id]
    assert {dict(item.data)["size"] for item in combs} == {"XS", "S", "M"}
    assert {dict(item.data)["piece"] for item in combs} == {"front", "back"}  # bands are straight
    assert {f"front.underarm.comb.{size}" for size in ("XS", "S", "M")} <= {item.id for item in combs}
    boxes: dict[str, list[object]] = {}
    for item in combs:
        boxes.setdefault(dict(item.data)["piece"], []).append(line_shape(item))
    for footprint in drawing.footprints:
        others = [shape for name, shapes in boxes.items() if name != footprint.name.lower() for shape in shapes]
        outline = shapely.Polygon(footprint.rings[0])
        assert not any(outline.intersects(shape) for shape in others)


def test_the_command_draws_combs_when_asked(tmp_path: FilePath) -> None:
    for extra in ([], ["--combs"]):
        done = CliRunner().invoke(commands, ["draft", "marlpit", "--sizes", "M", "--out", str(tmp_path), *extra])
        assert done.exit_code == 0
        assert ('id="front.neckline.comb"' in (tmp_path / "svg" / "M.svg").read_text()) == bool(extra)
