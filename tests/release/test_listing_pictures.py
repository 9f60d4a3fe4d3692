"""Cards of a listing: tables as large as their card holds, and nothing beyond its edges."""

from __future__ import annotations

import pytest

from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.paper.booklet import BookletFacts
from draft.paper.booklet.page_format import WIDTH
from draft.paper.booklet.set_blocks import FINE
from draft.paper.drawing.drawing import Drawing, Label
from draft.paper.drawing.font import text_width
from draft.paper.drawing.wording import Wording
from draft.release.listing_pictures import listing_pictures


@pytest.fixture(scope="module")
def drafted() -> Drafted:
    return draft_and_check(Request("marlpit", Whom()), whole=True)


def _labels(card: Drawing) -> list[Label]:
    return [item for item in card.items() if isinstance(item, Label)]


@pytest.mark.parametrize("language", ["en", "de"])
def test_no_word_leaves_its_card(drafted: Drafted, language: str) -> None:
    facts = BookletFacts(drafted, tuple(range(len(drafted.garment.sizes))), Wording(language))
    cards = listing_pictures(facts)
    assert {"flat", "pieces", "sizes", "finished"} <= set(cards)
    for name, card in cards.items():
        for label in _labels(card) if name != "pieces" else ():
            left = {"start": 0.0, "middle": -0.5, "end": -1.0}[label.anchor]
            wide = text_width(label.text, label.size, bold=label.bold)
            assert label.x + left * wide >= 0 and label.x + (1 + left) * wide <= WIDTH, (name, label.text)
            assert 0 <= label.y <= WIDTH
        if name in ("sizes", "finished"):
            heads = {label.text for label in _labels(card)}
            assert set(facts.sizes) <= heads  # every size in one table


def test_a_short_table_is_set_larger(drafted: Drafted) -> None:
    facts = BookletFacts(drafted, (2,), Wording("de"))
    figures = [label for label in _labels(listing_pictures(facts)["finished"]) if label.text == "cm"]
    assert figures and max(label.size for label in figures) > 1.2 * FINE.size
