"""What a booklet says of the cloth: folded and thrifty layouts of every width, and what does not fit."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from draft.base.notes import Note
from draft.base.units import MM_PER_INCH
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.laying.in_booklet import Bolts, cloth_plan
from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest
from draft.paper.booklet import ClothPlan
from draft.paper.drawing.wording import ENGLISH

WIDE, NARROW = 58 * MM_PER_INCH, 45 * MM_PER_INCH


@pytest.fixture(scope="module")
def drafted() -> Drafted:
    return draft_and_check(Request("marlpit", Whom(sizes=("S", "M"))), whole=True)


@pytest.fixture(scope="module")
def plan(drafted: Drafted) -> ClothPlan:
    return cloth_plan(drafted.to_cut, {"": [WIDE, NARROW]}, Bolts({}), ENGLISH)


def test_every_width_has_a_folded_layout_and_is_drawn(plan: ClothPlan) -> None:
    for width in (WIDE, NARROW):
        rows = {row.laid: row.lengths for row in plan.amounts if row.width == width}
        assert len(rows["folded"]) == 2
        assert all(a <= b for a, b in zip(rows.get("thrifty", rows["folded"]), rows["folded"], strict=True))
    drawn = {(lay.above[1].split(" wide")[0], lay.above[2].split(",")[0]) for lay in plan.lays}
    for said in ("Cloth 58 in or 148 cm", "Cloth 45 in or 115 cm"):
        assert (said, "Folded once") in drawn


def test_halves_whose_fold_runs_across_the_grain_do_not_keep_a_blouse_from_folded_cloth() -> None:
    """Its collar and stand are opened out there, two at once, as the list of the layout says."""
    drafted = draft_and_check(Request("lockside", Whom(sizes=("M",))), whole=True)
    plan = cloth_plan(drafted.to_cut, {"shell": [1500.0], "interfacing": [900.0]}, Bolts({}), ENGLISH)
    (folded,) = [lay for lay in plan.lays if "Folded once" in lay.above[2] and "150 cm" in lay.above[1]]
    listed = {line.split(" · ")[1].split(":")[0]: line.split(": ")[1] for line in folded.listed}
    assert listed["Collar"] == listed["Stand"] == "cut 2, opened out"
    assert listed["Back"] == "cut 1 on fold" and listed["Yoke"] == "cut 2 on fold"


def test_a_margin_is_kept_free_at_both_selvedges(drafted: Drafted) -> None:
    plan = cloth_plan(drafted.to_cut, {"": [WIDE]}, Bolts({}, one_way=True, selvedge=30.0), ENGLISH)
    assert all(row.one_way for row in plan.amounts)
    for lay in plan.lays:
        across = np.concatenate([piece.ring[:, 0] for piece in lay.pieces])
        free = dict(lay.cloth.sides)
        left, right = min(free), max(free)
        for x, inwards in ((left, across.min() - left), (right, right - across.max())):
            assert inwards >= (30.0 if free[x] == "selvedge" else 0.0) - 0.02


def test_sizes_that_a_cloth_does_not_hold_are_told_and_laid_on_wider(drafted: Drafted) -> None:
    widest = cloth_plan(drafted.to_cut, {"": [20 * MM_PER_INCH]}, Bolts({}), ENGLISH).too_wide[0]
    between = cloth_plan(drafted.to_cut, {"": [widest.least - 1.0]}, Bolts({}), ENGLISH)
    assert widest.sizes == ("S", "M") and widest.piece in ("back", "front")
    (told,) = between.too_wide
    assert told.sizes == ("M",) and told.least == pytest.approx(widest.least)
    narrow = [row for row in between.amounts if row.width < widest.least]
    wider = [row for row in between.amounts if row.width >= widest.least]
    assert narrow and all(math.isnan(row.lengths[1]) and row.lengths[0] > 0 for row in narrow)
    assert wider and all(length > 0 for row in wider for length in row.lengths)


def test_a_pack_on_cloth_too_narrow_comes_with_a_caution(drafted: Drafted) -> None:
    said: list[Note] = []
    paper = PaperRequest(pages=(), cloth=("20in",))
    files = pack_files(replace(drafted), paper, warn=said.append)
    assert "booklet.pdf" in files
    assert any("does not hold S and M" in note.message and "take cloth at least" in note.hints[0] for note in said)
