"""What a reader chose and did not get is told, with its reason; what came out as chosen is not."""

from __future__ import annotations

import pytest

from draft.answers.otherwise import otherwise_report
from draft.drafting.gave_way import gave_way, measured_elsewhere
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.otherwise_section import otherwise
from draft.paper.drawing.wording import Wording
from draft.plan.library import bundled_files
from draft.plan.plan import Plan
from tests.asking import bundled
from tests.written import make_plan


def test_a_sleeve_that_was_laid_flatter_and_longer_is_told_with_the_reason() -> None:
    told = otherwise_report(bundled("marlpit")).splitlines()
    assert len(told) == 3
    so = "so that the seam under the arm turns into the sleeve with a gentle curve"
    assert told[0] == f"slope of the sleeve below across: 20 deg and not 22 deg (sizes 2XL, 3XL), {so}"
    assert told[1].startswith("length added to the sleeve: 1 cm to 3.1 cm and not 0 cm (sizes 2XL, 3XL)")
    assert told[2].startswith("room at the cuff: ") and "and not 5 cm" in told[2]
    assert otherwise_report(bundled("marlpit", "M")) == ""


def test_a_level_above_the_hip_is_told() -> None:
    found = bundled("marlpit", "M", hem_at="waist")
    ((name, there, girth, where),) = measured_elsewhere(found)
    assert name == "hip" and where.all() and girth[0] == 1010 and 770 < there[0] < 900
    assert "the hip is measured where the garment ends: the body is " in otherwise_report(found)


@pytest.mark.parametrize(
    "name", ["ropewalk", "boatyard", "slipway", "breakwater", "roundhouse", "tidemill", "lockside"]
)
def test_equations_and_first_guesses_are_no_wishes(name: str) -> None:
    assert gave_way(bundled(name)) == ()


def test_the_booklet_says_it_in_both_languages() -> None:
    found = bundled("marlpit")
    for language, word in (("en", "instead of"), ("de", "statt")):
        told = otherwise(BookletFacts(found, (5, 6), Wording(language, "cm")))
        assert len(told) == 3 and all(word in one for one in told[:2])
    assert otherwise(BookletFacts(found, (1, 2), Wording("en", "cm"))) == []


def _words(plan: Plan) -> list[str]:
    """Of what may give way for a wish of nothing, or of a style, and of the reasons for it."""
    found = []
    for block in plan.solves:
        if all(relation.sort != "equals" for relation in block.relations):
            zero = [one for one in block.unknowns if one.nearest.span and one.nearest.span.text in ("0 cm", "0 deg")]
            found += [one.words for one in zero] + [one.words for one in block.relations if zero]
    return [words for words in found if words]


@pytest.mark.parametrize("name", ["marlpit", "lockside", "tidemill", "netloft"])
def test_what_may_give_way_is_translated(name: str) -> None:
    from draft.paper.drawing.spoken_languages import own_words

    file = bundled_files()[name]
    own = own_words(file, "de")
    assert _words(make_plan(file)) and [words for words in _words(make_plan(file)) if words not in own] == []


def test_what_elastic_draws_in_lacks_no_room() -> None:
    assert gave_way(bundled("roundhouse", closing="elastic")) == ()
