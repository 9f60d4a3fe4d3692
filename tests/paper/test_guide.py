"""The first page of a pattern with many pieces or many sizes: what little would run over is put on one page."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from draft.paper.drawing.drawing import Drawing, Footprint, Label, Path
from draft.paper.drawing.papers import paper
from draft.paper.drawing.wording import ENGLISH
from draft.paper.pages.guide import guide
from draft.paper.pages.guide_parts import Guide
from draft.paper.pages.page_grid import grid, little_used
from draft.paper.pages.page_map import sheet_map
from draft.paper.pages.sheet import draw_pattern, on_pages
from tests.paper.made_up import make_garment


def _about(count: int, sizes: int = 7, on: str = "letter") -> Guide:
    """A guide whose list has so many pieces, and so many sizes in its key."""
    used = paper(on)
    drawing = on_pages(draw_pattern(make_garment(7), range(7)), used.live)
    listed = [replace(drawing.footprints[k % len(drawing.footprints)], name=f"Part {k}") for k in range(count)]
    names = tuple(f"S{k}" for k in range(sizes))
    by_size = [replace(one, by_size=tuple(one.by_size[min(k, 6)] for k in range(sizes))) for one in listed]
    return Guide(replace(drawing, footprints=tuple(by_size), sizes=names), grid(drawing, used, 2), ENGLISH)


@pytest.mark.parametrize("on", ["letter", "a4"])
@pytest.mark.parametrize("pieces", [4, 20, 25, 28])
def test_the_key_is_on_the_first_page_however_many_pieces_there_are(pieces: int, on: str) -> None:
    about = _about(pieces, on=on)
    pages = guide(about)
    signs, *rest = (" ".join(item.text for item in page if isinstance(item, Label)) for page in pages)
    assert all(ENGLISH.say(f"signs.{sign}").split()[0] in signs for sign in about.drawing.signs)
    assert ENGLISH.say("guide.signs") in signs and "S6" in signs and len(rest) <= 1
    words = " ".join([signs, *rest])
    assert all(f"Part {k}" in words for k in range(pieces)) and ENGLISH.say("guide.map") in words
    low = about.grid.paper.height - about.grid.paper.margin
    for page in pages:
        assert max(item.y if isinstance(item, Label) else float(item.box()[1, 1]) for item in page) <= low + 0.5


def test_without_signs_all_is_on_one_page() -> None:
    for pieces, sizes, on in ((25, 7, "letter"), (4, 40, "a4")):
        about = _about(pieces, sizes, on)
        assert len(guide(replace(about, drawing=replace(about.drawing, signs=())))) == 1


def test_the_map_shows_a_piece_and_not_the_words_beside_it() -> None:
    about = _about(4)
    first = about.drawing.footprints[0]
    outline = (first.by_size[0][0],)
    beside = replace(first, outline=outline)
    drawing: Drawing = replace(about.drawing, footprints=(beside, Footprint("rest", "Cut 1", first.rings)))
    shaded = [item for item in sheet_map(drawing, about.grid, 0.1) if isinstance(item, Path) and item.fill]
    assert abs(shaded[0].runs[0][0, 0] - outline[0][0] * 0.1).max() < 1e-9 and len(shaded) == 2


def test_pages_with_hardly_anything_on_them_are_said_to_be_optional() -> None:
    used = paper("a4")
    wide, tall = used.live
    body = np.array(
        [(5, 5), (wide + 12, 5), (wide + 12, 40), (wide - 5, 40), (wide - 5, tall - 5), (5, tall - 5), (5, 5)]
    )
    footprint = Footprint("Body", "Cut 1", (body.astype(float),), ((body.astype(float),),))
    drawing = Drawing("Bag", 2 * wide, tall, (), (footprint,), "Size S", ("S",))
    found = grid(drawing, used, 2)
    assert little_used(drawing, found) == [3]
    words = " ".join(item.text for item in guide(Guide(drawing, found, ENGLISH))[0] if isinstance(item, Label))
    assert "Page 3 is used by less than a tenth" in words
    assert not little_used(_about(4).drawing, _about(4).grid)
