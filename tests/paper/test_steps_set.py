"""Steps on pages: in their order, whole, within the page, and none on another; drawings only ever larger."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from draft.geometry.cubic import lines_through
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.join_words import joined
from draft.paper.booklet.page_format import LARGE, REGULAR, PageFormat
from draft.paper.booklet.set_blocks import NOTHING, SIDE, Block
from draft.paper.booklet.stages import in_order
from draft.paper.booklet.steps_set import SetStep, set_steps
from draft.paper.drawing.drawing import Label, Path, Stroke, rectangle
from draft.paper.drawing.wording import Wording
from draft.paper.flat.bands import bands
from draft.seams.joins_in_order import joins_in_order
from tests.asking import bundled
from tests.pieces.bundled import PATTERNS


def _drawn(wide: float, high: float) -> Block:
    return Block((Path((rectangle(0.0, 0.0, wide, high),), Stroke(0.2), closed=True),), high)


@settings(max_examples=60, deadline=None)
@given(
    page=st.sampled_from([REGULAR, LARGE]),
    steps=st.lists(
        st.tuples(st.floats(5.0, SIDE), st.floats(2.0, 46.0), st.integers(1, 14), st.booleans()),
        min_size=1,
        max_size=14,
    ),
)
def test_steps_stand_below_one_another_on_their_pages(
    page: PageFormat, steps: list[tuple[float, float, int, bool]]
) -> None:
    book = Book("", page)
    told = [
        SetStep(f"step {k}", _drawn(wide, high) if shown else NOTHING, ["Some words of it."] * count)
        for k, (wide, high, count, shown) in enumerate(steps)
    ]
    set_steps(book, told)
    titles = [
        (number, item.y, item.text)
        for number, items in sorted(book.pages.items())
        for item in items
        if isinstance(item, Label) and item.text.startswith("step")
    ]
    assert [title[2] for title in titles] == [one.title for one in told]
    assert [title[:2] for title in titles] == sorted(title[:2] for title in titles)
    for items in book.pages.values():
        boxes = [item.box() for item in items if isinstance(item, Path)]
        words = [item.y for item in items if isinstance(item, Label)]
        assert max([*(box[1, 1] for box in boxes), *words], default=0.0) < page.bottom + 0.3
        upright = sorted((float(box[0, 1]), float(box[1, 1])) for box in boxes)
        assert all(above[1] <= below[0] + 0.5 for above, below in pairwise(upright))
        assert all(box[1, 0] - box[0, 0] <= SIDE + 0.3 for box in boxes)


def test_a_drawing_beside_many_words_is_made_as_high_as_they_are() -> None:
    book = Book("")
    set_steps(book, [SetStep("one", _drawn(20.0, 46.0), ["Some words."] * 12)])
    (drawn,) = [item for item in book.pages[0] if isinstance(item, Path)]
    assert drawn.box()[1, 1] - drawn.box()[0, 1] > 60.0
    assert lines_through([(0, 0), (1, 1)]).shape == (1, 4, 2)


def test_what_is_made_ready_is_said_before_the_seam_is_sewn() -> None:
    """In the order of work (common practice): gathers, tape, what is caught, pieces laid, the stitch, the iron."""
    ready = ("Sew two rows", "Into this seam goes", "goes between the two", "Lay the", "Pin ", "The notches meet")
    tried = 0
    for name in PATTERNS:
        facts = BookletFacts(drafted := bundled(name, "M"), (0,), Wording())
        found = {band.piece.name: band for band in bands(drafted.garment, 0)}
        for join in joins_in_order(drafted.garment):
            text = [one.text for one in in_order(joined(join, facts, found))]
            sewn = next((k for k, line in enumerate(text) if line.startswith("Sew:")), None)
            if sewn is not None:
                tried += 1
                assert not any(words in line for line in text[sewn:] for words in ready), (name, join.name, text)
                assert not any(line.startswith("Press the allowances") for line in text[:sewn]), (name, join.name, text)
    assert tried > 20
