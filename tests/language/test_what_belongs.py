"""What belongs at a place is said in few words, wherever reading may stop."""

from __future__ import annotations

from draft.language.expected import GOING_ON, wanted
from draft.language.grammar import parser

FEW = 3  # commas: four things, or a kind with an example


def test_no_place_is_answered_by_a_list_of_words() -> None:
    rows = parser().parser.parser._parse_table.states.values()  # type: ignore[attr-defined]
    stops = [frozenset(name for name in row if name.isupper()) for row in rows]
    said = {wanted(stop - GOING_ON or stop) for stop in stops}
    assert len(said) > 50
    assert [words for words in said if words.count(", ") > FEW] == []
