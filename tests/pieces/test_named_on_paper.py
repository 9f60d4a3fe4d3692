"""A maker has only the paper: whatever a step calls by a name or a letter stands on the pieces."""

from __future__ import annotations

import re
from functools import cache

import pytest

from draft.drafting.drafting import Drafted
from draft.paper.booklet import BookletFacts, booklet_pdf
from draft.paper.drawing.svg import svg
from draft.paper.drawing.wording import Wording
from draft.paper.pages.sheet import draw_pattern, on_screen
from draft.seams.joins_in_order import seam_letters
from tests.asking import bundled
from tests.paper.reading import page_count, text_of
from tests.pieces.bundled import PATTERNS

STYLED = [
    *((name, {}) for name in PATTERNS),
    ("roundhouse", {"closing": "elastic"}),
    ("roundhouse", {"circle": "quarter"}),
    ("marlpit", {"neckline": "vee"}),
    ("netloft", {"sleeve": "short", "neckline": "scoop"}),
]

every_style = pytest.mark.parametrize(("name", "styles"), STYLED)


@cache
def _steps(name: str, **styles: str) -> str:
    """The words of the booklet from the first step on, of a pattern in size M."""
    data = booklet_pdf(BookletFacts(bundled(name, "M", **styles), (0,), Wording()))
    text = " ".join(" ".join(text_of(data, page).split()) for page in range(page_count(data)))
    return text[text.index("Each seam has a letter") :]


def _on_pieces(drafted: Drafted) -> str:
    return svg(on_screen(draw_pattern(drafted.garment, (0,)))).lower()


@every_style
def test_every_name_in_quotes_is_printed_on_a_piece(name: str, styles: dict[str, str]) -> None:
    drafted = bundled(name, "M", **styles)
    steps, paper = _steps(name, **styles), _on_pieces(drafted)
    assert [said for said in re.findall("“([^”]+)”", steps) if said.lower() not in paper] == []


@every_style
def test_every_letter_of_a_step_is_that_of_a_seam(name: str, styles: dict[str, str]) -> None:
    steps = _steps(name, **styles)
    said = {letter for some in re.findall("marked ([A-Z]+(?:, [A-Z]+)*)", steps) for letter in some.split(", ")}
    assert said and said <= set(seam_letters(bundled(name, "M", **styles).garment).values())


def test_a_facing_over_several_seams_is_turned_once_after_the_last() -> None:
    steps = _steps("breakwater")
    assert steps.count("Turn the facing to the wrong side") == 1
    assert steps.index("Left edge – seam J") < steps.index("Turn the facing to the wrong side") < steps.index("Cuff")
    assert "sew all of the seams G, H and J before you trim and turn it" in steps


def test_hems_that_meet_are_turned_up_in_one_step() -> None:
    steps = _steps("breakwater")
    assert "Right hem" not in steps and "Right cuff" not in steps
    assert "“hem” of the back, right front, left front, left facing and right" in steps


def test_a_yoke_and_a_placket_are_no_facings() -> None:
    assert "Turn the facing" not in _steps("lockside")


def test_slanting_edges_are_stay_stitched_though_they_are_taped_and_interfaced_ones_are_not() -> None:
    steps = _steps("breakwater")
    stay = steps[steps.index("1 Stay stitches") : steps.index("2 Interfacing")]
    assert "H of the back, the edge marked G of the right front and the edge marked J of the left front" in stay
    assert "facing" not in stay


def test_the_whole_edge_of_a_waistband_is_pressed_under_before_it_is_sewn_on() -> None:
    steps = _steps("boatyard")
    assert "Press the allowance of the waistband to the wrong side along the edges marked P and R" in steps
    assert "Turn the allowance under" not in steps
