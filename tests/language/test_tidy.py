"""Tidying changes the layout and nothing else: same tree, same comments, and nothing left to do a second time."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Problems, Source
from draft.language.plainer import meaning, options_of
from draft.language.reader import read
from draft.language.tidy import tidy
from tests.language.messy import comments, laid_out, without_comments
from tests.project.checkout import ROOT

BUNDLED = sorted((ROOT / "pieces").glob("*.piece"))
GOOD = sorted((ROOT / "tests" / "good").rglob("*.piece"))


def tidied(text: str) -> str:
    return tidy(Source("a.piece", text))


def said(text: str) -> object:
    """What a text says: its tree, or where some of it is written in an older way, what that means."""
    made = read(Source("a", text))
    return meaning(made, options_of(made))


@pytest.mark.parametrize("path", BUNDLED + GOOD, ids=lambda path: path.stem)
def test_a_file_says_the_same_and_is_then_tidy(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    after = tidied(text)
    assert said(after) == said(text)
    assert tidied(after) == after
    assert comments(after) == comments(text)
    assert not [row for row in after.split("\n") if row != row.rstrip()]
    assert "\n\n\n" not in after


@pytest.mark.parametrize("path", BUNDLED, ids=lambda path: path.stem)
def test_the_bundled_files_are_tidy(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert tidied(text) == text, f"run `plainseam tidy {path.relative_to(ROOT)}`"


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(BUNDLED + GOOD).flatmap(lambda path: laid_out(path.read_text(encoding="utf-8"))))
def test_any_layout_keeps_its_tree_and_comments(made: tuple[str, list[str]]) -> None:
    text, remarks = made
    after = tidied(text)
    assert said(after) == said(text)
    assert tidied(after) == after
    assert comments(after) == remarks


@settings(max_examples=12, deadline=None)
@given(st.data())
def test_the_words_alone_settle_the_layout(data: st.DataObject) -> None:
    """Whatever layout a text comes in, its lines are set alike, but for how sentences are grouped.

    Where a line goes on below is the designer's to say.
    """
    text = data.draw(st.sampled_from(BUNDLED)).read_text(encoding="utf-8")
    bare = "\n".join(without_comments(text))
    laid, _ = data.draw(laid_out(bare, breaks=False))
    assert _squeezed(tidied(laid)) == _squeezed(tidied(bare))


def _squeezed(text: str) -> list[str]:
    return [re.sub(" {2,}", "  ", row) for row in without_comments(text)]


MESSY = """\
pattern   p
  title "P"
  allowance   1/2in


body
  bust_girth,waist_girth

style
  ease 6cm from -2 cm to 10  cm "room"
  neck crew of crew,boat "the neck"
let
 a=ease+3cm "one"   # kept
 longer=-a "two"


 # three
 # four

 third=a-(-3 cm)*2
 by_neck = by neck : crew -2 cm , boat 1 1/4in
 b = a - 3 cm
 # five
# six
piece front
   points
      p at 0,-1 cm
      far by neck
        crew from p:3 cm across
        boat from p: 3 cm across,-2cm up
   outline
      edge p to far straight, on fold
      back_again far to p
         curve
         allowance 1in
   grain up
   stretch across
   cut 1
"""
TIDY = """\
pattern p
    title      "P"
    allowance  1/2 in

body
    bust_girth, waist_girth

style
    ease  6 cm   from -2 cm to 10 cm   "room"
    neck  crew   of crew, boat         "the neck"

let
    a       = ease + 3 cm   "one"  # kept
    longer  = -a            "two"

    # three
    # four

    third   = a - (-3 cm) * 2
    by_neck = by neck: crew -2 cm, boat 1 1/4 in
    b       = a - 3 cm
    # five

# six
piece front
    points
        p    at 0, -1 cm
        far  by neck
            crew  from p: 3 cm across
            boat  from p: 3 cm across, -2 cm up

    outline
        edge        p to far   straight, on fold
        back_again  far to p
            curve
            allowance 1 in

    grain    up
    stretch  across
    cut      1
"""


def test_one_way_to_write_each_thing() -> None:
    assert tidied(MESSY) == TIDY


def test_a_setting_alone_takes_no_column() -> None:
    assert tidied("piece p\n  cut    1\n") == "piece p\n    cut 1\n"


def test_sentences_stand_in_line_only_with_neighbours_that_leave_room() -> None:
    wide = "1 cm" + " + 1 cm" * 12
    text = f'let\n    a = 1 cm "one"\n    b = 10 cm "two"\n    c = {wide} "three"\n    d = 1 cm "four"\n'
    rows = tidied(text).split("\n")
    assert rows[1].index('"') == rows[2].index('"') == 16
    assert rows[3].endswith(' 1 cm   "three"')
    assert rows[4] == '    d = 1 cm   "four"'


def test_a_line_broken_in_parentheses_is_joined_where_it_fits() -> None:
    assert tidied("let\n  a = (1 cm\n   + 2 cm\n\n     )\n") == "let\n    a = (1 cm + 2 cm)\n"


def test_a_line_broken_in_parentheses_stays_broken_where_it_is_long_or_has_comments() -> None:
    text = "let\n  a = (1 cm # first\n # between\n     + 2 cm) # last\n  longer = 3 cm\n"
    wanted = "let\n    a      = (1 cm  # first\n            # between\n            + 2 cm)  # last\n    longer = 3 cm\n"
    assert tidied(text) == wanted
    long = "let\n    a = (" + "1 cm + " * 10 + "1 cm\n            " + "+ 1 cm " * 10 + '+ 1 cm)   "all"\n'
    assert tidied(long) == long


def test_a_sentence_with_its_fix_is_one() -> None:
    text = 'check\n  2 cm at least 1 cm "one" else "fix"\n  20 cm at least 1 cm   "two"\n'
    assert tidied(text).split("\n")[1:3] == [
        '    2 cm at least 1 cm    "one" else "fix"',
        '    20 cm at least 1 cm   "two"',
    ]


def test_a_quoted_text_keeps_its_spaces() -> None:
    assert tidied('pattern p\n  title "A  #  B"\n') == 'pattern p\n    title "A  #  B"\n'


@pytest.mark.parametrize("text", ["", "\n\n", "# only a remark", "  # deep\n\n\n# two\n"])
def test_a_text_without_lines(text: str) -> None:
    after = tidied(text)
    assert comments(after) == comments(text)
    assert after == "" or (after.endswith("\n") and not after.startswith((" ", "\n")))


def test_a_first_line_that_stands_in_opens_no_block() -> None:
    assert tidied("   let\n      a = 1 cm\n") == "let\n    a = 1 cm\n"


def test_a_comment_at_the_end_of_a_block_stays_in_it() -> None:
    assert tidied("let\n  a = 1 cm\n  # b = 2 cm\n\npiece p\n  cut 1\n  # more\n").split("\n") == [
        "let", "    a = 1 cm", "    # b = 2 cm", "", "piece p", "    cut 1", "    # more", "",
    ]  # fmt: skip


def test_a_text_that_cannot_be_read_is_refused() -> None:
    with pytest.raises(Problems) as caught:
        tidied("let\n  a = = 3\n")
    assert caught.value.notes[0].span


def test_a_layout_that_would_say_something_else_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("draft.language.tidy.Layout.rows", lambda self: iter(["let", "    a = 2 cm"]))
    with pytest.raises(Problems, match="tidying would change"):
        tidied("let\n    a = 1 cm\n")
