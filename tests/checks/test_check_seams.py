"""The checks of seams, corners, folds and outlines: what they let pass, what they tell, and of whom."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from draft import checks
from draft.base.notes import Severity
from draft.checks import outlines, seam_ends, seam_lengths, square_folds
from draft.garment.garment import Garment
from tests.seams.outlines import backwards, polygon
from tests.seams.test_walk import garment, panel

JOIN = "\njoin\n    j one.side to two.side"


def of_one(*corners: tuple[float, float]) -> Garment:
    """A garment of one piece for one size."""
    return Garment("Trial", "", ("M",), (polygon(corners),), (), ())


@pytest.mark.parametrize(("more", "told"), [(0.0, False), (0.49, False), (-0.49, False), (0.51, True), (-0.51, True)])
def test_half_a_millimetre_of_a_seam_is_let_pass_and_no_more(more: float, told: bool) -> None:
    made = garment(panel("one", "20 cm") + panel("two", "20 cm", f"{400 + more} mm") + JOIN)
    assert bool(seam_lengths.check(made)) == told


def test_a_seam_that_does_not_fit_tells_which_side_for_whom_and_by_how_much() -> None:
    made = garment(panel("one", "20 cm") + panel("two", "20 cm", "larger of 40 cm and bust_girth / 2 - 12 cm") + JOIN)
    (note,) = seam_lengths.check(made)
    assert note.severity is Severity.ERROR
    assert note.message == "the two sides of `j` do not fit, for body 3"
    assert note.hints[0] == "at worst `one.side` is 80.0 mm too short (body 3): 400.0 mm is sewn to 480.0 mm"
    assert note.span and note.span.text.strip() == "j one.side to two.side"


def test_a_stretched_side_is_measured_by_its_ratio() -> None:
    text = panel("one", "20 cm", "36 cm") + panel("two", "20 cm", "40 cm") + JOIN
    assert seam_lengths.check(garment(f"{text}, stretched 90 %")) == []
    (note,) = seam_lengths.check(garment(f"{text}, stretched 85 %"))
    assert note.hints[0].endswith("360.0 mm, where 340.0 mm is wanted for 400.0 mm of `two.side`")


@pytest.mark.parametrize(
    ("heights", "told"),
    [((200, 400), True), ((200, 405), True), ((405, 200), True), ((200, 415), False), ((415, 200), False)],
)
def test_a_missing_half_is_suspected_only_of_a_side_all_but_twice_as_long(heights: tuple[int, int], told: bool) -> None:
    one, two = (panel(name, "20 cm", f"{height} mm") for name, height in zip(("one", "two"), heights, strict=True))
    (note,) = seam_lengths.check(garment(one + two + JOIN))
    shorter = "one" if heights[0] < heights[1] else "two"
    assert [f"does `{shorter}` lack an edge `on fold`" in hint for hint in note.hints[1:]] == [True] * told


@pytest.mark.parametrize(("degrees", "told"), [(0.0, False), (0.9, False), (-0.9, False), (1.1, True), (-1.1, True)])
def test_a_degree_at_the_end_of_a_seam_is_let_pass_and_no_more(degrees: float, told: bool) -> None:
    lean = 400 * np.tan(np.radians(degrees))
    word = f"{lean:.6f} mm" if lean >= 0 else f"0 cm - {-lean:.6f} mm"
    made = garment(panel("one", "20 cm", lean=word) + panel("two", "20 cm") + JOIN)
    notes = seam_ends.check(made)
    assert len(notes) == 2 * told
    if told:
        assert ("hollow" if degrees > 0 else "peak") in notes[0].hints[0]
        assert "at the start of `j`" in notes[0].message


def test_a_line_that_arrives_from_beyond_the_seam_is_told_so() -> None:
    """The hem of one is drawn from outside of its side: a hook, as where the wrong one of two squares was taken."""
    hooked = panel("one", "20 cm").replace("hem   a to b straight", "hem   a to b curve leaving across arriving inward")
    (note,) = seam_ends.check(garment(hooked + panel("two", "20 cm") + JOIN))
    assert note.hints[0] == "at worst a line arrives from beyond the seam (body 1)"


@pytest.mark.parametrize(("degrees", "told"), [(0.0, False), (0.9, False), (-0.9, False), (1.1, True), (-1.1, True)])
def test_a_degree_at_a_fold_is_let_pass_and_no_more(degrees: float, told: bool) -> None:
    rise = 200 * np.tan(np.radians(degrees))
    shape = polygon([(0, 0), (200, rise), (200, 400), (0, 400)], e3="fold")
    for piece in (shape, backwards(shape)):
        made = Garment("Trial", "", ("M",), (piece,), (), ())
        notes = square_folds.check(made)
        assert bool(notes) == told
        if told:
            assert f"at worst it is {abs(degrees):.1f} deg off (M)" in notes[0].hints


SIMPLE = [
    [(0, 0), (100, 0), (100, 100), (0, 100)],
    [(0, 0), (100, 0), (50, 40), (100, 100), (0, 100)],
    [(0, 0), (100, 0), (100, 0.01), (0, 0.01)],
]
CROSSED = [
    [(0, 0), (100, 0), (0, 100), (100, 100)],
    [(0, 0), (100, 0), (100, 100), (50, -20), (0, 100)],
]


@pytest.mark.parametrize("corners", SIMPLE)
def test_a_simple_outline_is_let_pass(corners: list[tuple[float, float]]) -> None:
    assert outlines.check(of_one(*corners)) == []


@pytest.mark.parametrize("corners", CROSSED)
def test_an_outline_that_crosses_itself_tells_where(corners: list[tuple[float, float]]) -> None:
    (note,) = outlines.check(of_one(*corners))
    assert note.message == "the outline of `outline` crosses itself, for size M"
    assert "cross one another" in note.hints[0]


def test_an_edge_that_crosses_itself_is_named() -> None:
    loop = np.array([[[0.0, 0.0], [200.0, 100.0], [-100.0, 100.0], [100.0, 0.0]]])
    made = of_one((0, 0), (100, 0), (100, -50), (0, -50))
    first = replace(made.pieces[0].edges[0], segments=loop[None])
    (note,) = outlines.check(replace(made, pieces=(replace(made.pieces[0], edges=(first, *made.pieces[0].edges[1:])),)))
    assert note.hints[0] == "`e0` crosses itself"


def test_an_outline_that_does_not_close_is_told() -> None:
    made = of_one((0, 0), (100, 0), (100, 100), (0, 100))
    last = made.pieces[0].edges[3]
    short = replace(last, segments=last.segments + np.array([0.0, 0.02]) * np.linspace(0, 1, 4)[:, None])
    (note,) = outlines.check(replace(made, pieces=(replace(made.pieces[0], edges=(*made.pieces[0].edges[:3], short)),)))
    assert note.message == "the outline of `outline` does not close, for size M"


def test_an_edge_without_length_is_no_crossing() -> None:
    assert outlines.check(of_one((0, 0), (100, 0), (100, 0), (100, 100), (0, 100))) == []


def test_all_checks_are_run_in_their_order() -> None:
    made = garment(panel("one", "20 cm", lean="3 cm") + panel("two", "20 cm", "41 cm") + JOIN)
    facts = [note.message.split(",")[0] for note in checks.run(made)]
    assert facts == [
        "the two sides of `j` do not fit",
        "`one.hem` and `two.hem` meet at a corner at the start of `j`",
        "`one.top` and `two.top` meet at a corner at the end of `j`",
    ]
