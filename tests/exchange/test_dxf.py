"""DXF files read back by ezdxf: sound, a block for each piece, every line where it was drafted, on its own layer."""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
import shapely
from click.testing import CliRunner
from ezdxf.audit import Auditor

from draft.base.notes import Problems
from draft.command.main import commands
from draft.exchange.dxf import LAYERS, dxf_files
from draft.exchange.polylines import TOLERANCE, polylines_of
from draft.garment.garment import Garment, Piece
from draft.geometry import cubic
from draft.geometry.flatten import polyline as dense
from draft.geometry.length import point_at
from draft.seams.allowance import cutting_line
from tests.asking import bundled
from tests.exchange.made_up import smock

EPS = 1e-3  # mm: the file has four places


def document(data: bytes) -> Any:
    return ezdxf.read(io.StringIO(data.decode("cp1252")))


@pytest.fixture(scope="module")
def files() -> dict[str, bytes]:
    return dxf_files(smock())


@pytest.fixture(scope="module")
def first(files: dict[str, bytes]) -> Any:
    return document(files["dxf/body-1.dxf"])


def drawings(files: dict[str, bytes]) -> list[bytes]:
    return [data for name, data in files.items() if name.endswith(".dxf")]


def block(doc: Any, start: str) -> Any:
    (found,) = [block for block in doc.blocks if block.name.startswith(start)]
    return found


def on_layer(space: Any, layer: str) -> list[Any]:
    return [entity for entity in space if entity.dxf.layer == layer]


def line(entity: Any) -> np.ndarray:
    """The points of a line or polyline, the first again where it is closed."""
    if entity.dxftype() == "LINE":
        return np.array([list(entity.dxf.start)[:2], list(entity.dxf.end)[:2]])
    points = np.array([list(vertex.dxf.location)[:2] for vertex in entity.vertices])
    return np.concatenate([points, points[:1]]) if entity.is_closed else points


def places(space: Any, layer: str) -> np.ndarray:
    return np.array([list(entity.dxf.location)[:2] for entity in on_layer(space, layer)]).reshape(-1, 2)


def texts(space: Any) -> list[str]:
    return [entity.dxf.text for entity in on_layer(space, "15")]


def fine_cut(piece: Piece, body: int = 0) -> Any:
    return shapely.LineString(dense(cutting_line(piece, body), 400))


def test_a_file_for_each_size_and_each_is_sound(files: dict[str, bytes]) -> None:
    assert set(files) == {"dxf/body-1.dxf", "dxf/body-2.dxf", "dxf/nest.dxf", "dxf/nest.rul"}
    for data in drawings(files):
        doc = document(data)
        assert doc.dxfversion == "AC1009"  # R12
        audit: Auditor = doc.audit()
        assert not audit.errors and not audit.fixes


@pytest.mark.parametrize("name", ["marlpit", "tidemill", "ropewalk"])
def test_the_bundled_patterns_are_sound_in_every_size(name: str) -> None:
    made = bundled(name).garment
    found = dxf_files(made)
    assert len(found) == 9
    for name, data in found.items():
        if name.endswith(".rul"):
            continue
        doc = document(data)
        assert not doc.audit().errors and not doc.audit().fixes
        sizes = 7 if "nest" in name else 1
        assert len([b for b in doc.blocks if not b.name.startswith(("*", "$"))]) == sizes * len(made.pieces)


def test_only_what_the_standard_knows_is_written(first: Any) -> None:
    kinds = {(e.dxf.layer, e.dxftype()) for b in first.blocks if not b.name.startswith(("*", "$")) for e in b}
    assert {layer for layer, _ in kinds} == set(LAYERS)
    assert {kind for _, kind in kinds} == {"POLYLINE", "POINT", "LINE", "TEXT"}


def test_each_piece_is_a_block_placed_once_and_apart(first: Any) -> None:
    inserts = first.modelspace().query("INSERT")
    assert sorted(insert.dxf.name for insert in inserts) == ["BACK-BODY_1", "FRONT-BODY_1"]
    shapes = []
    for insert in inserts:
        (boundary,) = on_layer(first.blocks.get(insert.dxf.name), "1")
        shapes.append(shapely.Polygon(line(boundary) + np.array(list(insert.dxf.insert)[:2])))
    assert shapes[0].distance(shapes[1]) > 10


@pytest.mark.parametrize(("name", "body"), [("front", 0), ("back", 0), ("front", 1), ("back", 1)])
def test_the_boundary_is_the_cutting_line(files: dict[str, bytes], name: str, body: int) -> None:
    found = block(document(files[f"dxf/body-{body + 1}.dxf"]), name.upper())
    (boundary,) = on_layer(found, "1")
    assert boundary.is_closed
    drawn, true = shapely.LineString(line(boundary)), fine_cut(smock().piece(name), body)
    assert drawn.hausdorff_distance(true) < TOLERANCE + 0.01 and true.hausdorff_distance(drawn) < TOLERANCE + 0.01
    assert shapely.Polygon(line(boundary)).area == pytest.approx(shapely.Polygon(true.coords).area, rel=1e-3)
    assert shapely.Polygon(line(boundary)).is_valid


def test_every_point_of_the_boundary_is_told_as_a_corner_or_a_curve(first: Any) -> None:
    for name in ("FRONT", "BACK"):
        found = block(first, name)
        points = line(on_layer(found, "1")[0])[:-1]
        told = np.concatenate([places(found, "2"), places(found, "3")])
        assert len(told) == len(points)
        assert all(np.abs(told - point).max(axis=1).min() < EPS for point in points)


def test_corners_are_corners_and_curves_are_not(first: Any) -> None:
    found = block(first, "BACK")
    points, corners = line(on_layer(found, "1")[0])[:-1], places(found, "2")
    ahead, behind = (cubic.unit(np.roll(points, -1, axis=0) - points), cubic.unit(points - np.roll(points, 1, axis=0)))
    turn = np.degrees(np.abs(np.arctan2(cubic.cross(behind, ahead), cubic.dot(behind, ahead))))
    is_corner = np.array([np.abs(corners - point).max(axis=1).min() < EPS for point in points])
    assert turn[is_corner].min() > 3 and turn[~is_corner].max() < 25  # a tight curve in few chords turns by so much
    assert is_corner.sum() == 6  # the five of the piece, and one where the slanting side is folded over with the hem


def test_a_piece_on_the_fold_is_its_half_with_its_mirror_line(first: Any) -> None:
    found = block(first, "FRONT")
    (mirror,) = on_layer(found, "6")
    ends = line(mirror)
    assert np.allclose(ends[:, 0], 0, atol=EPS) and sorted(ends[:, 1]) == pytest.approx([-30, 390], abs=0.02)
    boundary = shapely.LineString(line(on_layer(found, "1")[0]))
    assert boundary.buffer(EPS).contains(shapely.LineString(ends))
    assert line(on_layer(found, "1")[0])[:, 0].min() > -EPS
    assert not on_layer(block(first, "BACK"), "6")


def test_the_sewing_line_is_whole_but_for_the_fold(first: Any) -> None:
    (open_line,) = on_layer(block(first, "FRONT"), "14")
    (closed,) = on_layer(block(first, "BACK"), "14")
    assert not open_line.is_closed and closed.is_closed
    for name, entity in (("front", open_line), ("back", closed)):
        edges = [e for e in smock().piece(name).edges if not e.on_fold]
        true = shapely.union_all([shapely.LineString(dense(edge.segments[0], 400)) for edge in edges])
        assert shapely.LineString(line(entity)).hausdorff_distance(true) < TOLERANCE + 0.01
    assert np.allclose(line(open_line)[[0, -1], 0], 0, atol=EPS)


def test_notches_lie_on_the_boundary_where_the_seam_has_them(first: Any) -> None:
    for name, strokes in (("front", 7), ("back", 2)):  # one of its own, a double one, mouths of a dart and of a pleat
        found, piece = block(first, name.upper()), smock().piece(name)
        boundary = shapely.LineString(line(on_layer(found, "1")[0]))
        notches = places(found, "4")
        assert len(notches) == strokes
        assert max(boundary.distance(shapely.Point(at)) for at in notches) < TOLERANCE + 0.01
        slope = piece.edge("slope")
        for notch in piece.notches:
            at = point_at(slope.segments, notch.at)[0]
            near = np.sort(np.hypot(*(notches - at).T))[: notch.strokes]
            assert (np.abs(np.sqrt(np.maximum(near**2 - 10.0**2, 0)) - (2.5 if notch.strokes == 2 else 0)) < 0.1).all()


def test_grain_darts_pleats_lines_and_drill_holes(first: Any) -> None:
    found = block(first, "FRONT")
    (grain,) = on_layer(found, "7")
    ends = line(grain)
    assert np.allclose(ends[0, 0], ends[1, 0], atol=EPS) and abs(ends[1, 1] - ends[0, 1]) > 100
    inside = shapely.Polygon(line(on_layer(found, "1")[0]))
    assert inside.contains(shapely.LineString(ends))
    inner = [line(entity) for entity in on_layer(found, "8")]
    pocket = [[60, 200], [140, 200], [140, 120]]
    assert any(len(points) == 3 and np.allclose(points, pocket, atol=EPS) for points in inner)
    assert any(len(points) == 3 and np.allclose(points[1], [120, 300], atol=EPS) for points in inner)  # the dart
    pleat = [points for points in inner if len(points) == 2]
    assert len(pleat) == 2 and all(
        np.hypot(*(points[1] - points[0])) == pytest.approx(50, abs=0.01) for points in pleat
    )
    assert all(inside.buffer(1).contains(shapely.LineString(points)) for points in pleat)
    assert np.allclose(places(found, "13"), [[40, 300], [120, 300]], atol=EPS)  # the button, the dart's point


def test_what_a_piece_is_stands_in_it_and_what_the_style_is_beside_them(first: Any) -> None:
    assert texts(block(first, "FRONT")) == [
        "Piece Name: FRONT",
        "Size: body 1",
        "Quantity: 1",
        "Annotation: cut 1 on the fold",
    ]
    assert texts(block(first, "BACK"))[-2:] == ["Quantity: 2", "Annotation: cut 2 as mirrored pairs"]
    assert texts(first.modelspace()) == [
        "Product: plainseam",
        "Style Name: Smock, long",
        "Sample Size: body 1",
        "Units: METRIC",
        "Author: Saltern Lane",
    ]


def test_the_day_is_that_of_the_version_and_never_the_clocks(files: dict[str, bytes]) -> None:
    """Month before day, as the standard writes it (from memory)."""
    said = {name: data.decode("latin-1") for name, data in dxf_files(smock(), day="2026-05-04").items()}
    assert all("Creation Date: 05-04-2026" in text for name, text in said.items() if name.endswith(".dxf"))
    assert not any(b"Creation Date" in data for data in files.values())


def test_a_notch_tells_its_depth_and_the_angle_of_its_cut(first: Any) -> None:
    found = block(first, "FRONT")
    inside = shapely.Polygon(line(on_layer(found, "1")[0]))
    for point in on_layer(found, "4"):
        (x, y, deep), turn = point.dxf.location, np.radians(point.dxf.angle)
        assert 2.0 < deep <= 5.0
        tip = shapely.Point(x + deep * np.cos(turn), y + deep * np.sin(turn))
        assert inside.contains(tip) and inside.exterior.distance(tip) > 0.9 * deep


def test_every_boundary_runs_one_way_round_and_the_extents_are_told(files: dict[str, bytes]) -> None:
    for data in drawings(files):
        doc = document(data)
        low, high = np.array(doc.header["$EXTMIN"])[:2], np.array(doc.header["$EXTMAX"])[:2]
        for placed in doc.modelspace().query("INSERT"):
            (boundary,) = on_layer(doc.blocks.get(placed.dxf.name), "1")
            points = line(boundary)
            assert shapely.LinearRing(points).is_ccw
            there = points + np.array(list(placed.dxf.insert)[:2])
            assert (there >= low - EPS).all() and (there <= high + EPS).all()


def test_a_nest_has_all_sizes_and_each_corner_grades_by_its_rule(files: dict[str, bytes]) -> None:
    doc = document(files["dxf/nest.dxf"])
    rules = deltas(files["dxf/nest.rul"])
    said = texts(doc.modelspace())
    assert "Sample Size: body 1" in said and "Grading Rule Table: Smock, long" in said
    inserts = {one.dxf.name: tuple(one.dxf.insert)[:2] for one in doc.modelspace().query("INSERT")}
    for name, count in (("FRONT", 5), ("BACK", 4)):
        sample, alone = doc.blocks.get(f"{name}-BODY_1"), doc.blocks.get(f"{name}-BODY_2")
        assert inserts[alone.name] == inserts[sample.name]
        numbered = [text for text in on_layer(sample, "2") if text.dxftype() == "TEXT"]
        assert len(numbered) >= count and not [text for text in on_layer(alone, "2") if text.dxftype() == "TEXT"]
        corners = shapely.MultiPoint(places_of(alone, "POINT", "2"))
        for text in numbered:
            at = np.array(list(text.dxf.insert)[:2]) + rules[int(text.dxf.text.removeprefix("# "))][1]
            assert corners.distance(shapely.Point(at)) < 0.02, (name, text.dxf.text)


def places_of(space: Any, kind: str, layer: str) -> np.ndarray:
    return np.array([list(one.dxf.location)[:2] for one in on_layer(space, layer) if one.dxftype() == kind])


def deltas(data: bytes) -> dict[int, np.ndarray]:
    """The deltas of each rule of a table `(sizes, 2)`, by its number."""
    head, *rules = data.decode("cp1252").split("RULE: DELTA ")
    assert "NUMBER OF SIZES: 2" in head and "SIZE LIST: body_1 body_2" in head and rules[-1].rstrip().endswith("END")
    found = {}
    for rule in rules:
        number, *rows = rule.replace("END", "").split("\r\n")
        found[int(number)] = np.array([[float(part) for part in row.split(",")] for row in rows if row])
        assert found[int(number)].shape == (2, 2) and not found[int(number)][0].any()  # the sample size stays
    return found


def test_the_same_pattern_makes_the_same_file(files: dict[str, bytes]) -> None:
    assert dxf_files(smock()) == files


def names(garment: Garment) -> Iterator[str]:
    for data in drawings(dxf_files(garment))[:-1]:
        yield from (b.name for b in document(data).blocks if not b.name.startswith(("*", "$")))


def test_names_of_blocks_are_what_r12_takes() -> None:
    made = smock()
    pieces = (replace(made.pieces[0], name="a_very_long_name_of_a_piece_on_the_left"),)
    pieces += (replace(made.pieces[0], name="a_very_long_name_of_a_piece_on_the_right"),)
    odd = replace(made, pieces=pieces, joins=(), sizes=("Zoë & co, 38½", "b"))
    found = list(names(odd))
    assert len(set(found)) == 4
    assert all(len(name) <= 31 and name.isascii() and name == name.upper() and " " not in name for name in found)


def test_the_lines_are_chords_no_further_from_the_curve_than_said() -> None:
    piece = smock().piece("back")
    lines = polylines_of(smock(), piece, 1)
    assert len(lines.boundary) < 120  # a tolerance of a tenth needs few points
    assert fine_cut(piece, 1).hausdorff_distance(shapely.LineString(lines.boundary)) < TOLERANCE + 0.01


def test_without_the_library_there_is_one_clear_message(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(Problems) as caught:
        dxf_files(smock())
    (note,) = caught.value.notes
    assert "`ezdxf`, which is not installed" in note.message and "plainseam[dxf]" in note.hints[0]


def test_the_command_writes_the_files(tmp_path: Path) -> None:
    words = ["export", "tidemill", "--to", "dxf", "--sizes", "M,L", "--out", str(tmp_path)]
    done = CliRunner().invoke(commands, words)
    assert done.exit_code == 0 and "INSUNITS" not in done.output
    assert sorted(path.name for path in (tmp_path / "dxf").iterdir()) == ["L.dxf", "M.dxf", "nest.dxf", "nest.rul"]
    assert not ezdxf.readfile(tmp_path / "dxf" / "M.dxf").audit().errors
    wide = CliRunner().invoke(commands, [*words, "--width", "60 cm"])
    assert wide.exit_code == 2 and "--width" in wide.output
