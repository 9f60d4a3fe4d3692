"""What was drafted is drawn with every name, and no label covers another."""

from __future__ import annotations

import csv
import io
from itertools import combinations

import numpy as np
import pytest
import shapely

from draft.answers.as_drafted import as_drafted_files, sheet_of, values_table
from draft.drafting.checked import draft_and_check
from draft.geometry.cubic import lines_through
from draft.geometry.flatten import sample
from draft.paper.drawing import font
from draft.paper.drawing.drawing import Drawing, Label, Path
from draft.paper.pictures.working_drawing import DART, WorkingSheet, working_drawing
from tests.asking import asked, bundled
from tests.plan.test_moves import drafted

SQUARE = lines_through(np.array([[0, 0], [400, 0], [400, 300], [0, 300], [0, 0]], dtype=float))


def _box(label: Label) -> tuple[float, float, float, float]:
    wide = font.text_width(label.text, label.size, label.bold)
    return label.x, label.y - label.size * font.CAP_HEIGHT, label.x + wide, label.y


def _covers(one: Label, other: Label) -> bool:
    a, b = _box(one), _box(other)
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _on_lines(drawing: Drawing) -> list[str]:
    """The labels that lie on a line; a leader only touches its own."""
    items = drawing.layers[0].items
    lines = [
        shapely.LineString(sample(run[None], 48)[0]) for path in items if isinstance(path, Path) for run in path.runs
    ]
    boxes = {label.text: shapely.box(*_box(label)).buffer(-0.01) for label in items if isinstance(label, Label)}
    return [words for words, box in boxes.items() if any(box.intersects(line) for line in lines)]


@pytest.mark.parametrize("name", ["marlpit", "ropewalk", "tidemill", "hooded"])
def test_no_label_of_a_bundled_pattern_lies_on_a_line(name: str) -> None:
    found = bundled(name, "M")
    for piece in (*found.plan.blocks, *found.plan.pieces):
        drawing = working_drawing(sheet_of(found, piece, 0), "Test", "M")
        labels = [item for item in drawing.layers[0].items if isinstance(item, Label)]
        assert not [(a.text, b.text) for a, b in combinations(labels, 2) if _covers(a, b)]
        assert not _on_lines(drawing)


def test_a_dart_says_how_wide_it_is_and_its_angle_and_its_edge_how_long_it_is_sewn() -> None:
    legs = lines_through([[100, 0], [120, 150], [140, 0]])
    sheet = WorkingSheet("front", "front", [("waist", SQUARE[:1])], darts=[("dart", legs)], sewn={"waist": 360.0})
    said = {item.text for item in working_drawing(sheet, "Test", "M").items() if isinstance(item, Label)}
    assert {"dart  4 cm, 15.2 deg", "waist  40 cm, sewn 36 cm"} <= said


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_hundred_names_are_told_apart(seed: int) -> None:
    places = np.random.default_rng(seed).uniform((0, 0), (400, 300), (100, 2))
    points = [(f"point_{k}", place) for k, place in enumerate(places)]
    drawing = working_drawing(WorkingSheet("front", "front", [("outline", SQUARE)], points=points), "Test", "M")
    labels = [item for item in drawing.layers[0].items if isinstance(item, Label)]
    assert {label.text for label in labels} >= {f"point {k}" for k in range(100)}
    assert not [(a.text, b.text) for a, b in combinations(labels, 2) if _covers(a, b)]
    assert not _on_lines(drawing)
    assert all(label.x >= 0 and _box(label)[2] <= drawing.width for label in labels)


def test_every_point_and_line_of_a_block_is_named() -> None:
    found = drafted("piece made from front\n    moves\n        close bust_dart, into waist_dart\n    cut 1\n")
    files = as_drafted_files(found)
    assert sorted(files) == ["working/one/front.svg", "working/one/made.svg", "working/values.csv"]
    block = files["working/one/front.svg"].decode()
    for name in ("bust point", "waist centre", "armpit", "across line", "bust dart", "shoulder", "on side"):
        assert f">{name}" in block
    before = files["working/one/made.svg"].decode()
    assert before.count("#a0a0a0") == 6  # the edges as they were before the move, and none on the block itself
    assert "#a0a0a0" not in block


def test_the_table_has_every_value_for_every_size() -> None:
    rows = list(csv.reader(io.StringIO(values_table(bundled("marlpit")).decode("utf-8-sig"))))
    assert rows[0][:2] == ["name", "unit"]
    assert rows[0][2:-1] == list(bundled("marlpit").garment.sizes)
    table = {row[0]: row for row in rows[1:]}
    assert float(table["bust_girth"][rows[0].index("M")]) == 94.0
    assert {"front.neck, across", "front.neckline, length", "sleeve_slope"} <= table.keys()
    assert not [name for name in table if "  " in name or " 0." in name]


PLEATED = """\
piece strip
    points
        a       at 0, 0
        b       at 40 cm, 0
        c       at 40 cm, -30 cm
        d       at 0, -30 cm
        first   on top: 8 cm from a
        last    on top: 20 cm from a
        middles 2 points from first to last along top

    outline
        top     a to b   straight
        right   b to c   straight
        bottom  c to d   straight
        left    d to a   straight

    pleats
        fold  on top: 4 cm wide at middles, folded 9 cm

    cut 1
"""


def test_pleats_are_drawn_into_the_piece_where_they_are_folded_and_say_how_wide_they_are() -> None:
    found = drafted(PLEATED)
    strip = next(piece for piece in found.plan.pieces if piece.name == "strip")
    sheet = sheet_of(found, strip, 0)
    tops = [[line[0, 0] for line in lines] for _, lines in sheet.pleats]
    assert np.allclose(tops, [[60, 100, 80], [180, 220, 200]])
    assert all(np.allclose(lines[:, :, 1], [[0, -90]] * 3) for _, lines in sheet.pleats)
    drawing = working_drawing(sheet, "Test", "one")
    said = [item.text for item in drawing.items() if isinstance(item, Label)]
    assert len([words for words in said if words.startswith("fold") and words.endswith("  4 cm")]) == 2
    assert not _on_lines(drawing)


def test_a_dart_inside_a_piece_is_drawn_from_point_to_point_and_says_how_wide_it_is() -> None:
    found = draft_and_check(asked("tests/good/bowed_darts.piece"))
    back = next(piece for piece in found.plan.pieces if piece.name == "back")
    sheet = sheet_of(found, back, 0)
    (name, legs), *others = sheet.inner_darts
    assert (name, others, legs.shape) == ("level_dart", [], (4, 4, 2))
    assert np.allclose(legs[1:, 0], legs[:-1, 3]) and np.allclose(legs[-1, 3], legs[0, 0])
    assert np.allclose(legs[[0, 2], 3] / 10, [[11, -24], [11, -40]])
    drawing = working_drawing(sheet, "Test", "M")
    assert "level dart  1.2 cm" in {item.text for item in drawing.items() if isinstance(item, Label)}
    assert len([item for item in drawing.layers[0].items if isinstance(item, Path) and item.stroke == DART]) == 3
