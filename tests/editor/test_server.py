"""The editor's questions, asked over pipes of the process that answers them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from draft.base.notes import Source
from draft.language.tidy import tidy
from tests.editor.client import Client, applied
from tests.editor.pattern import PATTERN

STRIP = """\
template strip
    input
        width  length

    points
        a  at 0, 0
        b  from a: {} across
        c  from a: 2 cm up

    outline
        low  a to b   straight
        end  b to c   straight
        top  c to a   straight
"""


@pytest.fixture(scope="module")
def editor() -> Iterator[Client]:
    client = Client()
    yield client
    assert client.close() == 0


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "tab.piece"


def test_it_says_what_it_can_do(editor: Client) -> None:
    can = editor.capabilities
    for ability in (
        "hover",
        "definition",
        "references",
        "documentSymbol",
        "documentFormatting",
        "rename",
        "completion",
        "codeAction",
        "signatureHelp",
        "inlayHint",
        "documentRangeFormatting",
    ):
        assert can[f"{ability}Provider"]


def test_mistakes_are_shown_as_they_are_typed(editor: Client, path: Path) -> None:
    assert editor.open(path, PATTERN) == []
    wrong = PATTERN.replace("room  = 2 cm", "room  = 2 kg").replace("front.flank", "front.flnk")
    (unit,) = editor.change(path, wrong)
    assert unit["message"].startswith("`kg` is not a unit") and unit["severity"] == 1 and unit["source"] == "plainseam"
    assert unit["range"] == {"start": {"line": 14, "character": 14}, "end": {"line": 14, "character": 16}}
    (name,) = editor.change(path, PATTERN.replace("front.flank", "front.flnk"))
    assert name["message"] == "`front` has nothing called `flnk`\ntry `front.flank`"
    assert editor.change(path, PATTERN) == []


def mended(editor: Client, path: Path, text: str, words: str) -> list[str]:
    """What becomes of a text with each of the mendings that are offered at some words."""
    editor.open(path, text)
    asked = editor.at(path, text, words, into=1)
    place = {"start": asked["position"], "end": asked["position"]}
    question = {"textDocument": asked["textDocument"], "range": place, "context": {"diagnostics": []}}
    actions = editor.ask("textDocument/codeAction", question)
    return [applied(text, action["edit"]["changes"][path.as_uri()]) for action in actions]


def test_a_mistake_is_mended_as_its_note_proposes(editor: Client, path: Path) -> None:
    wrong = PATTERN.replace("front.flank", "front.flnk")
    assert mended(editor, path, wrong, "front.flnk") == [PATTERN]
    assert mended(editor, path, wrong, "pattern") == []
    units = mended(editor, path, PATTERN.replace("room  = 2 cm", "room  = 2 kg"), "kg")
    assert units == [PATTERN, PATTERN.replace("room  = 2 cm", "room  = 2 in")]


def test_a_word_that_misses_its_comma_or_its_other_half_is_mended(editor: Client, path: Path) -> None:
    head = 'pattern tunic\n    title  "Tunic"\n\nbody\n    bust_girth{}waist_girth\n'
    assert mended(editor, path, head.format(" "), "waist") == [head.format(", ")]
    two = PATTERN.replace("pattern tab", "pattern long tab")
    assert mended(editor, path, two, "tab\n") == [PATTERN.replace("pattern tab", "pattern long_tab")]


def test_single_letters_can_be_typed(editor: Client, path: Path) -> None:
    """Also after letters outside of the first plane of Unicode, which count as two in UTF-16."""
    text = PATTERN.replace('"Tab"', '"Tab \N{SPOOL OF THREAD}"')
    assert editor.open(path, text) == []
    spot = {"line": 2, "character": text.split("\n")[2].index('"Tab') + 7}
    (note,) = editor.edit(path, {"range": {"start": spot, "end": spot}, "text": '" x "'})
    assert note["range"]["start"] == {"line": 2, "character": spot["character"] + 2}


def test_a_mistake_in_a_used_file_is_shown_where_it_is_used(editor: Client, path: Path) -> None:
    (path.parent / "own.piece").write_text("template strip\n    points\n        a  at 0\n")
    (note,) = editor.open(path, PATTERN.replace("bands.piece", "own.piece"))
    assert note["message"].startswith("own.piece:3:") and note["range"]["start"]["line"] == 3
    (path.parent / "own.piece").write_text("template strip\n    points\n        a  at 0, 0\n")
    editor.tell("textDocument/didSave", {"textDocument": {"uri": path.as_uri()}})
    assert editor.diagnostics(path.as_uri()) == []


def test_a_file_of_templates_is_looked_at_by_itself(editor: Client, tmp_path: Path) -> None:
    path = tmp_path / "strips.piece"
    assert editor.open(path, STRIP.format("width")) == []
    (note,) = editor.change(path, STRIP.format("20 deg"))
    assert note["message"].startswith("`20 deg` is an angle")


@pytest.mark.parametrize(
    ("words", "into", "parts"),
    [
        (
            "width = bust",
            0,
            ["**width**: value, a length", "14.9 cm (5 7/8 in) in size L", "width = bust_girth / 8 + room"],
        ),
        (
            "end   from",
            1,
            ["**end**: point", "- front: 14.9 cm across, 11 cm down", "- back: 14.9 cm across, 10 cm down"],
        ),
        ("lower   end", 0, ["**lower**: edge", "long, from 14.9 cm across", "curve leaving square to flank"]),
        (
            "bust_girth /",
            3,
            ["**bust_girth**: body measure", "103 cm (40 9/16 in)", "around the fullest part", "5.3.4"],
        ),
        ("shoulder_slope", 3, ["20 deg in size L"]),
        ("drop down", 0, ["**drop**: input, a length", "how far the top lies below", "- front: 2 cm", "- back: 1 cm"]),
        ("pointy 3 cm", 0, ["**pointy**: option of a style"]),
        ("from nape", 0, ["from POINT: LENGTH DIRECTION", "A point by one or more steps from another."]),
        ("square to flank", 0, ["square to EDGE"]),
        ("join\n", 0, ["Which edges are sewn to which."]),
        ("2 cm to 12", 0, ["2 cm (13/16 in)"]),
        ("front is half", 12, ["**half**: template", "`drop`: a length = 1 cm"]),
    ],
)
def test_hovering_says_what_a_word_means(editor: Client, path: Path, words: str, into: int, parts: list[str]) -> None:
    editor.open(path, PATTERN)
    said = editor.ask("textDocument/hover", editor.at(path, PATTERN, words, into))
    assert said["contents"]["kind"] == "markdown"
    assert all(part in said["contents"]["value"] for part in parts), said["contents"]["value"]


def test_hovering_over_words_for_people_says_nothing(editor: Client, path: Path) -> None:
    editor.open(path, PATTERN)
    for words in ("from side to side", "two ends", '"Tab"'):
        assert editor.ask("textDocument/hover", editor.at(path, PATTERN, words, 1)) is None


def test_a_file_that_cannot_be_read_keeps_its_last_figures(editor: Client, path: Path) -> None:
    editor.open(path, PATTERN)
    broken = PATTERN.replace("width = bust_girth / 8 + room", "width = bust_girth / / room").replace(
        "low   from", "low  ro"
    )
    assert len(editor.change(path, broken)) == 2
    for words, part in (
        ("width across", "14.9 cm"),
        ("width = ", "14.9 cm"),
        ('room   "', "2 cm"),
        ("top: depth", "point"),
    ):
        said = editor.ask("textDocument/hover", editor.at(path, broken, words))
        assert part in said["contents"]["value"], words
    place = editor.ask("textDocument/definition", editor.at(path, broken, 'room   "'))
    assert place["range"]["start"] == {"line": 14, "character": 4}


@pytest.mark.parametrize(
    ("line", "wanted", "unwanted"),
    [
        ("        end   from |", {"nape", "side", "front"}, {"depth", "bust_girth", "across"}),
        ("        end   from side: |", {"nose", "depth", "bust_girth", "length"}, {"flanks", "piece"}),
        ("        end   |", {"from", "on", "where", "by"}, {"nape", "depth"}),
        ("        end   from side: no|", {"nose"}, {"flanks"}),
        ("        end   on fl|", {"flank"}, {"depth"}),
    ],
)
def test_what_may_stand_at_a_place(editor: Client, path: Path, line: str, wanted: set[str], unwanted: set[str]) -> None:
    text = PATTERN.replace("        end   from side: nose down", line.replace("|", ""))
    editor.open(path, text)
    found = editor.ask("textDocument/completion", editor.at(path, text, line.replace("|", ""), len(line) - 1))
    labels = {item["label"] for item in found}
    assert wanted <= labels and not unwanted & labels
    assert all(item["detail"] for item in found)


def test_a_join_is_offered_edges_alone(editor: Client, path: Path) -> None:
    text = PATTERN + "\njoin\n    seam  front.\n"
    editor.open(path, text)
    found = editor.ask("textDocument/completion", editor.at(path, text, "seam  front.", len("seam  front.")))
    labels = {item["label"] for item in found}
    assert "flank" in labels and not labels & {"nape", "side", "depth"}


def test_going_to_a_definition(editor: Client, path: Path) -> None:
    editor.open(path, PATTERN)
    place = editor.ask("textDocument/definition", editor.at(path, PATTERN, "front.flank", 7))
    assert place["uri"] == path.as_uri()
    assert PATTERN.split("\n")[place["range"]["start"]["line"]].strip().startswith("flank   high")
    text = PATTERN + "\npiece band is folded_band\n    opening = 20 cm\n    cut 1\n"
    editor.change(path, text)
    place = editor.ask("textDocument/definition", editor.at(path, text, "is folded_band", 4))
    assert place["uri"].endswith("/bands.piece") and place["range"]["start"]["character"] == len("template ")


def test_finding_every_use(editor: Client, path: Path) -> None:
    editor.open(path, PATTERN)
    asked = editor.at(path, PATTERN, "flank   high")
    found = editor.ask("textDocument/references", {**asked, "context": {"includeDeclaration": False}})
    lines = [PATTERN.split("\n")[place["range"]["start"]["line"]].strip() for place in found]
    assert lines == ["lower   end to low    curve leaving square to flank", *["flanks  front.flank to back.flank"] * 2]


def test_renaming(editor: Client, path: Path) -> None:
    editor.open(path, PATTERN)
    asked = editor.at(path, PATTERN, "flank   high", 2)
    span = editor.ask("textDocument/prepareRename", asked)
    assert span["end"]["character"] - span["start"]["character"] == len("flank")
    edit = editor.ask("textDocument/rename", {**asked, "newName": "long_side"})
    after = applied(PATTERN, edit["changes"][path.as_uri()])
    assert after == PATTERN.replace("flank ", "long_side ").replace(".flank", ".long_side").replace(
        "to flank", "to long_side"
    )
    for name, reason in (
        ("across", "a word of the language"),
        ("lower", "another meaning"),
        ("2nd", "cannot be a name"),
    ):
        with pytest.raises(RuntimeError, match=reason):
            editor.ask("textDocument/rename", {**asked, "newName": name})
    with pytest.raises(RuntimeError, match="fixed"):
        editor.ask("textDocument/prepareRename", editor.at(path, PATTERN, "bust_girth"))


def test_laying_out(editor: Client, path: Path) -> None:
    messy = PATTERN.replace("    room  = 2 cm", "    room=2cm").replace("\n\nbody", "\nbody")
    editor.open(path, messy)
    asked = {"textDocument": {"uri": path.as_uri()}, "options": {"tabSize": 4, "insertSpaces": True}}
    edits = editor.ask("textDocument/formatting", asked)
    assert applied(messy, edits) == tidy(Source("a", messy))
    left = [line for line in messy.split("\n") if line not in tidy(Source("a", messy)).split("\n")]
    assert {messy.split("\n")[edit["range"]["start"]["line"]] for edit in edits} <= {*left, "", "body"}
    at = messy.split("\n").index("    room=2cm")
    one = {"start": {"line": at, "character": 0}, "end": {"line": at, "character": 5}}
    (edit,) = editor.ask("textDocument/rangeFormatting", {**asked, "range": one})
    assert applied(messy, [edit]) == messy.replace("room=2cm", "room  = 2 cm")
    editor.change(path, applied(messy, edits))
    assert editor.ask("textDocument/formatting", asked) == []
    editor.change(path, "let\n    a = = 1 cm\n")
    assert editor.ask("textDocument/formatting", asked) == []
    editor.change(path, "let\r\n  a=1cm\r\n")
    assert applied("let\n  a=1cm\n", editor.ask("textDocument/formatting", asked)) == "let\n    a = 1 cm\n"


def test_listing_the_names(editor: Client, path: Path) -> None:
    editor.open(path, PATTERN)
    found = editor.ask("textDocument/documentSymbol", {"textDocument": {"uri": path.as_uri()}})
    names = [item["name"] for item in found]
    assert names == ["tab", "depth", "shape", "room", "width", "nose", "half", "front", "back", "flanks", "wide"]
    half = next(item for item in found if item["name"] == "half")
    assert [child["name"] for child in half["children"]][:3] == ["drop", "top", "nape"]
    assert half["children"][1]["detail"] == "point"


def test_a_closed_file_has_no_mistakes(editor: Client, path: Path) -> None:
    assert editor.open(path, "let\n    a = = 1 cm\n")
    editor.tell("textDocument/didClose", {"textDocument": {"uri": path.as_uri()}})
    assert editor.diagnostics(path.as_uri()) == []
