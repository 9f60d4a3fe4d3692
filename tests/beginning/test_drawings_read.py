"""SVG and DXF as strokes: shapes whose truth is known in closed form, and what could do harm."""

from __future__ import annotations

import io
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Problems
from draft.beginning.begun import read_drawing
from draft.beginning.dxf_strokes import read_dxf
from draft.beginning.strokes import Drawn, heard, said
from draft.beginning.svg_numbers import size_of, transform_of
from draft.beginning.svg_strokes import SvgError, read_svg
from draft.geometry.area import outline_area
from draft.geometry.flatten import flatten
from tests.beginning.drawings import lines, svg

R = 900.0


@pytest.mark.parametrize(
    "drawn",
    [
        f'<circle cx="10" cy="20" r="{R}"/>',
        f'<ellipse cx="10" cy="20" rx="{R}" ry="{R}"/>',
        f'<path d="M{10 - R},20 a{R},{R} 0 0 1 {2 * R},0 a{R} {R} 0 1 1 {-2 * R} 0z"/>',
        f'<path d="M{10 - R} 20A{R} {R} 30 0 0 10,{20 + R} A{R},{R},0,1,0,{10 - R},20"/>',
        f'<g transform="translate(10,20) scale({R})"><circle r="1"/></g>',
    ],
)
def test_a_circle_is_round_however_it_is_drawn(drawn: str) -> None:
    """Every point lies at the radius from the centre, to a hundredth of what is asked for."""
    (found,) = lines(drawn)
    assert np.abs(np.hypot(found[:, 0] - 10, found[:, 1] + 20) - R).max() < 0.001


def test_areas_are_those_of_the_shapes() -> None:
    inside = '<ellipse rx="30" ry="20" transform="rotate(33) skewX(20)"/><rect width="50" height="40" rx="10"/>'
    areas = [abs(outline_area(stroke.path)) for stroke in read_svg(svg(inside)).strokes]
    assert areas == pytest.approx([np.pi * 600, 2000 - (4 - np.pi) * 100], rel=1e-6)


def test_lines_polygons_and_curves_end_where_they_are_said_to() -> None:
    inside = (
        '<line x1="1" y1="2" x2="3" y2="4"/><polyline points="0,0 1,0 1-1"/><polygon points="0 0 1 0 1 1"/>'
        '<path d="m1 1q1 0 1 1t1 1c0 1 1 1 1 2s1 1 1 2V0H0"/>'
    )
    found = lines(inside)
    assert [line[-1].tolist() for line in found] == [[3, -4], [1, 1], [0, 0], [0, 0]]


def test_transforms_are_those_of_the_standard() -> None:
    """SVG 1.1, section 7.6: a list is one matrix after the other; a turn about a point leaves that where it is."""
    assert transform_of("translate(5 6),scale(2)") == pytest.approx(np.array([[2, 0, 5], [0, 2, 6], [0, 0, 1]]))
    assert transform_of("rotate(90 3 4)") @ [3, 4, 1] == pytest.approx([3, 4, 1])
    assert transform_of("matrix(1 2 3 4 5 6)") @ [1, 1, 1] == pytest.approx([9, 12, 1])
    for wrong in ("rotate(", "scale(a)", "spin(3)", "matrix(1 2 3)", "rotate(1) x"):
        with pytest.raises(ValueError, match=r"`"):
            transform_of(wrong)


@pytest.mark.parametrize(
    ("root", "unit"),
    [
        ({"width": "100mm", "height": "50mm", "viewBox": "0 0 200 100"}, 0.5),
        ({"width": "10in", "viewBox": "0 0 254 254"}, 1.0),
        ({"width": "96", "height": "96", "viewBox": "0 0 96 96"}, None),
        ({"viewBox": "0 0 96 96"}, None),
        ({"width": "100%", "height": "100%", "viewBox": "0 0 1 1"}, None),
        ({"width": "210mm", "height": "297mm"}, 25.4 / 96),
        ({"width": "72pt", "height": "72pt", "viewBox": "0 0 25.4 25.4"}, 1.0),
        ({}, None),
    ],
)
def test_the_unit_is_what_width_and_view_box_say(root: dict[str, str], unit: float | None) -> None:
    """SVG 1.1, sections 7.2 and 7.10; plain numbers say nothing, as programs write them for any unit."""
    found = size_of(root)[1]
    assert found == (None if unit is None else pytest.approx(unit))


def test_names_groups_and_words_are_kept_and_what_is_hidden_is_not() -> None:
    inside = (
        '<g id="back"><path id="line" d="M0 0h1"/><text x="3" y="4">Back <tspan>piece</tspan></text></g>'
        '<g style="display:none"><path d="M0 0h1"/></g><defs><path d="M0 0h1"/></defs><script>alert(1)</script>'
        '<use href="#line"/><image href="http://example.org/x.png"/><rect width="100%" height="100%"/>'
    )
    drawn = read_svg(svg(inside))
    assert [(stroke.layer, stroke.name) for stroke in drawn.strokes] == [("back", "line")]
    assert [(one.text, one.at.tolist()) for one in drawn.words] == [("Back piece", [3, -4])]
    assert drawn.left_out == {"use": 1, "image": 1}


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b'<!DOCTYPE s [<!ENTITY a "b">]><svg>&a;</svg>', "declares entities"),
        (b'<!DOCTYPE s [<!ENTITY a SYSTEM "file:///etc/passwd">]><svg>&a;</svg>', "declares entities"),
        (b"<svg><g></svg>", "is not well formed"),
        (b"", "is not well formed"),
        (b"\xff\xfe<", "is not well formed"),
        (b"<html/>", "does not begin with `svg`"),
        (svg("<g>" * 80 + "</g>" * 80), "more than 60 deep"),
        (svg('<path id="p" d="M0 0 L banana"/>'), "has a path `p` that cannot be read"),
        (svg('<circle r="1em"/>'), "has a circle that cannot be read"),
        (svg('<g transform="spin(3)"/>'), "has a transform that cannot be read"),
        (svg('<path d="M0 0L1e999 0L1 1z"/>'), "numbers that are too large"),
    ],
)
def test_what_cannot_be_read_is_told(data: bytes, why: str) -> None:
    with pytest.raises(SvgError, match=why):
        read_svg(data)


@settings(max_examples=150, deadline=None)
@given(st.text(alphabet="MmLlHhVvCcSsQqTtAaZz0123456789.,- e", max_size=40), st.binary(max_size=60))
def test_any_path_and_any_bytes_are_read_or_refused(path: str, data: bytes) -> None:
    for text in (svg(f'<path d="{path}"/>'), data, svg(f"<g transform='{path}'/>")):
        try:
            assert isinstance(heard(said(read_svg(text))), Drawn)
        except SvgError:
            continue


def dxf(version: str = "R2010", units: int = 4) -> tuple[ezdxf.document.Drawing, ezdxf.layouts.Modelspace]:
    document = ezdxf.new(version, units=units)
    return document, document.modelspace()


def read(document: ezdxf.document.Drawing) -> Drawn:
    text = io.StringIO()
    document.write(text)
    return read_dxf(text.getvalue().encode(document.output_encoding))


def test_dxf_arcs_bulges_and_blocks_are_round() -> None:
    """A bulge of 1 is a half circle, of tan(angle / 4) an arc of that angle (DXF reference of the format's owner)."""
    document, space = dxf()
    block = document.blocks.new("ROUND")
    block.add_circle((0, 0), R)
    space.add_blockref("ROUND", (10, -20), dxfattribs={"rotation": 30})
    space.add_arc((10, -20), R, 20, 200)
    space.add_lwpolyline([(10 - R, -20, 1.0), (10 + R, -20, 1.0)], format="xyb", close=True)
    space.add_ellipse((10, -20), (R, 0), 1.0)
    space.add_polyline2d([(10 + R, -20, np.tan(np.pi / 8)), (10, R - 20, 0.0)], format="xyb")
    found = [flatten(stroke.path, 0.001) for stroke in read(document).strokes]
    assert len(found) == 5
    for line in found:
        assert np.abs(np.hypot(line[:, 0] - 10, line[:, 1] + 20) - R).max() < 0.01


def test_dxf_splines_run_as_the_library_says() -> None:
    document, space = dxf()
    spline = space.add_spline([(0, 0), (100, 80), (180, -40), (300, 0)])
    (stroke,) = read(document).strokes
    line = flatten(stroke.path, 0.001)
    truth = np.array([(p.x, p.y) for p in spline.construction_tool().approximate(200)])
    apart = np.hypot(*(truth[:, None] - line[None]).transpose(2, 0, 1)).min(axis=1)
    assert apart.max() < 0.5 and line[-1] == pytest.approx([300, 0])


@pytest.mark.parametrize(("units", "mm"), [(0, None), (1, 25.4), (4, 1.0), (5, 10.0), (6, 1000.0)])
def test_dxf_units_are_those_of_its_header(units: int, mm: float | None) -> None:
    document, space = dxf(units=units)
    document.header["$INSUNITS"] = units
    space.add_line((0, 0), (1, 1))
    assert read(document).unit == mm


def test_dxf_layers_and_words_are_kept() -> None:
    document, space = dxf()
    space.add_line((0, 0), (1, 1), dxfattribs={"layer": "SEAM"})
    space.add_text("Back", dxfattribs={"insert": (3, 4)})
    space.add_mtext("Cut {\\H2;two}")
    drawn = read(document)
    assert [stroke.layer for stroke in drawn.strokes] == ["SEAM"]
    assert [one.text for one in drawn.words] == ["Back", "Cut two"]


@pytest.mark.parametrize("data", [b"", b"junk", b"\x00\xff" * 99, b"0\nSECTION\n2\nENTITIES\n0\nLINE\n10\nx\n"])
def test_what_is_no_dxf_is_told_or_empty(data: bytes) -> None:
    try:
        assert not read_dxf(data).strokes
    except ValueError as reason:
        assert "no DXF drawing" in str(reason)


def test_a_block_placed_a_million_times_is_refused() -> None:
    document, space = dxf()
    document.blocks.new("B").add_circle((0, 0), 1)
    rows = {"row_count": 1000, "column_count": 1000, "row_spacing": 1, "column_spacing": 1}
    space.add_blockref("B", (0, 0), dxfattribs=rows)
    with pytest.raises(ValueError, match="more than 1,000 times"):
        read(document)


def test_a_file_is_read_in_a_process_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "a.svg").write_bytes(svg('<path d="M0 0h10v10z"/>'))
    assert len(read_drawing(tmp_path / "a.svg").strokes) == 1
    (tmp_path / "b.svg").write_bytes(b"<svg>")
    with pytest.raises(Problems, match="is not well formed"):
        read_drawing(tmp_path / "b.svg")
    with pytest.raises(Problems, match="is no drawing that outlines are read from"):
        read_drawing(tmp_path / "c.pdf")
    with pytest.raises(Problems, match="there is no drawing"):
        read_drawing(tmp_path / "none.dxf")
