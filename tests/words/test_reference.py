"""Every word of the grammar has a record, every record an example that reads, every example of a word a result."""

from __future__ import annotations

import re

import pytest

from draft.base.notes import Problems, Source
from draft.base.units import UNITS
from draft.language import tree
from draft.language.forms import FORMS
from draft.language.forms.form import Form
from draft.language.reader import read
from draft.language.tidy import tidy
from draft.language.walking import nodes
from draft.reference.entries import entries
from draft.reference.page import words_page
from draft.reference.result import result
from draft.reference.screen import word_report, words_report
from draft.words import TWINS, WORDS
from draft.words.example import EXAMPLE, with_line
from tests.conftest import Expect
from tests.language.keywords import keywords
from tests.project.checkout import ROOT

ALL_FORMS = [form for forms in FORMS.values() for form in forms]
KINDS = {twin: word for word, twin in TWINS.items()}
ABOVE = {
    "": (),
    "pattern": ("pattern example",),
    "piece": ("piece example",),
    "template": ("template example",),
    "outline": ("piece example", "    outline"),
    "lines": ("piece example", "    lines"),
    "moves": ("piece example from draft", "    moves"),
}


def whole(form: Form) -> str:
    """The example as a text that can be read, in the block that it stands in."""
    above = ABOVE.get(form.inside, (form.inside,))
    indent = " " * 4 * len(above)
    rows = [f"{indent}{row}" if row else "" for row in form.example.split("\n")]
    return "\n".join([*above, *rows]) + "\n"


def test_every_word_of_the_grammar_has_a_record() -> None:
    recorded = {word for entry in entries() for word in re.findall(r"[a-z]+", entry.form)}
    assert {"from", "curve", "least", "pair"} < keywords()
    assert keywords() <= recorded
    assert recorded - keywords() <= set(UNITS) | {"size"}


def test_every_form_and_word_is_told_apart() -> None:
    names = [entry.name for entry in entries()]
    assert len(names) == len(set(names))
    assert all(entry.words.endswith(".") for entry in entries())


@pytest.mark.parametrize("form", ALL_FORMS, ids=lambda form: form.name)
def test_the_example_of_a_form_reads_is_tidy_and_uses_its_words(form: Form) -> None:
    text = whole(form)
    read(Source("example", text))
    assert tidy(Source("example", text)) == text
    optional = re.sub(r"\[.*?\]|\S+\|\S+|\"[^\"]*\"", "", form.form)
    wanted = set(re.findall(r"\b[a-z]+\b", optional)) - {"in", "cm", "deg"}
    assert wanted <= set(re.findall(r"[a-z]+", form.example))


@pytest.mark.parametrize("name", WORDS)
def test_the_example_of_a_word_uses_it_and_has_a_result(name: str) -> None:
    line = WORDS[name].example
    calls = [node.word for node in nodes(read(Source("example", with_line(line)))) if isinstance(node, tree.Call)]
    plain = [node.word for node in nodes(read(Source("example", EXAMPLE))) if isinstance(node, tree.Call)]
    word = KINDS.get(name, name)
    assert calls.count(word) > plain.count(word)
    assert re.search(r"\d", result(line))


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("room = 2 * ease", "6 cm"),
        ("share = 3 cm / 4 cm", "0.75"),
        ("lean = angle between neck to shoulder and neck heading across", "20 deg"),
        ("tip  at 3 cm, -4 cm", "3 cm across, 4 cm down"),
        ("tip  at -3 cm, 0", "3 cm inward, 0 cm up"),
        ("tip  at -0.001 cm, -0.001 cm", "0 cm across, 0 cm up"),
    ],
)
def test_a_result_in_words(line: str, found: str) -> None:
    assert result(line) == found


def test_an_example_that_fails_is_no_example() -> None:
    with pytest.raises(ValueError, match="divides by nothing"):
        result("share = ease / 0")


def test_the_page_is_what_the_records_say(expect: Expect) -> None:
    """`plainseam words --page pieces/WORDS.md` rebuilds it."""
    expect(ROOT / "pieces" / "WORDS.md", words_page())


# ---- in the terminal


def test_all_words_in_groups() -> None:
    said = words_report()
    assert all(entry.title in said for entry in entries())
    assert max(map(len, said.split("\n"))) <= 100


@pytest.mark.parametrize(
    ("word", "parts"),
    [
        ("from", ["from POINT: LENGTH DIRECTION", "also in", "style: NAME AMOUNT from LOW to HIGH", "on A to B:"]),
        ("length of", ["length of EDGE", "comes to 24 cm", "sewn length of EDGE"]),
        ("from_point", ["takes  a point; a step; ...", "gives  a point"]),
        ("through", ["curve [evenly] [leaving WAY] [through"]),
        ("where_edge_meets", ["where EDGE meets A to B", "fails  the edge does not meet the line"]),
        ("+", ["A + B", "comes to 25 cm"]),
        ("bust_girth", ["a body measure (ISO 8559-1:2017, 5.3.4)", "from 60 cm to 180 cm"]),
        ("stretch_across", ["a property of cloth"]),
        ("in", ["a unit for a length", "1 in is 25.4 mm"]),
        ("deg", ["360 deg are a whole turn"]),
    ],
)
def test_one_word(word: str, parts: list[str]) -> None:
    said = word_report(word)
    assert all(part in said for part in parts), said


@pytest.mark.parametrize(
    ("word", "near"), [("outine", "outline"), ("bust_grith", "bust_girth"), ("lenght of", "length of")]
)
def test_a_word_that_is_none_gets_a_near_one(word: str, near: str) -> None:
    with pytest.raises(Problems) as caught:
        word_report(word)
    assert caught.value.notes[0].hints == (f"try `{near}`",)
    with pytest.raises(Problems) as caught:
        word_report("qqqq")
    assert caught.value.notes[0].hints == ("`plainseam words` lists them all",)
