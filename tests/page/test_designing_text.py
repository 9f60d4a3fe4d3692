"""What a designer does with her text: it is looked over, mended, gone on with, dragged, saved."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.base.resources import folder
from draft.page.bench import Bench
from draft.page.designing import VERBS
from draft.page.designing.leaves import leaves
from draft.page.designing.numbers_written import read_written

BENCH = Bench()
MARLPIT = (folder("pieces") / "marlpit.piece").read_text("utf-8")
SLIP = MARLPIT.replace("neck_turn, curve evenly arriving", "nock_turn, curve evenly arriving", 1)
BIB = """\
pattern bib
    title "Bib"
    chart "women.csv"

body
    bust_girth

piece front
    points
        a  at 0, 0
        b  from a: 20 cm across
        c  at 8 1/2 in, 25 cm   # the corner
        d  from a: bust_girth / 4 up

    outline
        low    a to b   straight
        side   b to c   straight
        top    c to d   straight
        centre d to a   straight
    cut 1
"""


def ask(verb: str, text: str = MARLPIT, bench: Bench = BENCH, **asked: object) -> dict:
    found = VERBS[verb]({"garment": "marlpit", "text": text, **asked}, bench)
    json.dumps(found, allow_nan=False)
    return found


def written(text: str, changes: list[dict]) -> str:
    for change in reversed(changes):
        text = text[: change["start"]] + change["text"] + text[change["end"] :]
    return text


def test_a_slip_is_told_under_the_word_and_mended_by_a_click() -> None:
    (note,) = (note for note in ask("checks", SLIP)["notes"] if note["severity"] == "error")
    assert SLIP[note["start"] : note["end"]] == "nock_turn" and not ask("checks", SLIP)["drawn"]
    (mend,) = ask("mend", SLIP, start=note["start"], end=note["end"])["mends"]
    assert mend["message"] == note["message"] and written(SLIP, [mend]) == MARLPIT


def test_what_only_the_drawing_tells_is_told_too() -> None:
    text = MARLPIT.replace("front.overarm to back.overarm", "front.overarm to back.neckline")
    found = ask("checks", text)
    assert found["drawn"]
    assert any("overarm" in note["message"] and note["start"] > 0 for note in found["notes"])
    assert ask("checks")["drawn"] and not ask("checks")["notes"]


def test_how_a_line_goes_on() -> None:
    at = MARLPIT.index("straight to neck_turn, curve evenly") + len("straight to neck_t")
    found = ask("complete", at=at)["found"]
    assert any(one["text"] == "neck_turn" and one["what"] == "point" for one in found)


def test_what_a_word_is_and_comes_to() -> None:
    at = MARLPIT.index("bust_quarter     =")
    found = ask("hover", at=at, size="L")
    assert MARLPIT[found["start"] : found["end"]] == "bust_quarter"
    assert "size L" in json.dumps(found["leaves"])
    assert ask("hover", at=0) == {}


def test_a_point_is_dragged_in_the_unit_it_is_written_with() -> None:
    moved = written(BIB, ask("dragged", BIB, piece="front", point="c", x=230.0, y=-261.3)["changes"])
    assert "c  at 9 in, 26.1 cm   # the corner" in moved
    assert (
        written(BIB, ask("dragged", BIB, piece="front", point="a", x=12.0, y=0)["changes"]).count("a  at 1.2 cm, 0")
        == 1
    )
    along = written(BIB, ask("dragged", BIB, piece="front", point="b", x=212.0, y=-90.0)["changes"])
    assert "b  from a: 21.2 cm across" in along
    with pytest.raises(Problems):
        ask("dragged", BIB, piece="front", point="d", x=0, y=0)
    points = {point["name"]: point["moves"] for point in ask("nest", BIB)["pieces"][0]["points"]}
    assert points == {"a": "xy", "b": "x", "c": "xy", "d": ""}


@pytest.mark.parametrize(
    "text", ["2 cm", "2.54 cm", "1/2 in", "1 1/4 in", "10 in", "28 deg", "85 %", "7 mm", "0", "-3 cm", "1.375 in"]
)
def test_a_number_is_written_as_it_was_read(text: str) -> None:
    found = read_written(text)
    assert found is not None and found.at(found.engine) == text
    assert found.text(found.value + found.step) != text


@pytest.mark.parametrize(("text", "step", "then"), [
    ("2 cm", 1, "2.1 cm"), ("1/2 in", 1, "5/8 in"), ("1 3/16 in", 2, "1 5/16 in"), ("22 deg", -1, "21.5 deg"),
    ("40 %", 1, "41 %"), ("2.55 cm", 1, "2.56 cm"), ("1/8 in", -2, "-1/8 in"), ("0.5", 1, "0.6"),
    ("1 in", -9, "-1/8 in"),
])  # fmt: skip
def test_a_number_is_stepped_as_finely_as_it_is_written(text: str, step: int, then: str) -> None:
    found = read_written(text)
    assert found is not None and found.text(found.value + step * found.step) == then


def test_the_file_that_was_opened_is_saved_and_no_other(tmp_path: Path) -> None:
    file = tmp_path / "bib.piece"
    file.write_bytes(BIB.replace("\n", "\r\n").encode())
    bench = Bench(file=file)
    opened = VERBS["open"]({"garment": "file"}, bench)
    assert opened["text"] == BIB and opened["saves"] and opened["name"] == "bib.piece"
    text = BIB.replace("25 cm", "26 cm")
    assert VERBS["save"]({"text": text, "was": BIB}, bench) == {"text": text}
    assert file.read_bytes() == text.replace("\n", "\r\n").encode()
    assert [path.name for path in tmp_path.iterdir()] == ["bib.piece"]
    with pytest.raises(Problems, match="without a file"):
        VERBS["save"]({"text": text}, Bench())


def test_what_somebody_else_has_saved_is_not_written_over_unasked(tmp_path: Path) -> None:
    file = tmp_path / "bib.piece"
    file.write_text(BIB.replace("25 cm", "30 cm"))
    bench, text = Bench(file=file), BIB.replace("25 cm", "26 cm")
    with pytest.raises(Problems, match="changed elsewhere"):
        VERBS["save"]({"text": text, "was": BIB}, bench)
    assert "30 cm" in file.read_text()
    VERBS["save"]({"text": text, "was": BIB, "over": True}, bench)
    assert file.read_text() == text


def test_what_lies_beside_the_opened_file_serves_it_and_nothing_else_does(tmp_path: Path) -> None:
    (tmp_path / "own.piece").write_text(BIB)
    text = 'pattern long_bib from "own.piece"\n'
    assert VERBS["nest"]({"garment": "file", "text": text}, Bench(file=tmp_path / "long.piece"))["pieces"]
    for garment in ("marlpit", str(tmp_path / "own.piece"), None, 7):
        with pytest.raises(Problems):
            VERBS["nest"]({"garment": garment, "text": text}, BENCH)


def test_a_pattern_of_the_bundle_is_opened_with_what_can_be_chosen() -> None:
    opened = VERBS["open"]({"garment": "marlpit"}, BENCH)
    assert opened["text"] == MARLPIT and not opened["saves"] and {"women", "men"} <= set(opened["charts"])
    found = ask("choices_of")
    assert {"neckline", "bust_ease"} <= {style["name"] for style in found["styles"]}
    assert any(measure["name"] == "bust_girth" and measure["how"] for measure in found["measures"])
    assert VERBS["open"]({"garment": "../secret"}, BENCH)["text"] == ""
    assert VERBS["open"]({"garment": ["M", 5]}, BENCH)["text"] == ""


def test_a_style_is_looked_at_without_a_change_of_the_text() -> None:
    usual, long = ask("nest", sizes=["M"]), ask("nest", sizes=["M"], styles={"sleeve": "long"})
    lengths = [
        next(e["length"][0] for e in found["pieces"][0]["edges"] if e["name"] == "overarm") for found in (usual, long)
    ]
    assert lengths[1] > lengths[0] + 200
    with pytest.raises(Problems):
        ask("nest", styles={"sleeve": "longest"})


@pytest.mark.parametrize("book", ["tutorial", "words", "blocks", "changes"])
def test_the_books_are_plain_data(book: str) -> None:
    found = VERBS["read"]({"book": book}, BENCH)["leaves"]
    tags = {leaf[0] for leaf in _elements(found)}
    assert "pre" in tags or book == "changes"
    assert "h2" in tags and tags <= {
        *[
            "p",
            "ul",
            "ol",
            "li",
            "em",
            "strong",
            "code",
            "pre",
            "blockquote",
            "table",
            "thead",
            "tbody",
            "tr",
            "th",
            "td",
            "hr",
            "br",
            "a",
        ],
        "h1",
        "h2",
        "h3",
        "h4",
    }
    ids = {leaf[1]["id"] for leaf in _elements(found) if "id" in leaf[1]}
    aims = {leaf[1]["to"] for leaf in _elements(found) if leaf[0] == "a"}
    assert aims <= ids


def test_markup_in_a_text_stays_letters() -> None:
    found = leaves("a <script>alert(1)</script> ![x](http://a) [y](javascript:z) `<b>`")
    assert {leaf[0] for leaf in _elements(found)} <= {"p", "code"}
    with pytest.raises(Problems):
        VERBS["read"]({"book": "../README"}, BENCH)


def _elements(found: list) -> list:
    inside = [leaf for leaf in found if not isinstance(leaf, str)]
    return [*inside, *(leaf for each in inside for leaf in _elements(each[2]))]


@pytest.mark.parametrize("verb", sorted(VERBS))
@pytest.mark.parametrize("asked", [{}, {"text": None}, {"text": 7}, {"text": "pattern"}, {"text": "\ud800"},
    {"text": "", "at": "x", "sizes": 4}, {"text": "pattern x", "styles": [], "measures": 3}])  # fmt: skip
def test_whatever_is_asked_is_answered_or_told(verb: str, asked: dict) -> None:
    try:
        json.dumps(VERBS[verb](asked, Bench()), allow_nan=False)
    except Problems as problems:
        assert problems.notes


def test_examples_of_the_books_open_as_files_that_can_be_drawn() -> None:
    for book in ("tutorial", "words"):
        files = [
            leaf[1]["file"] for leaf in _elements(VERBS["read"]({"book": book}, BENCH)["leaves"]) if "file" in leaf[1]
        ]
        assert len(files) > 8
        for file in (files[0], files[len(files) // 2], files[-1]):
            assert VERBS["nest"]({"text": file, "sizes": []}, BENCH)["pieces"]


@pytest.mark.parametrize("of", ["women", "men"])
def test_people_at_the_ends_are_outermost_in_their_way_and_can_be_drafted_for(of: str) -> None:
    people = {one["name"]: one["measures"] for one in VERBS["ends_of_people"]({"of": of}, BENCH)["people"]}
    taken = {name: {key: float(text.removesuffix(" cm")) for key, text in row.items()} for name, row in people.items()}
    assert taken["small"]["bust_girth"] < taken["large"]["bust_girth"] - 25
    assert taken["short"]["stature"] < taken["tall"]["stature"] - 25
    rounder = {name: row["hip_girth"] - row["bust_girth"] for name, row in taken.items()}
    assert rounder["full_hip"] > rounder["full_bust"] + 10
    if of == "women":
        assert all(ask("nest", measures=row)["pieces"] for row in people.values())
