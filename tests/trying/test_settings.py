"""Which settings are tried: each end alone, every pair of ends, and what a style is there under."""

from __future__ import annotations

from itertools import combinations

from draft.drafting.planned import texts_for
from draft.trying.offered import Plans, offers_of
from draft.trying.settings import Offer, settings_of
from tests.asking import asked

LONG = Offer("length", ("10 cm", "30 cm"), False)
WIDE = Offer("width", ("5 cm",), False)
LINED = Offer("lined", ("yes",), True)
LINING = Offer("lining", ("silk", "wool"), True, under=(("lined", "yes"),))
UNLINED_ONLY = Offer("binding", ("wide",), True, under=(("lined", "no"),))


def test_each_end_is_tried_alone_and_with_each_end_of_every_other_style() -> None:
    found = settings_of([LONG, WIDE])
    assert found.alone == ((("length", "10 cm"),), (("length", "30 cm"),), (("width", "5 cm"),))
    assert set(found.pairs) == {
        (("length", "10 cm"), ("width", "5 cm")),
        (("length", "30 cm"), ("width", "5 cm")),
    }
    assert not found.covering


def test_a_style_is_tried_under_what_it_is_there_for_and_never_against_it() -> None:
    found = settings_of([LINED, LINING, UNLINED_ONLY])
    assert (("lined", "yes"), ("lining", "silk")) in found.alone
    assert not found.pairs  # a lining with `lined` is one alone, and a binding goes with neither


def test_too_many_pairs_are_held_by_fewer_settings() -> None:
    offers = [Offer(f"style_{k}", ("least", "most"), False) for k in range(8)]
    one_by_one, together = settings_of(offers), settings_of(offers, most=20)
    assert together.covering and not one_by_one.covering
    assert len(together.pairs) < len(one_by_one.pairs) / 5
    wanted = {pair for setting in one_by_one.pairs for pair in combinations(setting, 2)}
    assert wanted == {pair for setting in together.pairs for pair in combinations(setting, 2)}
    assert all(len(dict(setting)) == len(setting) for setting in together.pairs)


def test_the_styles_of_a_pattern_with_the_ends_that_are_not_usual() -> None:
    request = asked("marlpit", styles={"sleeve": "long"})
    found = {offer.name: offer for offer in offers_of(Plans(request, texts_for("marlpit"), None))}
    assert found["neckline"].ends == ("crew", "boat", "vee")
    assert found["front_fuller"].ends == ("5 cm",)  # it is usually at its least
    assert "sleeve" not in found  # it was asked for


def test_a_style_that_is_there_for_one_option_is_found_under_it() -> None:
    found = {offer.name: offer for offer in offers_of(Plans(asked("hooded"), texts_for("hooded"), None))}
    assert found["neck_finish"].ends == ("band",)
    assert all(dict(offer.under).keys().isdisjoint({offer.name}) for offer in found.values())
