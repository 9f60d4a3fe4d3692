"""How a garment comes out: its flat drawing, and its pieces to scale with all that is on them."""

from __future__ import annotations

from draft.answers.in_her_words import without_places
from draft.page.bench import Asked, Bench, Gave
from draft.page.notes_told import notes_told
from draft.page.sewing.garment_at_hand import drafted_asked, words_asked
from draft.page.sewing.in_plain_words import in_her_language
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.otherwise_section import otherwise
from draft.paper.drawing.svg import svg
from draft.paper.flat import flat_drawing
from draft.paper.pages.sheet import drafted_bodies, draw_pattern, on_screen


def drawn(asked: Asked, bench: Bench) -> Gave:
    """`flat` and `pieces` as SVG, the `notes` of the checks, and `otherwise`: what came out other than was chosen."""
    drafted = drafted_asked(asked, bench)
    wording = words_asked(asked, drafted.planned, bench)
    garment, shown = drafted.garment, drafted_bodies(drafted.garment)
    assert drafted.planned
    flat = flat_drawing(garment, shown[len(shown) // 2], wording=wording)
    said: Gave = {
        "sizes": list(garment.sizes),
        "flat": svg(flat) if flat else "",
        "notes": notes_told(in_her_language(without_places(drafted.planned.request, drafted.notes), asked, bench)),
        "otherwise": otherwise(BookletFacts(drafted, tuple(shown), wording)),
    }
    if asked.get("pieces", True):
        said["pieces"] = svg(on_screen(draw_pattern(drafted.to_cut, shown, None, wording)))
    return said
