"""Many bodies from one table: read piece by piece, each with its own faults."""

from __future__ import annotations

import warnings
from pathlib import Path

import numpy as np
import pytest

from draft.base.notes import Problems
from draft.bodies.many import read_many

TABLE = """name,bust_girth cm,waist_girth (in),shoulder_slope deg
Ines,98,31 1/2,21
,88,,20
Ada,36,30,20
Eva,x,30,20
Uma,91,30
Zoe,91,30,20,5
"""


def _file(folder: Path, text: str | bytes) -> Path:
    path = folder / "people.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def test_bodies_are_read_in_their_units_with_their_own_faults(tmp_path: Path) -> None:
    (some,) = read_many(_file(tmp_path, TABLE))
    assert some.bodies.names == ("Ines", "body 2", "Ada", "Eva", "Uma", "Zoe")
    assert np.allclose(some.bodies.values["bust_girth"], [980, 880, np.nan, np.nan, 910, 910], equal_nan=True)
    assert some.bodies.values["waist_girth"][0] == pytest.approx(800.1)
    assert np.isnan(some.bodies.values["waist_girth"][1]) and np.isnan(some.bodies.values["shoulder_slope"][4])
    assert some.faults == [
        "",
        "",
        "`bust_girth` is 36 cm, outside 60 cm to 180 cm; did you mean 36 in?",
        "`bust_girth` is not a number: `x`",
        "",
        "the row has more cells than the first line",
    ]


@pytest.mark.parametrize("chunk", [1, 2, 3, 100])
def test_any_number_at_a_time_reads_the_same(tmp_path: Path, chunk: int) -> None:
    path = _file(tmp_path, TABLE)
    lots = list(read_many(path, chunk))
    assert [name for lot in lots for name in lot.bodies.names] == list(next(iter(read_many(path))).bodies.names)
    assert [fault for lot in lots for fault in lot.faults] == next(iter(read_many(path))).faults
    assert lots[-1].read == path.stat().st_size


@pytest.mark.parametrize("text", [TABLE.replace("\n", "\r\n"), "\ufeff" + TABLE, TABLE + "\n,,,\n", TABLE.rstrip()])
def test_what_spreadsheets_write_is_read_alike(tmp_path: Path, text: str) -> None:
    (some,) = read_many(_file(tmp_path, text))
    assert len(some.bodies) == 6 and some.bodies.values["bust_girth"][0] == 980


@pytest.mark.parametrize(
    ("text", "fact", "fix"),
    [
        ("", "`people.csv` is empty", "begin it with a line such as"),
        ("name\nInes\n", "`people.csv` has no measures", "begin it with a line such as"),
        ("name,bust cm\n", "`bust` is not a body measure", "try `bust_girth`"),
        ("bust_girth\n98\n", "the column `bust_girth` does not say its unit", "try `bust_girth cm`"),
        ("bust_girth deg\n98\n", "the column `bust_girth deg` does not say its unit", "try `bust_girth cm`"),
        ("bust_girth cm,bust_girth in\n", "`bust_girth` has two columns", None),
        (b"name,bust_girth cm\n\xff,98\n", "`people.csv` is not UTF-8 text", "save it again as UTF-8"),
    ],
)
def test_a_table_that_is_none_is_refused(tmp_path: Path, text: str | bytes, fact: str, fix: str | None) -> None:
    with pytest.raises(Problems) as caught:
        list(read_many(_file(tmp_path, text)))
    note = caught.value.notes[0]
    assert note.message.replace(str(tmp_path) + "/", "") == fact
    assert note.hints[0].startswith(fix) if fix else not note.hints


def test_a_table_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(Problems, match="there is no table of bodies"):
        list(read_many(tmp_path / "none.csv"))


def test_a_cell_without_end_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Problems, match="cannot be read as a table"):
        list(read_many(_file(tmp_path, 'bust_girth cm\n"' + "9" * 200_000)))


def test_a_file_that_is_no_table_gives_few_mistakes(tmp_path: Path) -> None:
    with pytest.raises(Problems) as caught:
        list(read_many(_file(tmp_path, ",".join(f"x{k}" for k in range(5000)) + "\n")))
    assert len(caught.value.notes) == 20
    (some,) = read_many(_file(tmp_path, "bust_girth cm\n98" + ",1" * 100_000 + "\n"))
    assert some.faults == ["the row has more cells than the first line"]


@pytest.mark.parametrize("row", ["9" * 3_000_000, '"\n",' * 400_000])
def test_a_row_without_end_is_refused_before_it_is_held(tmp_path: Path, row: str) -> None:
    file = _file(tmp_path, f"name,bust_girth cm\n{row}")
    with pytest.raises(Problems, match=r"the row at line \d+ of `.*` goes on beyond 1000000 characters"):
        list(read_many(file))


def test_figures_beyond_all_numbers_are_faults_of_their_rows(tmp_path: Path) -> None:
    odd = ["1e308", "-1e308", "1e400", "inf", "-inf", "nan", "1e-320", "9" * 400, "0x10", "1_0"]
    file = _file(tmp_path, "name,bust_girth cm\n" + "".join(f"a,{cell}\n" for cell in odd) + "b,98\n")
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        (some,) = read_many(file)
    assert all(some.faults[:-1]) and some.faults[-1] == ""
