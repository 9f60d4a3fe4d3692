"""A designer's own steps: before, after and instead of those that are there, and an order of her own."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.paper.booklet import BookletFacts, booklet_pdf
from draft.paper.booklet.booklet import book_of
from draft.paper.booklet.order import sewing_order
from draft.paper.booklet.own_steps import with_own
from draft.paper.booklet.so_far import done_after
from draft.paper.drawing.wording import Wording
from draft.plan.advice import Advice
from tests.asking import asked
from tests.paper.reading import page_count, text_of

HERE = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def skirt() -> Drafted:
    return draft_and_check(asked(str(HERE / "good" / "notions.piece"), sizes=["M"]))


def _placed(drafted: Drafted, *advice: Advice) -> list[str]:
    return [step.name for step in with_own(sewing_order(drafted.garment), advice)]


def _own(drafted: Drafted, name: str, place: str, beside: str) -> Advice:
    span = drafted.plan.booklet.advice[0].span
    return Advice(span, name, "Do it.", None, place, beside, own=True)  # type: ignore[arg-type]


def test_the_steps_of_the_file_come_where_they_are_placed(skirt: Drafted) -> None:
    names = _placed(skirt, *skirt.plan.booklet.advice)
    assert names.index("waist") < names.index("side")
    side = max(k for k, name in enumerate(names) if name == "side")
    assert names[side + 1 : side + 3] == ["try_on", "ties"]
    assert "hem" not in names and names.count("hem_by_hand") == 1


def test_several_after_one_keep_their_order_and_before_comes_right_before(skirt: Drafted) -> None:
    names = _placed(skirt, *(_own(skirt, name, "after", "waist") for name in ("first", "second")))
    at = names.index("waist")
    assert names[at + 1 : at + 3] == ["first", "second"]
    before = _placed(skirt, _own(skirt, "look", "before", "centre_front"))
    assert before[before.index("centre_front") - 1] == "look"


def test_nothing_is_lost_when_a_step_is_moved(skirt: Drafted) -> None:
    plain = [step.name for step in sewing_order(skirt.garment)]
    span = skirt.plan.booklet.advice[0].span
    moved = _placed(skirt, Advice(span, "waist", "", None, "before", "side"))
    assert sorted(moved) == sorted(plain) and moved != plain


def test_topics_links_and_openings_are_printed(skirt: Drafted) -> None:
    facts = BookletFacts(skirt, (0,), Wording())
    data = booklet_pdf(facts)
    text = " ".join(" ".join(text_of(data, page) for page in range(page_count(data))).split())
    for words in ("A skirt that teaches what is bought.", "For those who have put in a zip before.",
                  "A twill, or a light denim.", "Pin the side seams closer", "Wash it at 30 degrees",
                  "What the testers say Three women wore it for a week.", "Make two ties.", "Hem it by hand.",
                  "Sew up to the last stitch of the zip", "close it by hand with small stitches"):  # fmt: skip
        assert words in text, words
    assert "Turn 1 5/8 in (4 cm) to the wrong side" not in text
    book, _ = book_of(facts)
    assert any(link.address == "https://example.org/side" for links in book.links.values() for link in links)


def test_the_list_of_notions_reads_their_amounts_off_the_draft(skirt: Drafted) -> None:
    data = booklet_pdf(BookletFacts(skirt, (0,), Wording("en", "cm")))
    text = " ".join(text_of(data, page) for page in range(6))
    text = " ".join(text.split())
    assert "cord, 137 cm: to tie at the waist" in text  # 77 cm round the waist and 60 cm
    assert "tape, 90 cm: stay tape, 1 cm wide" in text  # two halves of 38.5 cm, 2 cm more for each: up to 10 cm
    assert "1 plain zip with a closed end, 18 cm long: a skirt zip" in text
    assert "1 invisible zip, 10 cm long" in text  # 8 cm and 2 cm below


def test_a_step_instead_of_a_seam_keeps_its_letter_and_sews_it(skirt: Drafted) -> None:
    steps = with_own(sewing_order(skirt.garment), [_own(skirt, "other_way", "instead of", "side")])
    one = next(step for step in steps if step.name == "other_way")
    assert one.join is not None and one.join.name == "side"
    assert "side" in done_after(steps).joins
