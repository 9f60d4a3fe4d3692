"""Darts with two points: what their line measures once they are sewn, and where they go with the paper."""

from pathlib import Path

import numpy as np
import pytest

from draft.checks.darts_inside import check
from draft.garment.garment import Garment
from draft.geometry.cubic import norm
from draft.paper.booklet.order import sewing_order
from draft.paper.drawing.svg import svg
from draft.paper.pages.sheet import draw_pattern, on_screen
from draft.seams.shrinkage import before_washing
from tests.changed import drafted_with

PATTERN = Path(__file__).parents[1] / "good" / "inner_darts.piece"


def drafted(folder: Path, *pairs: tuple[str, str]) -> Garment:
    return drafted_with(PATTERN, folder, *pairs)


def test_the_finished_waist_is_without_its_darts(tmp_path: Path) -> None:
    garment = drafted(tmp_path)
    waist = np.array([690.0, 770.0, 860.0]) + 50.0
    (finished,) = garment.finished
    assert finished.values == pytest.approx(waist + 2 * 10.0), (
        "the back's darts take 1 cm less than the side allows for"
    )


def test_they_are_sewn_with_the_other_darts_of_their_piece(tmp_path: Path) -> None:
    steps = [step for step in sewing_order(drafted(tmp_path)) if step.sort == "takeups"]
    assert [(step.pieces[0].name, len(step.inner_darts)) for step in steps] == [("front", 1), ("back", 1)]


def test_they_go_with_the_part_that_they_lie_on(tmp_path: Path) -> None:
    ends = "        panel_top  on neckline: 50 % from nape\n        panel_low  on hem: 3 cm from hem_centre\n"
    parted = (
        ("    lines\n", "    lines\n        panel  panel_top to panel_low   straight\n"),
        ("    outline\n        neckline  nape", f"{ends}\n    outline\n        neckline  nape"),
        ("piece front from half_sheath\n", "piece front from half_sheath, between panel and side\n"),
        ("join\n", "piece middle from half_sheath, between panel and centre\n    cut 1\n\njoin\n"),
    )  # fmt: skip
    garment = drafted(tmp_path, *parted)
    assert [dart.name for dart in garment.piece("front").inner_darts] == ["waist_dart"]
    assert not garment.piece("middle").inner_darts


def test_one_that_reaches_out_of_its_piece_is_told(tmp_path: Path) -> None:
    garment = drafted(tmp_path, ("dart_middle: 13 cm down", "dart_middle: 70 cm down"))
    notes = check(garment)
    assert {note.span for note in notes} == {dart.span for p in garment.pieces for dart in p.inner_darts}
    assert "runs to a point outside" in notes[0].message


def test_before_the_wash_they_are_wider_by_what_that_takes(tmp_path: Path) -> None:
    garment = drafted(tmp_path)
    (dart,), (larger,) = (g.piece("front").inner_darts for g in (garment, before_washing(garment, 0.1, 0.05)))
    assert larger.width == pytest.approx(dart.width / 0.9)
    assert norm(larger.to - larger.other) == pytest.approx(norm(dart.to - dart.other) / 0.95)


def test_they_are_drawn_in_every_size(tmp_path: Path) -> None:
    garment = drafted(tmp_path)
    drawing = svg(on_screen(draw_pattern(garment, range(3))))
    for size in garment.sizes:
        legs, signs = (f'id="front.waist_dart{part}.{size}"' for part in ("", ".signs"))
        assert legs in drawing and signs in drawing
