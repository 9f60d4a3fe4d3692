"""No text is too broken to be asked about: the editor's room answers or says nothing, and never fails."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.resources import folder
from draft.editor import contents
from draft.editor.complete import complete
from draft.editor.hover import hover
from draft.editor.lookup import symbol_at
from draft.editor.open_file import OpenFile
from draft.editor.rename import Refused, rename
from tests.editor.pattern import PATTERN

TYPED = [
    "",
    " ",
    "(",
    '"',
    "x = ",
    "\n",
    "from ",
    ".",
    "%",
    "#",
    "\u00e9",
    "\U0001f9f5",
    "\t",
    "piece ",
    "by ",
    ", ",
    "12 cm",
]
CHANGES = st.lists(
    st.tuples(st.integers(0, len(PATTERN)), st.sampled_from(TYPED), st.sampled_from([0, 1, 5, 30])),
    min_size=1,
    max_size=3,
)


@settings(max_examples=60, deadline=None)
@given(CHANGES, st.lists(st.integers(0, len(PATTERN)), min_size=3, max_size=3))
def test_every_question_has_an_answer(changes: list[tuple[int, str, int]], places: list[int]) -> None:
    document = OpenFile("tab.piece", folder("pieces"))
    text = PATTERN
    document.change(text)
    for place, typed, lost in changes:
        text = text[:place] + typed + text[place + lost :]
        document.change(text)
    assert all(note.message and span.start <= span.end for note, span in document.notes())
    assert document.now.whole or list(document.notes())
    if document.now.file:
        assert isinstance(contents.declarations(document.now.file), list)
    for place in places:
        _ask(document, min(place, len(document.text)))


def _ask(document: OpenFile, place: int) -> None:
    said = hover(document.now, document.known, document.figures, place)
    assert said is None or said[0]
    assert all(choice.text for choice in complete(document.text, document.known, place))
    found = symbol_at(document.now, document.known, place)
    assert found is None or found[0].name == found[1].text
    try:
        spans = rename(document.now, place, "another", folder("pieces"))
    except Refused as reason:
        assert str(reason)
    else:
        assert len({span.text for span in spans}) == 1
