"""What `tidy` says anew: lines that are there for some options only, and points that are another."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from draft.base.notes import Note, Source
from draft.language import tree
from draft.language.plainer import meaning, options_of
from draft.language.reader import read
from draft.language.tidy import tidy
from draft.plan.styles.branches import Branches
from tests.good.cases import HERE
from tests.good.treework import mapped

HEAD = """\
pattern tab
    title "Tab"

style
    shape  round  of round, pointed, plain   "how it ends"
    lined     no  of no, yes                 "whether it is lined"

"""


def tidied(text: str) -> str:
    """What becomes of the lines behind the head, tidied twice as once."""
    after = tidy(Source("tab.piece", HEAD + text))
    assert tidy(Source("tab.piece", after)) == after
    return after.removeprefix(HEAD)


def test_lines_for_the_same_options_stand_under_one_when() -> None:
    before = """\
finished
    # at the end
    one = 1 cm only for shape round or pointed
    two = 2 cm   # beside
    three = 3 cm only for lined yes "three"
    # four
    four = 4 cm only for lined yes
"""
    assert (
        tidied(before)
        == """\
finished
    # at the end
    when shape is round or pointed
        one = 1 cm
    two = 2 cm  # beside
    when lined is yes
        three = 3 cm   "three"
        # four
        four  = 4 cm
"""
    )


def test_lines_for_the_rest_of_the_options_stand_under_otherwise() -> None:
    before = """\
join
    low a.b to c.d, only for lined yes, notch at 30 %
    low a.b to c.e, only for lined no
    end a.f to c.f, only for lined yes
    tip a.g to c.g, only for shape round
    tip a.g to c.h, only for shape pointed
"""
    assert (
        tidied(before)
        == """\
join
    when lined is yes
        low  a.b to c.d, notch at 30 %
    otherwise
        low  a.b to c.e
    when lined is yes
        end  a.f to c.f
    when shape is round
        tip  a.g to c.g
    when shape is pointed
        tip  a.g to c.h
"""
    )


def test_a_point_no_way_from_another_is_that_one() -> None:
    before = """\
piece tab
    points
        a at 0, 0
        b from a: 0 cm down
        c from front.a: 0 across
        d from a: 0 cm down, 1 cm across
        e from a: 1 cm down
"""
    assert (
        tidied(before)
        == """\
piece tab
    points
        a  at 0, 0
        b  is a
        c  is front.a
        d  from a: 0 cm down, 1 cm across
        e  from a: 1 cm down
"""
    )


def test_what_a_whole_piece_or_a_leg_is_there_for_stays() -> None:
    text = """\
piece tab
    only for lined yes

    outline
        side  a to b
            straight to c, curve
            only for shape round
"""
    assert tidied(text) == text
    assert read(Source("tab.piece", HEAD + text)).pieces[0].branches


def settled(text: str, given: dict[str, str]) -> tree.File:
    """The lines of a text that are there for some options, whatever they are written under."""
    notes: list[Note] = []
    file = read(Source("a.piece", text))
    made = Branches(file, given, notes).settled(file)
    assert not notes

    def change(node: Any) -> Any:
        return replace(node, branches=()) if isinstance(node, tree.Line) else node

    return replace(mapped(made, change), conditions=())


@pytest.mark.parametrize(
    "path", [HERE / "choices.piece", HERE / "choices_pointed_and_lined.piece"], ids=lambda p: p.stem
)
def test_the_same_lines_are_there_for_every_option(path: Path) -> None:
    before = path.read_text(encoding="utf-8")
    after = tidy(Source("a.piece", before))
    assert after.count("only for") < before.count("only for")
    for shape, lined in product(("round", "pointed"), ("no", "yes")):
        given = {"shape": shape, "lined": lined}
        assert settled(after, given) == settled(before, given)


def test_what_is_there_for_other_options_means_something_else() -> None:
    def said(text: str) -> object:
        made = read(Source("a.piece", HEAD + text))
        return meaning(made, options_of(made))

    one = said("finished\n    one = 1 cm only for shape round\n")
    assert one == said("finished\n    when shape is not pointed or plain\n        one = 1 cm\n")
    assert one != said("finished\n    when shape is not pointed\n        one = 1 cm\n")
    assert one != said("finished\n    one = 1 cm\n")
    assert one != said("finished\n    one = 2 cm only for shape round\n")
