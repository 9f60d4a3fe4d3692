"""What a sewist asks: the shelf, a garment's choices, how it comes out for her, the cloth it takes, and its files."""

from __future__ import annotations

from draft.page.bench import Verb
from draft.page.sewing.cards import card, shelf
from draft.page.sewing.cloth_taken import amount
from draft.page.sewing.drawn import drawn
from draft.page.sewing.in_plain_words import plainly
from draft.page.sewing.on_form import on_form
from draft.page.sewing.own_people import forget_person, keep_person, people
from draft.page.sewing.sitting import sit
from draft.page.sewing.style_controls import choices, measure_drawn, sayings
from draft.page.sewing.to_take import count_pages, take

_VERBS: dict[str, Verb] = {
    "shelf": shelf,
    "card": card,
    "choices": choices,
    "measure": measure_drawn,
    "sayings": sayings,
    "drawn": drawn,
    "sit": sit,
    "on_form": on_form,
    "amount": amount,
    "count_pages": count_pages,
    "take": take,
    "people": people,
    "keep_person": keep_person,
    "forget_person": forget_person,
}
VERBS = {name: plainly(verb) for name, verb in _VERBS.items()}
