"""Drill marks and placement lines are drawn where the piece has them, in every size, with the designer's words once."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from draft.garment.garment import Piece
from draft.geometry import cubic
from draft.pack.files_on_pages import paged_sheets
from draft.pack.printed_files import Printing
from draft.paper.drawing.drawing import Label, Path
from draft.paper.piece.piece_drawing import PieceDrawing, draw_piece
from draft.paper.piece.piece_lines import FLIP, Outlines
from tests.asking import bundled
from tests.exchange.made_up import smock
from tests.paper.reading import words_shape


def front() -> Piece:
    return smock().piece("front")


def drawn(*bodies: int) -> PieceDrawing:
    return draw_piece(smock(), front(), bodies)


def marks(drawing: PieceDrawing) -> dict[str, Path]:
    """The drawn marks by their ids."""
    items = [item for items in drawing.sized for item in items if isinstance(item, Path)]
    return {item.id: item for item in items if "mark" in dict(item.data)}


@pytest.mark.parametrize("body", [0, 1])
def test_a_placement_line_runs_through_its_points(body: int) -> None:
    (run,) = marks(drawn(body))["front.pocket"].runs
    points = np.concatenate([run[:, 0], run[-1:, 3]])
    assert np.allclose(points * FLIP, [[60, 200], [140, 200], [140, 120]])


def test_a_drill_mark_is_a_ring_with_a_cross_about_its_point() -> None:
    runs = marks(drawn(0))["front.hole"].runs
    boxes = np.array([cubic.bounds(run) for run in runs])
    assert np.allclose(boxes.mean(axis=1), np.array([40, 300]) * FLIP, atol=1e-6)
    assert len(runs) == 3


def test_every_size_of_a_nest_has_its_own() -> None:
    assert set(marks(drawn(0, 1))) == {
        "front.pocket.body 1",
        "front.pocket.body 2",
        "front.hole.body 1",
        "front.hole.body 2",
    }


@pytest.mark.parametrize("bodies", [(0,), (0, 1)])
def test_the_words_stand_once_inside_the_piece(bodies: tuple[int, ...]) -> None:
    drawing = drawn(*bodies)
    labels = [item for item in drawing.shared if isinstance(item, Label) and item.text in ("pocket", "button")]
    assert sorted(label.text for label in labels) == ["button", "pocket"]
    for body in bodies:
        inside = Outlines.of(smock(), front(), body).sewing_shape
        assert all(inside.contains(words_shape(label)) for label in labels)
    assert not words_shape(labels[0]).intersects(words_shape(labels[1]))
    lines = [item for items in drawing.sized for item in items if isinstance(item, Path) and "mark" in dict(item.data)]
    for label in labels:
        for item in lines:
            shape = shapely.MultiLineString([np.array([run[0, 0], run[-1, 3]]) for run in item.runs])
            assert not words_shape(label).intersects(shape)


def test_the_words_of_a_line_run_along_its_longest_leg() -> None:
    (label,) = [item for item in drawn(0).shared if isinstance(item, Label) and item.text == "pocket"]
    assert label.angle % 90 == pytest.approx(0, abs=0.1)


@pytest.mark.parametrize("size", ["M", "2XL"])
def test_a_long_line_is_named_in_both_of_its_halves_on_the_pages_of_a_home_printer(size: str) -> None:
    (sheet,) = paged_sheets(bundled("breakwater").garment, Printing(("letter",)), (size,))
    said = [item for item in sheet.drawing.items() if isinstance(item, Label) and item.text == "centre front"]
    assert len(said) == 4  # of either front
