"""A line that stands deeper than one that opens nothing goes on from it."""

from __future__ import annotations

import pytest

from draft.base.notes import Problems, Source, show
from draft.language.going_on import heads
from draft.language.reader import read
from draft.language.tidy import tidy

JOINED = "join\n    neck  band.long to back.neck then front.neck reversed, stretched 90 %, quarters\n"
BROKEN_UP = """join
    neck  band.long to back.neck
          then front.neck reversed,  # the front comes last

      stretched 90 %
        , quarters
"""


def tree(text: str) -> object:
    return read(Source("a", text))


@pytest.mark.parametrize(
    ("whole", "broken"),
    [
        (JOINED, BROKEN_UP),
        ('check\n    a at least b "it is" else "do"\n', 'check\n    a at least b\n      "it is"\n      else "do"\n'),
        ("let\n    a = by kind: x 1 cm, y 2 cm\n", "let\n    a = by kind:\n        x 1 cm,\n        y 2 cm\n"),
        ("piece p\n    a = b + c\n    cut 1\n", "piece p\n    a = b\n        + c\n    cut\n     1\n"),
        (
            "piece p\n    points\n        a from b: 1 cm up, 2 cm across\n",
            "piece p\n    points\n        a from b: 1 cm up,\n          2 cm across\n",
        ),
        (
            "piece p\n    outline\n        a b to c curve leaving up, allowance 1 cm\n",
            "piece p\n    outline\n        a b to c curve leaving up,\n          allowance 1 cm\n",
        ),
        (
            "piece p\n    points\n        a by kind\n            x from b: 1 cm up\n",
            "piece p\n    points\n        a by kind\n            x from b:\n                1 cm up\n",
        ),
    ],
    ids=["join", "check", "let", "piece", "points", "outline", "rows"],
)
def test_a_line_says_the_same_on_several_rows(whole: str, broken: str) -> None:
    assert tree(broken) == tree(whole)
    assert tree(tidy(Source("a", broken))) == tree(whole)


def test_the_rows_of_a_line_know_where_it_begins() -> None:
    assert heads(BROKEN_UP) == (0, 1, 1, 1, 1, 1, 6)
    assert heads("let\n    a = (b\n\n    c)\n") == (0, 1, 2, 3, 4)  # the bracket is never closed
    assert heads("piece p\n  outline\n    a b to c\n      straight\n      allowance 1 cm") == (0, 1, 2, 3, 4)


def test_a_short_line_is_set_on_one_row_and_a_comma_ends_a_row() -> None:
    assert tidy(Source("a", 'check\n    a at least b\n       "it is"\n')) == 'check\n    a at least b   "it is"\n'
    assert tidy(Source("a", BROKEN_UP)).split("\n")[1:5] == [
        "    neck  band.long to back.neck",
        "            then front.neck reversed,  # the front comes last",
        "            stretched 90 %,",
        "            quarters",
    ]


@pytest.mark.parametrize("at", ["wrong wrong", "stretched 90 % 4", ", 3"])
def test_a_mistake_on_a_later_row_sets_the_whole_line_aside(at: str) -> None:
    text = f"join\n    neck  band.long to back.neck\n       then front.neck,\n       {at}\n    side  a.b to c.d\n"
    with pytest.raises(Problems) as told:
        read(Source("a", text))
    assert len(told.value.notes) == 1
    assert show(told.value.notes).startswith("a:4:")


def test_a_comma_alone_on_its_row_leaves_no_row_behind() -> None:
    long = "neckband.long to back.neckline then front.neckline reversed, stretched 85 %, quarters, notch at 12 cm"
    written = f'join\n    neck  {long}\n      ,\n      notch at 30 cm   "round the neck, as it lies"\n'
    assert tidy(Source("a", written)).splitlines()[-2:] == [
        f"    neck  {long},",
        '            notch at 30 cm   "round the neck, as it lies"',
    ]
