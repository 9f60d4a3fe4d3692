"""A garment of several cloths, as each of them sees it."""

from pathlib import Path

import pytest

from draft.cloth.cut_pieces import cut_pieces_of
from draft.cloth.of_one import of_each_cloth
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from tests.asking import asked, bundled

GOOD = Path(__file__).parents[1] / "good"


@pytest.fixture(scope="module")
def parts() -> dict[str, Garment]:
    return of_each_cloth(draft_and_check(asked(GOOD / "several_cloths.piece", sizes=["M"])).garment)


def test_a_garment_of_one_cloth_is_seen_as_it_is() -> None:
    garment = bundled("marlpit", "M").garment
    assert of_each_cloth(garment) == {"": garment}


def test_each_cloth_has_the_pieces_that_are_cut_of_it_as_often(parts: dict[str, Garment]) -> None:
    counts = {name: {piece.name: piece.count for piece in cut_pieces_of(part, 0)} for name, part in parts.items()}
    assert counts == {
        "shell": {"Side": 2, "band": 4, "strap": 2},
        "lining": {"Side": 2, "inner pocket": 1},
        "interfacing": {"band": 2, "strap": 1},
    }


def test_the_numbers_of_pieces_are_those_of_the_whole_garment(parts: dict[str, Garment]) -> None:
    assert [piece.number for piece in cut_pieces_of(parts["interfacing"], 0)] == [2, 3]


def test_a_cloth_that_is_not_the_first_of_a_piece_has_its_own_allowance_all_round(parts: dict[str, Garment]) -> None:
    sizes = {name: {p.name: (p.width, p.height) for p in cut_pieces_of(part, 0)} for name, part in parts.items()}
    assert sizes["shell"]["band"] == pytest.approx((360.0, 70.0))
    assert sizes["interfacing"]["band"] == pytest.approx((340.0, 50.0))
    assert sizes["lining"]["Side"] == pytest.approx((370.0, 330.0))
    assert sizes["lining"]["inner pocket"] == pytest.approx((190.0, 170.0))


def test_each_cloth_is_as_wide_as_the_pattern_says(parts: dict[str, Garment]) -> None:
    assert {name: part.cloth["width"] for name, part in parts.items()} == {
        "shell": 1400.0, "lining": 1100.0, "interfacing": 900.0,
    }  # fmt: skip


def test_layers_of_one_cloth_are_cut_one_by_one_and_sewn_as_one() -> None:
    garment = draft_and_check(asked(GOOD / "two_layers.piece", sizes=["M"])).garment
    shell, cuff = of_each_cloth(garment)["shell"], garment.piece("cuff")
    assert shell.piece("cuff").cut == 4 and shell.piece("stand").cut == 2
    assert cuff.cut == 2 and cuff.copies("inside") == 2 and garment.piece("stand").copies() == 2
