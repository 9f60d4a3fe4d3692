"""What is read is what stands there: the tree, its places, and every mistake of a text at once."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator

import pytest

from draft.base.notes import Problems, Source
from draft.base.resources import folder
from draft.base.textfile import read_source
from draft.base.units import Kind
from draft.language import tree
from draft.language.grammar import words
from draft.language.reader import MAX_MISTAKES, read
from draft.language.shape import MAX_NESTING


def parsed(text: str) -> tree.File:
    return read(Source("trial.piece", text))


def mistakes(text: str) -> list[tuple[str, int]]:
    """Each message with the line that it stands on."""
    source = Source("trial.piece", text)
    with pytest.raises(Problems) as caught:
        read(source)
    return [(note.message, source.place(note.span.start)[0]) for note in caught.value.notes if note.span]


def value_of(text: str) -> tree.Expr:
    return parsed(f"let\n    a = {text}\n").values[0].value


def test_quantities_are_in_the_engines_units() -> None:
    said = {
        "22 cm": (220.0, Kind.LENGTH),
        "1 1/4 in": (31.75, Kind.LENGTH),
        "7/8 in": (22.225, Kind.LENGTH),
        "12mm": (12.0, Kind.LENGTH),
        "85 %": (0.85, Kind.NUMBER),
        "3.5": (3.5, Kind.NUMBER),
    }
    for text, (value, kind) in said.items():
        literal = value_of(text)
        assert isinstance(literal, tree.Literal)
        assert (literal.value, literal.kind) == (pytest.approx(value), kind)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("a + b * c", "a + (b * c)"),
        ("a - b - c", "(a - b) - c"),
        ("a / b / c", "(a / b) / c"),
        ("-a + b", "(-a) + b"),
        ("-a * b", "(-a) * b"),
        ("2 * length of e", "2 * (length of e)"),
        ("larger of a + b and c * d", "larger of (a + b) and (c * d)"),
        ("a + b below across", "(a + b) below across"),
    ],
)
def test_what_belongs_together_without_parentheses(one: str, other: str) -> None:
    assert value_of(one) == value_of(other)


@pytest.mark.parametrize("ends", ["\n", "\n\n", "", "  \n", "\n# the end", "\n    # the end\n"])
def test_how_a_text_ends_does_not_matter(ends: str) -> None:
    assert parsed("let\n    a = 1 cm" + ends) == parsed("let\n    a = 1 cm\n")


def test_blank_lines_comments_and_spaces_do_not_matter() -> None:
    plain = 'let\n    a = 1 cm "why"\n    b = 2 cm\n'
    airy = '# first\n\n\nlet   # of lets\n\n        # deep\n    a   =  1cm   "why"  # one\n# left\n\n    b = 2 cm\n\n'
    assert parsed(airy) == parsed(plain)


def test_an_open_bracket_carries_a_value_over_lines() -> None:
    assert value_of("(1 cm\n        + 2 cm\n        + 3 cm)") == value_of("(1 cm + 2 cm + 3 cm)")


def test_a_hash_inside_a_text_begins_no_comment() -> None:
    assert parsed('let\n    a = 1 cm "no. #1"\n').values[0].words == "no. #1"


def test_a_word_of_the_language_is_only_itself_where_it_stands_alone() -> None:
    found = parsed("let\n    lettered = tool + download * fromage\n")
    assert [value.name for value in found.values] == ["lettered"]


def test_every_place_points_at_its_own_words() -> None:
    for path in sorted(folder("pieces").glob("*.piece")):
        for node in _nodes(read(read_source(path, "pattern"))):
            if isinstance(node, tree.Ref):
                assert "".join(node.span.text.split()) == node.text
            elif isinstance(node, tree.Named):
                assert node.name_span.text == node.name
                assert node.span.start <= node.name_span.start < node.name_span.end <= node.span.end
            elif isinstance(node, tree.Literal) and node.span.text[:1].isdigit():
                assert node.span.text[-1:].isalnum() or node.span.text.endswith("%")


def _nodes(node: object) -> Iterator[tree.Node]:
    if isinstance(node, tree.Node):
        yield node
        for field in dataclasses.fields(node):
            yield from _nodes(getattr(node, field.name))
    elif isinstance(node, tuple):
        for child in node:
            yield from _nodes(child)


def test_the_words_of_the_language_are_words() -> None:
    assert {"let", "of", "across", "length", "least"} <= words()
    assert all(word.isalpha() and word.islower() for word in words())


# ---- mistakes -------------------------------------------------------------------------------------------------------


def test_one_mistake_hides_no_other() -> None:
    text = """let
    a = = 1 cm
    b = 2 furlongs
    c = 3 cm

style
    d 1 cm from 0 cm
    e = 2 cm

peace front
    points
        nothing here is read

let
    f = (1 cm
    g = 2 cm)
    h = 2 cm
        i = 2 cm
    j = 3,5 cm
"""
    assert [line for _, line in mistakes(text)] == [15, 16, 2, 3, 7, 8, 10, 18, 19]


def test_a_mistake_in_the_head_of_a_block_is_not_followed_by_its_lines() -> None:
    text = "style\n    a 1 cm from 0 cm to 2 cm\n\npeice front\n    points\n        a at 0, 0\n    cut 1\n"
    assert mistakes(text) == [("`peice` does not begin a block", 4)]


def test_no_more_mistakes_are_told_than_a_reader_mends_in_one_go() -> None:
    text = "let\n" + "    a = = 1 cm\n" * 100
    assert len(mistakes(text)) == MAX_MISTAKES


def test_brackets_may_be_nested_as_deep_as_anyone_needs_and_no_deeper() -> None:
    deep = "(" * MAX_NESTING + "1 cm" + ")" * MAX_NESTING
    assert value_of(deep) == value_of("1 cm")
    assert mistakes(f"let\n    a = ({deep})\n") == [("parentheses are nested too deeply", 2)]


def test_a_control_character_is_refused_also_where_a_text_was_not_read_from_a_file() -> None:
    assert mistakes("let\n    a = 1\x00 cm\n") == [("a character stands here that is no text", 2)]
