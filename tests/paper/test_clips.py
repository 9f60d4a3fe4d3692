"""Clip marks: where an allowance closes over a slit or a sharp inner corner, and nowhere else."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import shapely

from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from draft.paper.drawing.drawing import Path as Line
from draft.paper.pages.sheet import draw_pattern, drawing_of
from draft.paper.piece.clips import clips
from draft.paper.piece.piece_lines import Outlines
from tests.asking import asked, bundled

_BIB = """\
pattern bib
    title      "Bib"
    chart      "women.csv"
    allowance  1 cm

body
    bust_girth

piece bib
    points
        low_left   at 0, 0
        low_right  at bust_girth / 4, 0
        top_right  at bust_girth / 4, 40 cm
        slit_right at 10.2 cm, 40 cm
        slit_end   at 10 cm, {end}
        slit_left  at 9.8 cm, 40 cm
        top_left   at 0, 40 cm

    outline
        hem    low_left to low_right     straight, unjoined
        right  low_right to top_right    straight, unjoined
        top_a  top_right to slit_right   straight, unjoined
        a      slit_right to slit_end    straight, unjoined
        b      slit_end to slit_left     straight, unjoined
        top_b  slit_left to top_left     straight, unjoined
        left   top_left to low_left      straight, unjoined

    grain up
    cut 1
"""


@pytest.fixture
def slit(tmp_path: Path) -> Garment:
    file = tmp_path / "bib.piece"
    file.write_text(_BIB.format(end="25 cm"))
    return draft_and_check(asked(file, sizes=("S", "L"))).to_cut


def test_a_slit_that_its_allowance_closes_over_is_cut_to_just_before_its_end(slit: Garment) -> None:
    for body in (0, 1):
        one = Outlines.of(slit, slit.pieces[0], body)
        (clip,) = clips(one)
        assert np.allclose(clip, [(100.0, -410.0), (100.0, -252.0)], atol=0.1)
        assert shapely.LineString(clip).within(one.cutting_shape.buffer(1e-6))
        assert abs(one.sewing_shape.boundary.distance(shapely.Point(clip[1])) - 0.0) < 2.1


def test_each_size_draws_its_own_and_the_key_explains_it(slit: Garment) -> None:
    pattern = draw_pattern(slit, (0, 1))
    drawn = [item.id for items in pattern.pieces[0].sized for item in items if isinstance(item, Line)]
    assert "bib.clip1.S" in drawn and "bib.clip1.L" in drawn
    assert "clip" in drawing_of(pattern, pattern.pieces, 1000.0, 1000.0).signs


@pytest.mark.parametrize("name", ["marlpit", "boatyard", "lockside"])
def test_outlines_that_their_cutting_lines_follow_have_none(name: str) -> None:
    garment = bundled(name).to_cut
    assert not [
        p.name for p in garment.pieces for body in range(len(garment.sizes)) if clips(Outlines.of(garment, p, body))
    ]


def test_a_slit_that_ends_square_is_snipped_along_its_middle(tmp_path: Path) -> None:
    file, square = tmp_path / "bib.piece", _BIB.format(end="25 cm")
    square = square.replace(
        "        slit_end   at 10 cm, 25 cm\n",
        "        end_right at 10.2 cm, 25 cm\n        end_left at 9.8 cm, 25 cm\n",
    )
    square = square.replace("slit_right to slit_end ", "slit_right to end_right ").replace(
        "slit_end to slit_left", "end_left to slit_left"
    )
    square = square.replace(
        "        b      end_left",
        "        base   end_right to end_left     straight, unjoined\n        b      end_left",
    )
    file.write_text(square)
    garment = draft_and_check(asked(file, sizes=("M",))).to_cut
    (clip,) = clips(Outlines.of(garment, garment.pieces[0], 0))
    assert np.allclose(clip, [(100.0, -410.0), (100.0, -252.0)], atol=0.1)
