"""Stripes and checks go on across the seams that are matched, on every lay: held to the seams, not to the search."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Problems
from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth, checked
from draft.cloth.cut_pieces import cut_pieces_of
from draft.cloth.effort import effort
from draft.cloth.lay import Copy, Lay
from draft.cloth.lays import best_lay, lay_as
from draft.cloth.needs import cloth_needs
from draft.cloth.verify import faults
from draft.garment.garment import Garment
from draft.laying.asked import read_repeat
from draft.laying.lay_sizes import sizes_of
from draft.laying.matched import matching_costs, matching_notes
from draft.seams.matching import matched_joins, off_lines
from tests.asking import bundled

WIDE = 1480.0
BUNDLED = ("marlpit", "tidemill", "lockside", "ropewalk")


def drafted(pattern: str, *sizes: str) -> Garment:
    return bundled(pattern, *sizes).garment


def lay(pattern: str, cloth: Cloth) -> Lay:
    found = best_lay(cut_pieces_of(drafted(pattern, "M"), 0), cloth, effort("quick"), Shelf())
    assert found
    return found


def notches(copy: Copy) -> np.ndarray:
    """Where the matched notches of a piece come to lie on the opened cloth `(n, 2)`."""
    assert copy.cut_piece.matched
    return np.asarray(copy.move.points(copy.cut_piece.matched.meets))


def phase(mm: np.ndarray | float, every: float) -> np.ndarray:
    return np.abs((np.asarray(mm) + every / 2) % every - every / 2)


@pytest.mark.parametrize("pattern", BUNDLED)
@pytest.mark.parametrize("every", [35.0, 90.0])
def test_stripes_meet_at_every_copy_of_every_matched_seam(pattern: str, every: float) -> None:
    """The first matched seam of each pattern: front and back lie alike on the stripes, whichever copy."""
    by_name: dict[str, list[float]] = {}
    for copy in lay(pattern, checked(Cloth(WIDE, one_way=True, repeat_along=every))).copies():
        if copy.cut_piece.matched:
            by_name.setdefault(copy.cut_piece.name, []).append(float(notches(copy)[0, 1]))
    assert len(by_name) >= 2
    first, second = by_name["front"], by_name["back"]
    assert np.max(phase(np.subtract.outer(first, second), every)) < 0.06


def test_a_sleeve_meets_the_front_at_its_own_notch() -> None:
    copies = lay("tidemill", checked(Cloth(WIDE, one_way=True, repeat_along=50.0))).copies()
    front = next(notches(copy) for copy in copies if copy.cut_piece.name == "front")
    sleeves = [notches(copy) for copy in copies if copy.cut_piece.name == "sleeve"]
    assert len(front) == 2 and len(sleeves) == 2
    for sleeve in sleeves:
        assert phase(sleeve[0, 1] - front[1, 1], 50.0) < 0.06


@pytest.mark.parametrize("pattern", ["tidemill", "ropewalk"])
def test_checks_are_even_about_the_middle_of_each_piece_that_is_so(pattern: str) -> None:
    cloth = checked(Cloth(WIDE, one_way=True, repeat_across=40.0, repeat_along=60.0))
    found = lay(pattern, cloth)
    even = [c for c in found.copies() if c.cut_piece.matched and c.cut_piece.fold is not None]
    assert found.folding == "open" and even
    for copy in even:
        middle = copy.move.points(np.array([copy.cut_piece.fold or 0.0, 0.0]))[0]
        assert phase(middle - WIDE / 2, 40.0) < 0.06


def test_pinstripes_alone_are_laid_by_their_lines_across() -> None:
    found = lay("ropewalk", checked(Cloth(WIDE, one_way=True, repeat_across=25.0)))
    pair = [c for c in found.copies() if c.cut_piece.matched and c.cut_piece.fold is None]
    assert len(pair) == 2  # both halves of the back, each by its own notch
    assert all(phase(notches(copy)[0, 0] - WIDE / 2, 25.0) < 0.06 for copy in pair)


@cache
def lay_of_plain_cloth(width: float) -> Lay | None:
    cut_pieces = cut_pieces_of(drafted("tidemill", "M"), 0)
    return best_lay(cut_pieces, Cloth(width, one_way=True), effort("quick"), Shelf())


@settings(max_examples=8, deadline=None)
@given(st.floats(5.0, 400.0), st.sampled_from([900.0, 1200.0, 1500.0]))
def test_any_repeat_gives_a_lay_that_can_be_cut_or_none(every: float, width: float) -> None:
    cut_pieces = cut_pieces_of(drafted("tidemill", "M"), 0)
    cloth = checked(Cloth(width, one_way=True, repeat_along=every))
    found = best_lay(cut_pieces, cloth, effort("quick"), Shelf())
    assert (found is None) == (lay_of_plain_cloth(width) is None)
    assert found is None or not faults(found, cut_pieces)


def test_a_piece_moved_off_the_stripes_is_a_fault() -> None:
    cut_pieces, shelf = cut_pieces_of(drafted("ropewalk", "M"), 0), Shelf()
    found = lay_as("open", cut_pieces, checked(Cloth(WIDE, one_way=True, repeat_across=40.0)), effort("quick"), shelf)
    assert found and not faults(found, cut_pieces)
    k = next(k for k, one in enumerate(found.placements) if one.cut_piece.repeat)
    moved = tuple(one.shifted(3.0) if i == k else one for i, one in enumerate(found.placements))
    spoilt = Lay(found.folding, found.width + 3.0, found.length, found.strips, moved)
    assert any("off the lines" in fault for fault in faults(spoilt, cut_pieces))


def test_checks_are_not_laid_on_folded_cloth() -> None:
    cut_pieces, cloth = cut_pieces_of(drafted("marlpit", "M"), 0), Cloth(WIDE, one_way=True, repeat_across=40.0)
    assert lay_as("one fold", cut_pieces, cloth, effort("quick"), Shelf()) is None


def test_a_repeat_more_is_bought_for_a_shop_cuts_anywhere() -> None:
    striped, plain = Cloth(WIDE, shrink_down=0.05, repeat_along=60.0), Cloth(WIDE, shrink_down=0.05)
    assert striped.bought(900.0) - plain.bought(900.0) == pytest.approx(60.0 / 0.95)
    assert striped.left(striped.bought(900.0)) == pytest.approx(900.0)


def test_larger_sizes_never_need_less_and_the_cost_is_told() -> None:
    garment = drafted("tidemill", "S", "M", "L")
    cloth = checked(Cloth(WIDE, one_way=True, repeat_along=70.0))
    (row,) = cloth_needs(sizes_of(garment), [cloth], effort("quick"))
    assert all(a.length <= b.length for a, b in pairwise(row))
    costs = matching_costs(garment, row, effort("quick"), ("one fold", "two folds", "open"))
    assert all(cost >= 70.0 - 0.1 for cost in costs)  # the repeat more that is bought, at least


def test_what_is_matched_and_what_misses() -> None:
    garment = drafted("tidemill", "M")
    assert matched_joins(garment) == ["side", "cap"]
    assert off_lines(garment, 0) == pytest.approx({"side": 0.0, "cap": 0.0}, abs=1e-6)


def test_a_pattern_without_matched_seams_says_so() -> None:
    (note,) = matching_notes(drafted("slipway", "M"), [Cloth(WIDE, repeat_along=40.0)])
    assert "no seam at which stripes meet" in note.message


@pytest.mark.parametrize(
    ("text", "found"),
    [(None, (0, 0)), ("4cm", (0, 40)), ("3cmx4cm", (30, 40)), ("3 cm by 4 cm", (30, 40)), ("1in x 0 cm", (25.4, 0))],
)
def test_a_repeat_is_read_as_a_shop_says_it(text: str | None, found: tuple[float, float]) -> None:
    assert read_repeat(text) == pytest.approx(found)


@pytest.mark.parametrize("text", ["", "4", "4 kg", "3cmx4cmx5cm", "-4cm", "0cm", "1mm", "30cmx2mm", "x"])
def test_what_is_no_repeat_is_refused_with_a_fix(text: str) -> None:
    with pytest.raises(Problems) as refused:
        read_repeat(text)
    assert all(note.hints for note in refused.value.notes)


def test_a_repeat_longer_than_any_print_is_a_slip() -> None:
    with pytest.raises(Problems, match="do not repeat"):
        checked(Cloth(WIDE, repeat_along=40_000.0))
