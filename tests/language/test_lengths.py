"""Names and texts have bounds, told where they stand, so that nothing on paper or in a table is without end."""

from __future__ import annotations

import pytest

from draft.base.notes import Problems, Source
from draft.language.lengths import NAME, SENTENCE
from draft.language.reader import read

TEXT = """pattern {name}
    title "{title}"
    maker "{maker}"
style
    ease 1 cm from 0 cm to 2 cm "{words}"
finished
    {finished} = 1 cm "{words}"
piece front
    title "{title}"
    marks
        spot drill at a "{words}"
booklet
    text "{text}"
    licence "{text}"
    link "{text}"
    step neck "{text}"
"""
LONGEST = {
    "name": "n" * NAME, "finished": "n" * NAME, "title": "t" * 120, "maker": "m" * 120, "words": "w" * SENTENCE,
    "text": "x" * 2000,
}  # fmt: skip
TIMES = {"name": 1, "finished": 1, "title": 2, "maker": 1, "words": 3, "text": 4}


def test_what_is_as_long_as_it_may_be_is_read() -> None:
    assert read(Source("a.piece", TEXT.format(**LONGEST))).patterns


@pytest.mark.parametrize("which", LONGEST)
@pytest.mark.parametrize("more", [1, 100_000])
def test_what_is_longer_is_told_with_its_limit(which: str, more: int) -> None:
    long = LONGEST[which] + LONGEST[which][0] * more
    with pytest.raises(Problems) as caught:
        read(Source("a.piece", TEXT.format(**LONGEST | {which: long})))
    notes = [note for note in caught.value.notes if "letters, more than" in note.message]
    assert len(notes) == len(caught.value.notes) == TIMES[which]
    for note in notes:
        assert f"has {len(long)} letters, more than {len(long) - more}" in note.message
        assert note.span and note.span.text.strip('"') == long and note.hints
