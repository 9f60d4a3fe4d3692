"""Editors colour a piece file as the reader reads it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from draft.language.grammar import parser
from tests.conftest import Expect
from tests.language.colours import PHRASES, PLACE, coloured, grammar
from tests.language.keywords import keywords
from tests.project.checkout import ROOT

FILES = sorted((ROOT / "pieces").glob("*.piece")) + sorted((ROOT / "tests" / "good").rglob("*.piece"))


def test_the_file_is_what_the_grammar_makes_it(expect: Expect) -> None:
    expect(PLACE, grammar())


def test_the_file_is_a_grammar_with_scopes_of_ours() -> None:
    made = json.loads(PLACE.read_text(encoding="utf-8"))
    assert made["scopeName"] == "source.piece" and made["fileTypes"] == ["piece"]
    scopes = re.findall(r'"name": "([a-z.-]+)"', PLACE.read_text(encoding="utf-8"))
    assert len(scopes) > 15 and all(scope.endswith(".piece") for scope in scopes)
    assert {item["include"][1:] for item in made["patterns"]} == set(made["repository"])


@pytest.mark.parametrize("word", sorted(keywords()))
def test_every_word_of_the_grammar_is_coloured_as_one(word: str) -> None:
    phrases = ("at least", "at most", *PHRASES, word)
    texts = [word, *(f"    x = 1 {phrase} 2" for phrase in phrases if word in phrase.split())]
    scopes = [scope for text in texts for _, said, scope in coloured(text) if word in said.split()]
    assert any(scope.startswith(("keyword", "storage", "support", "constant.language")) for scope in scopes)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_file_is_coloured_as_it_is_read(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    words = keywords()
    scopes = {start: (said, scope) for start, said, scope in coloured(text)}
    for token in parser().parse_interactive(text + "\n").exhaust_lexer():
        apart = token.type == "NAME" and str(token) in words  # a word in one place, and here a name
        if token.type.startswith("_") or apart:
            continue
        place = token.start_pos or 0
        said, scope = scopes.get(place, ("", _within(scopes, place)))
        assert scope.startswith(_wanted(token.type, str(token))), f"line {token.line}: {token!r} is {scope}"
        assert said.startswith(str(token)) or not said or token.type == "QUANTITY"


def _within(scopes: dict[int, tuple[str, str]], place: int) -> str:
    """The scope of a stretch of several words that covers a place."""
    return next((scope for start, (said, scope) in scopes.items() if start <= place < start + len(said)), "nothing")


def _wanted(kind: str, word: str) -> tuple[str, ...]:
    if kind == "STRING":
        return ("string.quoted",)
    if kind in ("QUANTITY", "NUMBER"):
        return ("constant.numeric",)
    if kind == "NAME":
        return ("variable.other", "entity.")
    if word[0].isalpha():
        return ("keyword.", "storage.type", "support.type", "constant.language")
    return ("keyword.operator", "punctuation")
