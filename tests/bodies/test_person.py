"""Reading one person's measures: quantities in quotes, or bare numbers in a unit that the file names."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Note, Problems, show
from draft.bodies.bodies import Bodies
from draft.bodies.person import read_person

NotesOf = Callable[..., tuple[Note, ...]]

INES = """name = "Ines"

[measures]
bust_girth = "98 cm"
waist_girth = '31 1/2 in'
shoulder_slope = "21 deg"
"""


def _read(folder: Path, text: str, name: str = "ines.toml") -> Bodies:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return read_person(path)


def test_measures_are_read_in_their_units(tmp_path: Path) -> None:
    ines = _read(tmp_path, INES)
    assert ines.names == ("Ines",)
    assert ines.values["bust_girth"].tolist() == [980]
    assert np.allclose(ines.values["waist_girth"], [800.1])
    assert np.allclose(ines.values["shoulder_slope"], np.radians([21]))


def test_bare_numbers_take_the_unit_of_the_file(tmp_path: Path) -> None:
    text = 'units = "in"\n[measures]\nbust_girth = 38\nhip_girth = 40.5\nwaist_girth = "31 1/2"\nhip_depth = "20 cm"\n'
    body = _read(tmp_path, text, "tante Inès.toml")
    assert body.names == ("tante Inès",)
    assert np.allclose([body.values[n][0] for n in ("bust_girth", "hip_girth", "waist_girth")], [965.2, 1028.7, 800.1])
    assert body.values["hip_depth"].tolist() == [200]


@pytest.mark.parametrize(
    "text",
    [
        INES.replace("\n", "\r\n"),
        "\ufeff" + INES,
        'name = "Ines"\nmeasures.bust_girth = "98 cm"\n',
        'name = " Ines "\nmeasures = { bust_girth = "98 cm" }\n',
        '# mine\nname = "Ines"\n[measures] # all\n"bust_girth"="98cm"\n',
    ],
)
def test_any_way_of_writing_toml_is_read(tmp_path: Path, text: str) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(text.encode())
    ines = read_person(path)
    assert ines.names == ("Ines",) and ines.values["bust_girth"].tolist() == [980]


M = "[measures]\n"
MISTAKES = {
    "bare": (M + "bust_girth = 98", "2:1", "`bust_girth` is a number without a unit", 'write `bust_girth = "98 cm"`'),
    "bare inches": (
        M + "bust_girth = 36",
        "2:1",
        "`bust_girth` is a number without a unit",
        'write `bust_girth = "36 in"`',
    ),
    "bare text": (
        M + 'bust_girth = "98"',
        "2:1",
        "`bust_girth` is a number without a unit",
        'write `bust_girth = "98 cm"`',
    ),
    "bare angle": (
        'units = "cm"\n' + M + "shoulder_slope = 21",
        "3:1",
        "`shoulder_slope` is a number without a unit",
        'write `shoulder_slope = "21 deg"`',
    ),
    "bare and wild": (
        M + "elbow_girth = 9000",
        "2:1",
        "`elbow_girth` is a number without a unit",
        'write `elbow_girth = "27 cm"`',
    ),
    "near name": (M + 'bust_grith = "98 cm"', "2:1", "`bust_grith` is not a body measure", "try `bust_girth`"),
    "angle for a length": (
        M + 'bust_girth = "98 deg"',
        "2:1",
        "`bust_girth` is a length, but `98 deg` is an angle",
        'write it like `bust_girth = "104 cm"`',
    ),
    "no quantity": (
        M + 'wrist_girth = "thin"',
        "2:1",
        "`wrist_girth` is not a length",
        'write it like `wrist_girth = "17 cm"`',
    ),
    "decimal comma": (
        M + 'bust_girth = "98,5 cm"',
        "2:1",
        "`bust_girth` is not a length",
        'try `bust_girth = "98.5 cm"`',
    ),
    "percentage": (M + 'wrist_girth = "17 %"', "2:1", "`wrist_girth` is not a length", None),
    "yes": (M + "wrist_girth = true", "2:1", "`wrist_girth` is not a length", None),
    "list": (M + "wrist_girth = [17]", "2:1", "`wrist_girth` is not a length", None),
    "table": (M + "[measures.wrist_girth]\nleft = 17", "2:11", "`wrist_girth` is not a length", None),
    "not finite": (M + "wrist_girth = nan", "2:1", "`wrist_girth` is not a length", None),
    "huge": (M + "wrist_girth = 0x" + "f" * 9000, "2:1", "`wrist_girth` is not a length", None),
    "negative": (
        M + 'bust_girth = "-98 cm"',
        "2:1",
        "`bust_girth` is -98 cm for ines, outside 60 cm to 180 cm",
        "did you mean 98 cm?",
    ),
    "nothing": (M + 'bust_girth = "0 cm"', "2:1", "`bust_girth` is 0 cm for ines, outside 60 cm to 180 cm", None),
    "nine metres": (M + 'bust_girth = "9 m"', "2:1", "`bust_girth` is 900 cm for ines, outside 60 cm to 180 cm", None),
    "wrong units": (
        'units = "feet"\n' + M + 'bust_girth = "98 cm"',
        "1:1",
        "`units` is not a unit of a tape measure",
        None,
    ),
    "nobody's body": (
        'wearer = "lady"\n' + M + 'bust_girth = "98 cm"',
        "1:1",
        "`wearer` is not whose body this is",
        "write one of `woman`, `man`, `child`",
    ),
    "units a list": (
        "units = [1]\n" + M + 'bust_girth = "98 cm"',
        "1:1",
        "`units` is not a unit of a tape measure",
        None,
    ),
    "unknown key": ('nmae = "Ines"\n' + M + 'bust_girth = "98 cm"', "1:1", "`nmae` is not known here", "try `name`"),
    "outside": (
        'hip_girth = "98 cm"\n' + M + 'bust_girth = "98 cm"',
        "1:1",
        "`hip_girth` stands outside of `[measures]`",
        "move it below a line that says `[measures]`",
    ),
    "empty": (M, "1:1", "`ines.toml` holds no measures", None),
    "measures a text": ('measures = "98 cm"', "1:1", "`ines.toml` holds no measures", None),
    "name a number": ("name = 7\n" + M + 'bust_girth = "98 cm"', "1:1", "the name is not a text in quotes", None),
    "no name": ('name = " "\n' + M + 'bust_girth = "98 cm"', "1:1", "the person's name is empty", None),
    "name a path": (
        'name = "../../Ines"\n' + M + 'bust_girth = "98 cm"',
        "1:1",
        "the person's name holds `/`, which not every file name can hold",
        None,
    ),
    "name with a bell": (
        'name = "In\\u0007es"\n' + M + 'bust_girth = "98 cm"',
        "1:1",
        "the person's name holds a control character",
        None,
    ),
    "long name": (
        f'name = "{"I" * 61}"\n' + M + 'bust_girth = "98 cm"',
        "1:1",
        "the person's name is longer than 60 characters",
        None,
    ),
    "hidden name": (
        'name = ".ines"\n' + M + 'bust_girth = "98 cm"',
        "1:1",
        "the person's name begins or ends with a mark that a file name should not",
        None,
    ),
    "no quotes": (
        M + "bust_girth = 98 cm # mine",
        "2:14",
        "`98 cm` needs quotes around it",
        'try `bust_girth = "98 cm"`',
    ),
    "inch mark": (
        M + 'bust_girth = 38 1/2"',
        "2:14",
        '`38 1/2"` needs quotes around it',
        'try `bust_girth = "38 1/2 in"`',
    ),
}


@pytest.mark.parametrize("case", MISTAKES, ids=str)
def test_a_mistake_is_shown_on_its_line(notes_of: NotesOf, case: str) -> None:
    text, place, message, hint = MISTAKES[case]
    (note,) = notes_of(read_person, "ines.toml", text)
    assert note.message == message
    assert str(note.span) == f"ines.toml:{place}"
    assert hint is None or note.hints == (hint,)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        (M + 'bust_girth = "98 cm"\nbust_girth = "98 cm"', "3:1"),
        (M + 'bust_girth = "98 cm', "2:1"),
        (M + "bust_girth = [\n\n", "2:1"),
        ("[measures\n" + 'bust_girth = "98 cm"', "1:1"),
    ],
    ids=["twice", "open quote", "open bracket", "open header"],
)
def test_a_fault_of_syntax_is_shown_on_its_line(notes_of: NotesOf, text: str, place: str) -> None:
    (note,) = notes_of(read_person, "ines.toml", text)
    assert note.message.startswith("this is not TOML: ")
    assert str(note.span) == f"ines.toml:{place}"
    assert note.hints == ('write each line as `bust_girth = "98 cm"`',)


def test_all_mistakes_are_shown_at_once(notes_of: NotesOf) -> None:
    text = 'name = "a/b"\nunits = "ell"\n[measures]\nbust_girth = 98\nhip = "1 m"\nwaist_girth = "31 cm"\n'
    assert len(notes_of(read_person, "x.toml", text)) == 5


def test_every_measure_without_quotes_is_shown(notes_of: NotesOf) -> None:
    text = '[measures]\nbust_girth = 98 cm\nwaist_girth = 78 cm\nhip_girth = "100 cm"\n'
    assert [str(note.span) for note in notes_of(read_person, "x.toml", text)] == ["x.toml:2:14", "x.toml:3:15"]


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "holds no measures"),
        (b'name = "In\xe8s"', "line 1 of"),
        (b"# \0", "control character"),
        (b"#" * 1_000_001, "over 1 MB, too large for a file of measures"),
        (b"a = " + b"[" * 100_000, "nested too deeply"),
        (b"a = " + b"9" * 5000, "this is not TOML"),
    ],
    ids=["empty", "latin-1", "nul", "huge", "nested", "digits"],
)
def test_a_file_that_cannot_be_read_says_why(notes_of: NotesOf, data: bytes, words: str) -> None:
    (note,) = notes_of(read_person, "x.toml", data)
    assert words in note.message


def test_a_file_name_that_cannot_be_a_name_is_refused(notes_of: NotesOf) -> None:
    (note,) = notes_of(read_person, "a*b.toml", M + 'bust_girth = "98 cm"')
    assert "holds `*`" in note.message and note.span is None and "at the top" in note.hints[0]


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(Problems, match="there is no file of measures"):
        read_person(tmp_path / "ines.toml")


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.sampled_from(
            [*"a=[]{}.\n\"', -1#", "name", "units", "[measures]\n", "bust_girth", " = ", '"98 cm"', '"cm"', "1e9"]
        ),
        max_size=25,
    )
)
def test_any_text_is_read_or_refused_with_notes(tmp_path_factory: pytest.TempPathFactory, parts: list[str]) -> None:
    folder = tmp_path_factory.mktemp("any")
    for text in ("".join(parts), M + "".join(parts), M + "bust_girth = " + "".join(parts)):
        try:
            body = _read(folder, text)
        except Problems as problems:
            assert show(problems.notes)
        else:
            assert len(body) == 1 and all(np.isfinite(values).all() for values in body.values.values())


POINTS = ["a." * 200_000 + "b = 1", "[" + '"a".' * 200_000 + "b]", "c = {" + "a." * 200_000 + "b = 1}"]


@pytest.mark.parametrize("line", POINTS, ids=["key", "header", "inline"])
def test_a_key_of_endless_points_is_refused_before_it_is_followed(notes_of: NotesOf, line: str) -> None:
    (note,) = notes_of(read_person, "ines.toml", line + "\n")
    assert note.message == "this line has more than 200 points" and note.span and note.hints
