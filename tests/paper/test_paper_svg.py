"""SVG files: true size, named parts, safe text."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.garment.garment import Garment
from draft.geometry.cubic import lines_through
from draft.pack.printed_files import svg_files
from draft.paper.drawing.drawing import Drawing, Label, Layer, Path, Stroke, Turn, circle, rectangle
from draft.paper.drawing.svg import items_svg, path_data, svg
from tests.paper.made_up import SIZES, make_garment

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def files(garment: Garment) -> dict[str, bytes]:
    return svg_files(garment)


def test_a_file_for_each_size_and_a_nest(files: dict[str, bytes], one: Garment) -> None:
    assert list(files) == [f"svg/{name}.svg" for name in (*SIZES, "nest")]
    assert list(svg_files(one)) == ["svg/Ines.svg"]


def test_the_document_is_in_millimetres(files: dict[str, bytes]) -> None:
    root = ElementTree.fromstring(files["svg/M.svg"])
    _, _, width, height = (float(v) for v in root.attrib["viewBox"].split())
    assert root.attrib["width"] == f"{width:g}mm" and root.attrib["height"] == f"{height:g}mm"
    inch = next(e for e in root.iter(f"{SVG}path") if e.get("id") == "test-inch")
    x = [float(pair.split(",")[0]) for pair in re.findall(r"[-\d.]+,[-\d.]+", inch.attrib["d"])]
    assert max(x) - min(x) == pytest.approx(25.4, abs=1e-3)


def test_every_edge_is_named_with_its_source_line(files: dict[str, bytes], garment: Garment) -> None:
    root = ElementTree.fromstring(files["svg/L.svg"])
    by_id = {e.get("id"): e for e in root.iter() if e.get("id")}
    for piece in garment.pieces:
        for edge in piece.edges:
            found = by_id[f"{piece.name}.{edge.name}"]
            assert found.get("data-source") == str(edge.span)
            assert found.get("data-piece") == piece.name and found.get("data-edge") == edge.name


def test_ids_are_unique_and_each_size_has_its_layer(files: dict[str, bytes]) -> None:
    root = ElementTree.fromstring(files["svg/nest.svg"])
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    groups = {g.get("id"): g for g in root.iter(f"{SVG}g")}
    assert set(groups) == {"shared", *(f"size-{size}" for size in SIZES)}
    for size in SIZES:
        group = groups[f"size-{size}"]
        assert group.get("data-size") == size
        assert {e.get("data-size") for e in group if e.get("data-piece")} == {size}
        assert f"front.hem.cut.{size}" in {e.get("id") for e in group}


def test_everything_lies_on_the_sheet(files: dict[str, bytes]) -> None:
    for data in files.values():
        root = ElementTree.fromstring(data)
        _, _, width, height = (float(v) for v in root.attrib["viewBox"].split())
        for path in root.iter(f"{SVG}path"):
            pairs = np.array(re.findall(r"(-?[\d.]+),(-?[\d.]+)", path.attrib["d"]), dtype=float)
            assert pairs.min() >= 0 and pairs[:, 0].max() <= width and pairs[:, 1].max() <= height


def test_hostile_titles_are_only_text() -> None:
    title = '</title><script>alert("x")</script> & \x00\x1b\ud800 “ok”'
    data = svg_files(make_garment(1, title=title, sizes=('M"><script/>',)))
    ((name, text),) = data.items()
    assert re.fullmatch(r"svg/[\w.-]+\.svg", name)
    root = ElementTree.fromstring(text)
    assert not list(root.iter(f"{SVG}script")) and b"<script" not in text
    heading = root.find(f"{SVG}title")
    assert heading is not None and heading.text and heading.text.startswith('</title><script>alert("x")</script> &')


@given(st.text(max_size=40), st.text(min_size=1, max_size=20))
@settings(max_examples=80, deadline=None)
def test_any_text_makes_a_well_formed_document(title: str, name: str) -> None:
    items = (
        Label(title, 1, 2, 3, id=name),
        Path((lines_through([(0, 0), (1, 1)]),), Stroke(0.2), data=(("piece", title),)),
    )
    root = ElementTree.fromstring(svg(Drawing(title, 10, 10, (Layer(name, items),))).encode())
    assert root.tag == f"{SVG}svg"


def test_names_of_files_never_fall_together() -> None:
    garment = make_garment(4, sizes=("a b", "a/b", "nest", "..."))
    assert len(svg_files(garment)) == 5


def test_turns_move_points_and_labels_alike() -> None:
    label = Label("x", 3.0, 1.0, 4.0)
    for quarters in range(4):
        turn = Turn(quarters, 10.0, 20.0)
        moved = label.moved(turn)
        assert np.allclose(turn.points(np.array([3.0, 1.0])), [moved.x, moved.y])
        assert moved.angle == 90.0 * quarters
        end = turn.points(np.array([4.0, 1.0])) - turn.points(np.array([3.0, 1.0]))
        assert np.allclose(end, [np.cos(np.radians(moved.angle)), np.sin(np.radians(moved.angle))])


def test_boxes_and_circles() -> None:
    square = Path((rectangle(1, 2, 3, 4),), Stroke(0.5), closed=True)
    assert np.allclose(square.box(), [[0.75, 1.75], [4.25, 6.25]])
    ring = Path((circle(0, 0, 10),))
    assert np.allclose(ring.box(), [[-10, -10], [10, 10]], atol=1e-9)


def test_a_size_that_was_not_drafted_is_left_out(garment: Garment) -> None:
    front = garment.pieces[0]
    segments = front.edges[1].segments.copy()
    segments[3] = np.nan
    broken = replace(front, edges=(front.edges[0], replace(front.edges[1], segments=segments), *front.edges[2:]))
    files = svg_files(replace(garment, pieces=(broken, *garment.pieces[1:])))
    assert "svg/L.svg" not in files and len(files) == 7


def test_what_is_shorter_than_a_thousandth_of_a_millimetre_is_not_drawn() -> None:
    run = lines_through([(0, 0), (5, 0), (5.0002, 0.0001), (9, 0)])
    assert path_data(run) == "M0,0 L5,0 L9,0"
    assert path_data(lines_through([(5, 0), (5.0002, 0.0001)])) == ""
    assert items_svg([Path((lines_through([(5, 0), (5.0002, 0.0001)]),), Stroke(0.2))]) == []
