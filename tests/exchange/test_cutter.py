"""Bare cutting lines: one closed path for each whole piece, true to size, apart, and nothing else to follow."""

from __future__ import annotations

import re
import xml.etree.ElementTree as Tree
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from click.testing import CliRunner
from shapely import affinity

from draft.base.notes import Problems
from draft.command.main import commands
from draft.exchange.cutter import GAP, HAIRLINE, Machine, cutter_files
from draft.garment.garment import Garment
from draft.geometry import cubic
from draft.geometry.flatten import polyline as dense
from draft.seams.allowance import cutting_line, opened_out
from tests.asking import bundled
from tests.exchange.made_up import smock

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def read(data: bytes) -> tuple[Tree.Element, dict[str, np.ndarray]]:
    """The file, and its paths as segments `(n, 4, 2)` by their names."""
    root = Tree.fromstring(data)
    return root, {path.get("id", ""): segments(path.get("d", "")) for path in root}


def segments(words: str) -> np.ndarray:
    found: list[np.ndarray] = []
    here = np.zeros(2)
    for letter, rest in re.findall(r"([MLCZ])([^MLCZ]*)", words):
        points = np.array([float(n) for n in NUMBER.findall(rest)]).reshape(-1, 2)
        if letter in "LC":
            found.append(cubic.line(here, points[0]) if letter == "L" else np.concatenate([here[None], points]))
        here = points[-1] if len(points) else here
    return np.array(found)


@pytest.mark.parametrize("body", [0, 1])
def test_there_is_one_closed_hairline_for_each_piece_and_nothing_else(body: int) -> None:
    root, paths = read(cutter_files(smock())[f"cutter/body-{body + 1}.svg"])
    assert [child.tag.rpartition("}")[2] for child in root] == ["path", "path"]
    for path in root:
        words = path.get("d", "")
        assert words.count("M") == 1 and words.count("Z") == 1 and words.endswith("Z")
        assert path.get("fill") == "none" and float(path.get("stroke-width", "")) == HAIRLINE
        assert path.get("stroke-dasharray") is None
    for line in paths.values():
        assert np.allclose(line[0, 0], line[-1, 3], atol=2e-3)  # drawn to where it began, as well as closed


def test_millimetres_are_the_unit() -> None:
    root, _ = read(cutter_files(smock())["cutter/body-1.svg"])
    _, _, width, height = (float(n) for n in root.get("viewBox", "").split())
    assert root.get("width") == f"{width:.3f}mm" and root.get("height") == f"{height:.3f}mm"


def shape(line: np.ndarray) -> shapely.Polygon:
    return shapely.Polygon(dense(line, 200))


@pytest.mark.parametrize("name", ["marlpit", "ropewalk"])
def test_each_path_is_the_whole_cutting_line(name: str) -> None:
    made: Garment = bundled(name, "M").garment
    _, paths = read(cutter_files(made)["cutter/M.svg"])
    assert list(paths) == [piece.name for piece in made.pieces]
    for piece in made.pieces:
        true = shape(opened_out(cutting_line(piece, 0), piece, 0))
        drawn = shape(paths[piece.name])
        assert drawn.is_valid
        assert drawn.area == pytest.approx(true.area, rel=1e-4) and drawn.length == pytest.approx(true.length, rel=1e-4)
        if piece.on_fold:
            half = shape(cutting_line(piece, 0))
            assert drawn.area == pytest.approx(2 * half.area, rel=1e-3)
        turned = shapely.transform(true, lambda points: points * [1, -1])  # y runs down
        moved = affinity.translate(turned, *(np.array(drawn.bounds[:2]) - np.array(turned.bounds[:2])))
        assert moved.hausdorff_distance(drawn) < 0.05


def test_pieces_lie_apart_within_the_sheet() -> None:
    root, paths = read(cutter_files(smock())["cutter/body-2.svg"])
    _, _, width, height = (float(n) for n in root.get("viewBox", "").split())
    shapes = [shape(line) for line in paths.values()]
    assert shapes[0].distance(shapes[1]) > GAP - 0.01
    assert all(shapely.box(0, 0, width, height).contains(each) for each in shapes)


def test_the_machines_width_is_kept_or_refused() -> None:
    root, _ = read(cutter_files(smock(), Machine(700.0))["cutter/body-1.svg"])
    assert float(root.get("viewBox", "").split()[2]) <= 700
    with pytest.raises(Problems) as caught:
        cutter_files(smock(), Machine(300.0))
    assert "`front` is" in caught.value.notes[0].message
    room = re.search(r"--width (\d+(?:\.\d+)?) cm", caught.value.notes[0].hints[0])
    assert room
    assert cutter_files(smock(), Machine(float(room[1]) * 10 + 300))  # the second body is wider still


def parts(data: bytes) -> dict[str, str]:
    """The data of every path, in groups too, by its name."""
    return {path.get("id", ""): path.get("d", "") for path in Tree.fromstring(data).iter() if path.get("d")}


@pytest.mark.parametrize(("notches", "points"), [("slit", 2), ("vee", 3)])
def test_notches_are_cut_into_the_outline(notches: str, points: int) -> None:
    found = parts(cutter_files(smock(), Machine(notches=notches))["cutter/body-1.svg"])  # type: ignore[arg-type]
    outline = shape(segments(found["front"]))
    runs = [segments("M" + words) for words in found["front.notches"].split("M")[1:]]
    assert len(runs) == 2 * 7  # a notch, a double one, a dart's mouth and a pleat's, on both halves
    for run in runs:
        line = shapely.LineString(np.concatenate([run[:, 0], run[-1:, 3]]))
        assert len(line.coords) == points and outline.buffer(0.2).contains(line)
        ends = [outline.exterior.distance(shapely.Point(at)) for at in line.coords]
        assert ends[0] < 0.5 and max(ends) > 2.0 and (points == 2 or ends[-1] < 0.5)


def test_lines_inside_stand_in_a_group_of_their_own() -> None:
    data = cutter_files(smock(), Machine(inner=True))["cutter/body-1.svg"]
    group = next(child for child in Tree.fromstring(data) if child.tag.endswith("}g"))
    assert group.get("id") == "inner-lines" and {path.get("stroke") for path in group} == {"#0000ff"}
    found = parts(data)
    inner, outline = segments(found["front.inner"]), shape(segments(found["front"]))
    assert outline.buffer(0.2).contains(shapely.MultiPoint(inner.reshape(-1, 2)))
    assert "front.inner" not in parts(cutter_files(smock())["cutter/body-1.svg"])


def test_every_copy_is_there_and_the_other_hand_is_mirrored() -> None:
    drafted = bundled("boatyard", "M").garment
    files = cutter_files(drafted, Machine(copies=True))
    assert set(files) == {"cutter/shell/M.svg", "cutter/interfacing/M.svg"}
    found = parts(files["cutter/shell/M.svg"])
    one, two = (shape(segments(found[name])) for name in ("front-1", "front-2"))
    assert len(found) == sum(cut.count for piece in drafted.pieces for cut in piece.all_cuts if cut.cloth == "shell")
    home = [affinity.translate(each, *(-np.array(each.bounds[:2]))) for each in (one, two)]
    over = affinity.scale(home[1], -1.0, 1.0)
    assert home[0].symmetric_difference(over).area < 5.0 < home[0].symmetric_difference(home[1]).area


def test_a_piece_that_fits_only_turned_is_turned_when_asked() -> None:
    wide = 2 * 450.0
    with pytest.raises(Problems):
        cutter_files(bundled("marlpit", "M").garment, Machine(wide - 400))
    root, paths = read(cutter_files(bundled("marlpit", "M").garment, Machine(wide, turned=True))["cutter/M.svg"])
    assert float(root.get("viewBox", "").split()[2]) <= wide and len(paths) == 4


def test_the_command_writes_the_files(tmp_path: Path) -> None:
    words = ["export", "marlpit", "--to", "cutter", "--sizes", "M", "--out", str(tmp_path)]
    assert CliRunner().invoke(commands, words).exit_code == 0
    assert (tmp_path / "cutter" / "M.svg").is_file()
    narrow = CliRunner().invoke(commands, [*words, "--width", "20 cm"])
    assert narrow.exit_code == 1


def test_hpgl_read_back_has_the_same_lines_in_the_same_places_and_their_own_pen() -> None:
    api = pytest.importorskip("ezdxf.addons.hpgl2.api")

    garment = bundled("tidemill", "M").garment
    machine = Machine(notches="slit", inner=True, hpgl=True)
    files = cutter_files(garment, machine)
    assert list(files) == ["cutter/M.svg", "cutter/M.plt"]
    data = files["cutter/M.plt"]
    assert b"plainseam" in data and files == cutter_files(garment, machine)
    root = Tree.fromstring(files["cutter/M.svg"])
    for colour, pen in (("#000000", 7), ("#0000ff", 5)):
        paths = [path for path in root.iter("{http://www.w3.org/2000/svg}path") if path.get("stroke") == colour]
        runs = [run for path in paths for run in _runs(path.get("d", ""))]
        wanted = shapely.union_all([shapely.LineString(dense(run)) for run in runs])
        drawn = shapely.union_all(list(_lines(api.to_dxf(data).modelspace(), pen)))
        left, top, right, bottom = wanted.bounds
        x, y, far, low = drawn.bounds
        assert np.allclose((right - left, bottom - top), (far - x, low - y), atol=0.06)  # no larger and no smaller
        moved = affinity.translate(drawn, left - x, top - y)
        assert shapely.hausdorff_distance(wanted, moved) < 0.1 and moved.length == pytest.approx(
            wanted.length, rel=0.01
        )


def _runs(words: str) -> list[np.ndarray]:
    return [segments("M" + part) for part in words.split("M") if part.strip()]


def _lines(space: Iterable[Any], pen: int) -> Iterator[shapely.LineString]:
    """The lines that a pen draws, mm with y down: a plotter's own step is 0.025 mm."""
    for entity in space:
        if entity.dxf.color != pen:
            continue
        line = entity.dxftype() == "LINE"
        points = [entity.dxf.start, entity.dxf.end] if line else list(entity.vertices_in_wcs())
        points += points[:1] if not line and entity.closed else []
        yield shapely.LineString([(point.x / 40.0, -point.y / 40.0) for point in points])
