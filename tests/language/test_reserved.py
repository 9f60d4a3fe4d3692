"""Words that an addition to the grammar reserves are told, with the names that they break: a pattern may use them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from draft.language.reserved import RESERVED
from tests.conftest import Expect
from tests.language.keywords import keywords
from tests.language.trade_words import PLACES, fits, refused
from tests.project.checkout import ROOT

KNOWN = Path(__file__).with_name("reserved.txt")
PATTERNS = [*(ROOT / "pieces").glob("*.piece"), *(ROOT / "tests" / "good").glob("*.piece")]


def names_in(text: str) -> set[str]:
    """What a text gives names to: the first word of a line that says more, and what a heading names."""
    written = re.sub(r'"[^"]*"|#.*', " ", text)
    lines = re.findall(r"^[ \t]+([A-Za-z]\w*)[ \t]+\S", written, re.MULTILINE)
    return {*lines, *re.findall(r"^(?:pattern|piece|template)[ \t]+(\w+)", written, re.MULTILINE)}


def broken(words: Iterable[str], texts: dict[str, str]) -> list[str]:
    """The words that stand as names in texts, with where."""
    found = {word: [name for name, text in texts.items() if word in names_in(text)] for word in sorted(words)}
    return [f"`{word}` is a name in {', '.join(files)}" for word, files in found.items() if files]


def test_no_word_becomes_reserved_unnoticed(expect: Expect) -> None:
    found = {word: places for word in sorted(keywords()) if (places := refused(word))}
    before = {line.split(":")[0] for line in KNOWN.read_text(encoding="utf-8").splitlines()[1:]}
    texts = {path.name: path.read_text(encoding="utf-8") for path in PATTERNS}
    told = broken(found.keys() - before, texts)
    assert not told, "words that become reserved: " + "; ".join(told)
    free = len(keywords()) - len(found)
    head = f"{free} of {len(keywords())} words can be names in all {len(PLACES)} places; these cannot:"
    expect(KNOWN, "\n".join([head, *(f"{word}: {', '.join(places)}" for word, places in found.items())]))


def test_what_is_said_to_be_reserved_is_what_cannot_be_a_name() -> None:
    assert {word for word in keywords() if refused(word)} == RESERVED


def test_a_word_is_a_word_where_both_would_do() -> None:
    assert not fits("across", "let\n    NAME = 3 deg\n    b = NAME\n")
    assert fits("length", "let\n    NAME = 3 cm\n    b = length of front.hem + NAME\n")


def test_names_that_a_new_word_would_break_are_told() -> None:
    texts = {"a.piece": 'let\n    slope = 3 cm  "a lapel"  # lapel', "b.piece": "piece lapel\n    hem  a to b  yoke"}
    assert broken(["lapel", "slope", "yoke"], texts) == [
        "`lapel` is a name in b.piece",
        "`slope` is a name in a.piece",
    ]
