"""What stands beside a level on the paper is what the pieces measure there; what is folded has its line."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from draft.garment.garment import Garment, Mark, Piece
from draft.garment.some_bodies import of_bodies
from tests.asking import bundled
from tests.pieces.bundled import PATTERNS, points

AWAY = 0.5
"""Levels lie at the ends of curves and at hems: the wider of two lines counts, so many mm below and above them."""
FURTHER = {
    ("lockside", "bust"): "the front is let out in gathers",
    ("lockside", "waist"): "the placket is a piece of its own, and darts lie inside the pieces",
    ("breakwater", "bust"): "the fronts lap over one another",
    ("breakwater", "waist"): "the fronts lap over one another",
}
"""Measurements that are not the pieces' widths added together."""
IN_PAIRS = {"thigh", "knee", "upper_arm"}
"""Measured round one leg or one arm."""
FOLDED = {
    "boatyard": {"waistband", "front", "back"},
    "breakwater": {"tie"},
    "hooded": {"sleeve_band"},
    "lockside": {"slit_binding"},
    "marlpit": {"sleeve_band", "neckband"},
    "netloft": {"neckband"},
    "ropewalk": {"waistband"},
    "roundhouse": {"waistband"},
    "slipway": {"waistband"},
    "tidemill": {"neckband"},
}


def _width(piece: Piece, level: Mark) -> float:
    """How wide all copies of a piece are at a level, square to its grain, on its sewing lines, mm."""
    shape = shapely.Polygon(np.concatenate([points(edge, 60)[0] for edge in piece.edges])).buffer(0)
    along = piece.grain[0]
    reach = 3000 * np.array([along[1], -along[0]])
    lines = [shapely.LineString([at - reach, at + reach]) for at in level.points[0, 0] + np.outer((-AWAY, AWAY), along)]
    width = max(float(shapely.intersection(shape, line).length) for line in lines)
    return width * (2 if any(edge.on_fold for edge in piece.edges) else 1) * piece.cut


def _at_levels(garment: Garment) -> dict[str, float]:
    widths = dict[str, float]()
    for piece in garment.pieces:
        for mark in piece.marks:
            if mark.line == "level":
                widths[mark.name] = widths.get(mark.name, 0.0) + _width(piece, mark)
    return widths


@pytest.mark.parametrize("name", PATTERNS)
def test_a_level_tells_what_the_pieces_measure_there(name: str) -> None:
    garment = of_bodies(bundled(name).garment, np.array([6]))  # 3XL
    told = {row.name: float(row.values[0]) for row in garment.finished}
    for level, width in _at_levels(garment).items():
        if level in told and (name, level) not in FURTHER:
            assert width / (2 if level in IN_PAIRS else 1) == pytest.approx(told[level], abs=4), level


def test_a_wrapped_front_is_as_wide_as_its_back() -> None:
    """Half of the bust and of the waist lies behind, whatever laps in front."""
    garment = bundled("breakwater", "M").garment
    back = next(piece for piece in garment.pieces if piece.name == "back")
    told = {row.name: float(row.values[0]) for row in garment.finished}
    for mark in back.marks:
        if mark.line == "level":
            assert 2 * _width(back, mark) == pytest.approx(told[mark.name], abs=1)


@pytest.mark.parametrize("name", PATTERNS)
def test_what_is_folded_has_its_line(name: str) -> None:
    pieces = bundled(name, "M").garment.pieces
    assert {piece.name for piece in pieces if any(mark.line == "fold" for mark in piece.marks)} == FOLDED[name]


@pytest.mark.parametrize("name", sorted(set(PATTERNS) - {"roundhouse"}))
def test_the_body_of_each_garment_may_be_lengthened_and_has_a_level(name: str) -> None:
    """A circle skirt alone is lengthened at its hem, and its hip lies on an arc."""
    lines = {mark.line for piece in bundled(name, "M").garment.pieces for mark in piece.marks}
    assert {"level", "lengthen"} <= lines


def test_both_sides_of_a_seam_are_lengthened_at_the_same_height() -> None:
    """Front, facing and placket are cut apart at the same levels."""
    for name, parts in (("breakwater", ("right_front", "right_facing")), ("lockside", ("front", "placket"))):
        pieces = {piece.name: piece for piece in bundled(name, "M").garment.pieces}
        heights = [
            [float(mark.points[0, 0, 1]) for mark in pieces[part].marks if mark.line == "lengthen"] for part in parts
        ]
        assert len(heights[0]) == 2 and np.allclose(heights[0], heights[1], atol=0.01)
