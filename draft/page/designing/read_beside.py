"""What a designer reads beside her text: the tutorial, and the words of the language."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from draft.base.notes import Problems, error
from draft.base.resources import folder
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.leaves import Leaf, leaves
from draft.page.designing.steps_followed import states
from draft.reference.entries import entries
from draft.words.example import with_line

BOOKS = {"tutorial": "TUTORIAL.md", "words": "WORDS.md", "blocks": "BLOCKS.md", "changes": "CHANGES.md"}


def read_beside(asked: Asked, _bench: Bench) -> Gave:
    """The `leaves` of a `book`; an example has the `file` that it makes. Raises `Problems` for no book of ours."""
    book = str(asked.get("book"))
    if book not in BOOKS:
        raise Problems([error("there is no such book here", None, f"choose from {', '.join(BOOKS)}")])
    return {"leaves": _book(book)}


@cache
def _book(book: str) -> list[Leaf]:
    text = re.sub(r"<!--.*?-->\n", "", (folder("pieces") / BOOKS[book]).read_text("utf-8"), flags=re.DOTALL)
    found = leaves(text)
    if book == "words":
        for example in _of_tag(found, "code"):
            example[1] |= _in_small_draft(example[2][0])
        return found
    files = [state.file for state in states(text) if state.block.language == "piece"]
    shown = [leaf for leaf in _of_tag(found, "pre") if str(leaf[1].get("sort")).startswith("piece")]
    for example, file in zip(shown, files, strict=False):
        example[1]["file"] = file
    return found


def _of_tag(found: list[Leaf], tag: str) -> Iterator[list[Any]]:
    """The leaves of a tag, in their order."""
    for leaf in found:
        if isinstance(leaf, list):
            yield from [leaf] if leaf[0] == tag else _of_tag(leaf[2], tag)


def _in_small_draft(line: str) -> dict[str, str]:
    """The small draft with an example of a word in it; nothing of what is no such line."""
    return {"file": with_line(line.strip())} if line.strip() in _lines_of_words() else {}


@cache
def _lines_of_words() -> frozenset[str]:
    return frozenset(entry.example for entry in entries() if entry.value)
