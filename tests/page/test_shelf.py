"""The order of the shelf is what the patterns say: what they are, of which cloth, and how much there is to sew."""

from __future__ import annotations

from itertools import pairwise

import pytest

from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.page.bench import Bench
from draft.page.page_verbs import VERBS
from draft.page.sewing.shelf_order import GROUPS, KNITS, group_of, made_of
from draft.paper.booklet.order import sewing_order
from draft.paper.drawing.wording import Wording
from draft.paper.flat.views import knit
from draft.plan.library import bundled_patterns


@pytest.fixture(scope="module")
def drafted() -> dict[str, Drafted]:
    """Every bundled pattern in one size."""
    return {name: draft_and_check(Request(name, Whom(sizes=("M",)))) for name in bundled_patterns()}


def test_every_garment_stands_once_in_its_group(drafted: dict[str, Drafted]) -> None:
    listed = [name for group in GROUPS for name in group.garments]
    assert sorted(listed) == sorted(drafted)
    for group in GROUPS:
        for name in group.garments:
            assert group_of(drafted[name]) == group.name
            assert made_of(drafted[name]) == group.made
            assert knit(drafted[name].garment) == (name in KNITS)


def test_what_is_sewn_sooner_stands_first(drafted: dict[str, Drafted]) -> None:
    for group in GROUPS:
        steps = [(len(sewing_order(drafted[name].garment)), name != "marlpit", name) for name in group.garments]
        assert all(before <= after for before, after in pairwise(steps))


def test_each_group_has_its_words() -> None:
    for language in ("en", "de"):
        words = Wording(language)
        for group in GROUPS:
            assert words.has(f"screen.shelf_group_{group.name}") and words.has(f"screen.shelf_{group.made}")


def test_a_card_says_how_many_steps_there_are_to_sew(drafted: dict[str, Drafted]) -> None:
    card = VERBS["card"]({"garment": "ropewalk"}, Bench())
    assert card["steps"] == len(sewing_order(drafted["ropewalk"].garment))


@pytest.mark.parametrize(
    ("option", "said"), [("long", "lang"), ("three_quarter", "dreiviertel"), ("cap", "Flügelärmel")]
)
def test_an_option_is_no_edge(option: str, said: str) -> None:
    assert Wording("de").option(option) == said
    assert Wording("de").named("long") == "lange Kante"
