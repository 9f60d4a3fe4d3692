"""Why something cannot be dressed is said in every language, and filled in."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import draft
from draft.paper.drawing.spoken_languages import languages
from draft.paper.drawing.wording import Wording
from draft.paper.worn.worn_words import not_dressed
from draft.toile.why_not import CannotDress, why

HERE = Path(draft.__file__).parent


def reasons() -> Iterator[tuple[str, frozenset[str]]]:
    """The key of each reason and caution that the code gives, with what is filled in."""
    for room in ("toile", "sitting"):
        for file in (HERE / room).glob("*.py"):
            for node in ast.walk(ast.parse(file.read_text("utf-8"))):
                named = isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
                if named and node.func.id in ("CannotDress", "why") and node.args:
                    fields = frozenset(str(word.arg).partition("_")[2] for word in node.keywords)
                    for key in _keys(node.args[0]):
                        yield key, fields


def _keys(found: ast.expr) -> list[str]:
    if isinstance(found, ast.Constant):
        return [str(found.value)]
    if isinstance(found, ast.JoinedStr):  # `why_opens_{role}`, of front and back
        before = "".join(str(part.value) for part in found.values if isinstance(part, ast.Constant))
        return [before + side for side in ("front", "back")]
    return []


@pytest.mark.parametrize("language", languages())
def test_each_reason_has_its_words(language: str) -> None:
    wording = Wording(language, "cm")
    found = dict(reasons())
    assert len(found) > 20
    for key, fields in found.items():
        said = wording.say(f"sit.{key}", **dict.fromkeys(fields, "WORD"))
        assert said.count("WORD") == len(fields) and "{" not in said, key


def test_a_reason_is_filled_in_as_pieces_are_called() -> None:
    german = Wording("de", "cm", {"right front": "rechtes Vorderteil"})
    reason = CannotDress("why_cut_often", name_piece="right front", count_times=3).why
    assert not_dressed(reason, german) == (
        "rechtes Vorderteil: 3-mal zugeschnitten, und es ist nicht gesagt, welches wohin gehört"
    )
    inside = why("why_stands_through", mm_by=6.2)
    assert "0,5 cm durch den Stoff" in not_dressed(inside, german)
    assert "the form stands 1/4 in through the cloth" in not_dressed(inside, Wording("en", "in"))
