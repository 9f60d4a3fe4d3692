"""Reading size charts: what spreadsheets write is read, and every mistake is shown on its cell."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Note, Problems, show
from draft.base.resources import folder
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart

NotesOf = Callable[..., tuple[Note, ...]]

GOOD = "measure,unit,S,M,L\nbust_girth,cm,86,94,103\nshoulder_slope,deg,20,20,19.5\nhip_girth,in,37 1/2,40,42 5/8\n"


def _read(folder: Path, text: str | bytes) -> Bodies:
    path = folder / "chart.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_chart(path)


def test_rows_are_read_in_their_own_units(tmp_path: Path) -> None:
    bodies = _read(tmp_path, GOOD)
    assert bodies.names == ("S", "M", "L")
    assert bodies.values["bust_girth"].tolist() == [860, 940, 1030]
    assert np.allclose(bodies.values["shoulder_slope"], np.radians([20, 20, 19.5]))
    assert np.allclose(bodies.values["hip_girth"], [952.5, 1016, 1082.675])


@pytest.mark.parametrize(
    "written",
    [
        b"\xef\xbb\xbf" + GOOD.encode(),
        GOOD.replace("\n", "\r\n").encode(),
        GOOD.replace("\n", "\r").encode(),
        GOOD.rstrip().encode(),
        (GOOD + "\n,,,,\n  \n\n").encode(),
        GOOD.replace("\n", ",,\n").encode(),
        GOOD.replace("bust_girth", '"bust_girth"').replace("86", ' "86" ').encode(),
        GOOD.replace(",", " ,\t").encode(),
        GOOD.replace("measure,unit", "Measure,Unit").encode(),
    ],
    ids=[
        "byte order mark",
        "crlf",
        "cr",
        "no last line end",
        "blank rows",
        "empty columns",
        "quotes",
        "blanks",
        "case",
    ],
)
def test_what_spreadsheets_write_is_read_alike(tmp_path: Path, written: bytes) -> None:
    bodies, plain = _read(tmp_path, written), _read(tmp_path, GOOD)
    assert bodies.names == plain.names
    for name, values in plain.values.items():
        assert bodies.values[name].tolist() == values.tolist()


def test_quotes_and_commas_within_a_quoted_cell(tmp_path: Path, notes_of: NotesOf) -> None:
    assert _read(tmp_path, 'measure,unit,"42, tall"\nbust_girth,cm,94\n').names == ("42, tall",)
    (note,) = notes_of(read_chart, "chart.csv", 'measure,unit,S\n "my ""bust""" ,cm,94\n')
    assert note.message == '`my "bust"` is not a body measure'
    assert note.span and note.span.text == '"my ""bust"""'


HEAD = "measure,unit,S,M\n"
MISTAKES = {
    "unknown measure": (HEAD + "bust_grith,cm,86,94", "2:1", "`bust_grith` is not a body measure", "try `bust_girth`"),
    "words for a name": (HEAD + "Bust Girth,cm,86,94", "2:1", "`Bust Girth` is not a body measure", "try `bust_girth`"),
    "no name": (HEAD + ",cm,86,94", "2:1", "this row names no measure", None),
    "unknown unit": (HEAD + "bust_girth,CM,86,94", "2:12", "`CM` is not a unit", "write `cm`, `mm` or `in`"),
    "inch": (HEAD + "bust_girth,inch,34,37", "2:12", "`inch` is not a unit", "try `in`"),
    "no unit": (HEAD + "bust_girth,,86,94", "2:12", "`bust_girth` has no unit", "write `cm`, `mm` or `in`"),
    "unit of an angle": (
        HEAD + "bust_girth,deg,86,94",
        "2:12",
        "`bust_girth` is a length, which `deg` does not measure",
        "write `cm`, `mm` or `in`",
    ),
    "unit of a length": (
        HEAD + "shoulder_slope,cm,20,20",
        "2:16",
        "`shoulder_slope` is an angle, which `cm` does not measure",
        "write `deg`",
    ),
    "not a number": (HEAD + "bust_girth,cm,about 86,94", "2:15", "`about 86` is not a number", None),
    "unit in the cell": (HEAD + "bust_girth,cm,86 cm,94", "2:15", "`86 cm` is not a number", "try `86`"),
    "decimal comma": (HEAD + 'bust_girth,cm,"86,5",94', "2:15", "`86,5` is not a number", "try `86.5`"),
    "division by nothing": (HEAD + "bust_girth,in,34 1/0,37", "2:15", "`34 1/0` is not a number", None),
    "exponent": (HEAD + "bust_girth,cm,9e999999999,94", "2:15", "`9e999999999` is not a number", None),
    "not finite": (HEAD + "bust_girth,cm,nan,94", "2:15", "`nan` is not a number", None),
    "missing cell": (HEAD + "bust_girth,cm,,94", "2:15", "`bust_girth` has no figure for size S", None),
    "short row": (HEAD + "bust_girth,cm,86", "2:17", "`bust_girth` has no figure for size M", None),
    "name alone": (HEAD + "bust_girth", "2:11", "`bust_girth` has no unit", "write `cm`, `mm` or `in`"),
    "too many cells": (
        HEAD + "bust_girth,cm,86,94,103,113",
        "2:21",
        "this row has more cells than the chart has sizes (2)",
        None,
    ),
    "two rows": (HEAD + "bust_girth,cm,86,94\nbust_girth,cm,86,94", "3:1", "`bust_girth` has two rows", None),
    "two sizes": ("measure,unit,M,m\nbust_girth,cm,86,94", "1:16", "size `m` is there twice", None),
    "no size name": ("measure,unit,,M\nbust_girth,cm,86,94", "1:14", "the size's name is empty", None),
    "a size for a path": (
        "measure,unit,S,../M\nbust_girth,cm,86,94",
        "1:16",
        "the size's name holds `/`, which not every file name can hold",
        None,
    ),
    "inches in a row of cm": (
        HEAD + "bust_girth,cm,34,94",
        "2:15",
        "`bust_girth` is 34 cm for size S, outside 60 cm to 180 cm",
        "did you mean 34 in?",
    ),
    "negative": (
        HEAD + "bust_girth,cm,-86,94",
        "2:15",
        "`bust_girth` is -86 cm for size S, outside 60 cm to 180 cm",
        "did you mean 86 cm?",
    ),
    "shrinks": (HEAD + "bust_girth,cm,94,86", "2:18", "`bust_girth` falls from 94 cm to 86 cm between S and M", None),
    "twin": (HEAD + "bust_girth,cm,86,86", "1:16", "size M has the same figures as size S", None),
    "open quote": (
        HEAD + 'bust_girth,cm,"86,94\nhip_girth,cm,94,100',
        "2:15",
        'this cell opens with `"` and does not close with one',
        'end it with `"`, or leave both out',
    ),
    "no columns": ("bust_girth,cm,86", "1:1", "a chart begins with the columns `measure` and `unit`", None),
    "no sizes": ("measure,unit,,\nbust_girth,cm,86", "1:9", "this chart names no size", None),
    "no rows": (HEAD, "1:1", "this chart has no measures", None),
    "semicolons": (
        "measure;unit;S\nbust_girth;cm;86,5",
        "1:1",
        "the cells of this chart are parted by semicolons, not commas",
        None,
    ),
    "tabs": (
        "measure\tunit\tS\nbust_girth\tcm\t86",
        "1:1",
        "the cells of this chart are parted by tabs, not commas",
        None,
    ),
}


@pytest.mark.parametrize("case", MISTAKES, ids=str)
def test_a_mistake_is_shown_on_its_cell(notes_of: NotesOf, case: str) -> None:
    text, place, message, hint = MISTAKES[case]
    (note,) = notes_of(read_chart, "chart.csv", text)
    assert note.message == message
    assert str(note.span) == f"chart.csv:{place}"
    assert hint is None or note.hints == (hint,)


def test_all_mistakes_are_shown_at_once(notes_of: NotesOf) -> None:
    text = "measure,unit,S,M,m\nbust_grith,cm,86,94,100\nhip_girth,furlong,1,2,3\n"
    text += "waist_girth,cm,70,x,65\nhip_depth,cm,20,19,\n"
    shown = show(notes_of(read_chart, "chart.csv", text))
    for fact in (
        "is there twice",
        "`bust_grith` is not",
        "`furlong` is not",
        "`x` is not",
        "falls from 20",
        "no figure",
    ):
        assert fact in shown
    assert "    5 | hip_depth,cm,20,19,\n" in shown


def test_a_file_that_is_no_chart_gives_a_short_list(notes_of: NotesOf) -> None:
    notes = notes_of(read_chart, "chart.csv", HEAD + "nonsense,cm,1,2\n" * 5000)
    assert len(notes) == 21
    assert show(notes).splitlines()[-3] == "chart.csv:22:1: there are 4980 more mistakes from here on"


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "`chart.csv` is empty"),
        (b"\n ,\n", "`chart.csv` is empty"),
        (GOOD.encode().replace(b"hip", b"h\xefp"), "is not UTF-8 text"),
        (GOOD.encode("utf-16"), "is not UTF-8 text"),
        (GOOD.encode() + b"\0", "holds a control character"),
        (b"measure,unit,S\n" + b"x" * 1_000_001, "over 1 MB"),
    ],
    ids=["empty", "blank", "latin-1", "utf-16", "nul", "huge"],
)
def test_a_file_that_cannot_be_read_says_why(notes_of: NotesOf, data: bytes, words: str) -> None:
    (note,) = notes_of(read_chart, "chart.csv", data)
    assert words in note.message


def test_latin_1_names_its_line(notes_of: NotesOf) -> None:
    (note,) = notes_of(read_chart, "chart.csv", GOOD.encode().replace(b"hip", b"h\xefp"))
    assert note.message.startswith("line 4 of ")


def test_a_missing_chart_lists_those_beside_it(tmp_path: Path) -> None:
    (tmp_path / "women.csv").write_text(GOOD)
    with pytest.raises(Problems) as caught:
        read_chart(tmp_path / "woman.csv")
    assert "there is no size chart `" in caught.value.notes[0].message
    assert caught.value.notes[0].hints == ("choose from women.csv",)
    with pytest.raises(Problems, match="there is no size chart"):
        read_chart(tmp_path / "absent" / "x.csv")
    with pytest.raises(Problems, match="cannot be read: is a directory"):
        read_chart(tmp_path)
    with pytest.raises(Problems, match="cannot be read"):
        read_chart(Path("a\0b"))


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.sampled_from(
            [*'a,\n"; -1', "measure", "unit", "bust_girth", "cm", "94", "1/0", "S", "M", "é", "\t", "9" * 500]
        ),
        max_size=25,
    )
)
def test_any_text_is_read_or_refused_with_notes(tmp_path_factory: pytest.TempPathFactory, parts: list[str]) -> None:
    folder = tmp_path_factory.mktemp("any")
    for text in ("".join(parts), HEAD + "".join(parts), HEAD + "bust_girth,cm," + "".join(parts)):
        try:
            bodies = _read(folder, text)
        except Problems as problems:
            assert show(problems.notes)
        else:
            assert len(bodies) and all(np.isfinite(values).all() for values in bodies.values.values())


def test_a_figure_unlike_its_neighbours_is_questioned(tmp_path: Path, women: Bodies) -> None:
    assert women.notes == ()
    text = (folder("pieces") / "women.csv").read_text()
    (note,) = _read(tmp_path, text.replace("78,86,94,103", "78,86,102,103")).notes
    assert note.message == "`bust_girth` of size M is 102 cm, unlike its neighbours"
    assert note.hints == ("look at it again: between them it would be 94.5 cm",)
    assert note.span and note.span.text == "102"
    assert _read(tmp_path, text.replace("78,86,102,103", "78,86,94,103")).notes == ()
    head = "measure,unit,A,B,C,D,E,F\nhead_girth,in,21 1/4,21 1/4,21 1/2,21 1/2,21 3/4,21 3/4\n"
    assert (
        _read(tmp_path, head + "bust_girth,in,31,32,33,34,35,36\n").notes == ()
    )  # heads of ASTM D5585 grow at every other size
