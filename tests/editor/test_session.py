"""Several files open at once, texts of every sort, and what a drawing tells, asked of the server itself."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.editor.client import Client, applied
from tests.editor.pattern import PATTERN

OWN = PATTERN.replace('"bands.piece"', '"own.piece"')
STRIP = 'template strip "A strip."\n    points\n        a  at 0, {}\n'


@pytest.fixture
def editor() -> Iterator[Client]:
    yield from _at_work()


@pytest.fixture(scope="module")
def one_editor() -> Iterator[Client]:
    """For files that have nothing to do with one another."""
    yield from _at_work()


def _at_work() -> Iterator[Client]:
    client = Client()
    yield client
    assert client.close() == 0


def test_a_pattern_follows_a_file_that_is_typed_and_not_saved(editor: Client, tmp_path: Path) -> None:
    tab, own = tmp_path / "tab.piece", tmp_path / "own.piece"
    own.write_text(STRIP.format("0"))
    assert editor.open(tab, OWN) == []
    editor.open(own, STRIP.format("0"))
    editor.change(own, STRIP.format("= 0"))
    (note,) = editor.diagnostics(tab.as_uri())
    assert note["message"].startswith("own.piece:3:") and note["range"]["start"] == {"line": 3, "character": 15}
    editor.change(own, STRIP.format("1 cm"))
    assert editor.diagnostics(tab.as_uri()) == []
    editor.change(own, STRIP.format("= 1 cm"))
    assert len(editor.diagnostics(tab.as_uri())) == 1
    editor.close_file(own)  # what is on disk counts again
    assert editor.diagnostics(tab.as_uri()) == []


def test_a_pattern_follows_the_one_that_it_varies(editor: Client, tmp_path: Path) -> None:
    base, other = tmp_path / "tab.piece", tmp_path / "other.piece"
    base.write_text(PATTERN)
    assert editor.open(base, PATTERN) == []
    assert editor.open(other, 'pattern other from "tab.piece"\n\nlet\n    more = room * 2\n') == []
    editor.change(base, PATTERN.replace("room", "space"))
    (note,) = editor.diagnostics(other.as_uri())
    assert note["message"].startswith("nothing here is called `room`")


def test_a_file_that_goes_away_and_comes_back(editor: Client, tmp_path: Path) -> None:
    tab, own = tmp_path / "tab.piece", tmp_path / "own.piece"
    own.write_text(STRIP.format("0"))
    assert editor.open(tab, OWN) == []
    changed = {"changes": [{"uri": own.as_uri(), "type": 3}]}
    own.unlink()
    editor.tell("workspace/didChangeWatchedFiles", changed)
    (note,) = editor.diagnostics(tab.as_uri())
    assert note["message"].startswith("there is no file `own.piece` beside this one")
    own.write_text(STRIP.format("0"))
    editor.tell("workspace/didChangeWatchedFiles", changed)
    assert editor.diagnostics(tab.as_uri()) == []


def test_files_of_one_name_in_two_folders_are_kept_apart(editor: Client, tmp_path: Path) -> None:
    one, two = tmp_path / "one", tmp_path / "two"
    for place, own in ((one, "0"), (two, "= 0")):
        place.mkdir()
        (place / "own.piece").write_text(STRIP.format(own))
    assert editor.open(one / "tab.piece", OWN) == []
    assert len(editor.open(two / "tab.piece", OWN)) == 1
    editor.open(one / "own.piece", STRIP.format("0"))
    editor.change(one / "own.piece", STRIP.format("= 0"))
    assert len(editor.diagnostics((one / "tab.piece").as_uri())) == 1


def test_a_file_that_was_never_saved_is_looked_at(editor: Client) -> None:
    uri = "untitled:Untitled-1"
    (note,) = editor.open_at(uri, PATTERN.replace("/ 8", "/ / 8"))
    assert note["range"]["start"]["line"] == 15
    there = {"textDocument": {"uri": uri}, "position": {"line": 20, "character": 10}}
    assert editor.ask("textDocument/hover", there)["contents"]["value"]


def test_a_file_that_is_not_open_is_no_fault(editor: Client, tmp_path: Path) -> None:
    there = {"textDocument": {"uri": (tmp_path / "a.piece").as_uri()}, "position": {"line": 0, "character": 0}}
    with pytest.raises(RuntimeError, match="not open"):
        editor.ask("textDocument/hover", there)


TEXTS = {
    "blank": "",
    "one blank row": "\n",
    "blanks": "  \n\t\n",
    "a comment": "# \N{SPOOL OF THREAD}",
    "windows": 'pattern tab\r\n    title "Tab"\r\n\r\nlet\r\n    a = = 1 cm\r\n',
    "old": 'pattern tab\r    title "Tab"\rlet\r    a = = 1 cm\r',
    "letters of two units": 'pattern tab\n    title "\N{SPOOL OF THREAD}\N{SPOOL OF THREAD}" x\n',
    "letters of two bytes": 'let\n    gr\u00f6\u00dfe = 1 cm\n    a = "\u00e4" "\N{SPOOL OF THREAD}"\n',
    "a row separator": 'pattern tab\n    title "a\u2028b" x\n    maker = = 2\n',
    "a form feed": 'pattern tab\n    title "a\x0cb"\n    maker = = 2\n',
    "a mark at the start": '\ufeffpattern tab\n    title "Tab"\n',
    "no end of the last row": "pattern",
}


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS.keys())
def test_every_place_that_is_shown_lies_in_the_text(one_editor: Client, tmp_path: Path, text: str) -> None:
    path = tmp_path / "odd.piece"
    found = one_editor.open(path, text)
    rows = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    assert found or text.startswith("# ")
    for note in found:
        start, end = note["range"]["start"], note["range"]["end"]
        assert (start["line"], start["character"]) <= (end["line"], end["character"])
        for place in (start, end):
            assert place["line"] < len(rows)
            assert place["character"] <= len(rows[place["line"]].encode("utf-16-le")) // 2


def test_letters_are_typed_behind_rows_that_only_some_programs_part(editor: Client, tmp_path: Path) -> None:
    """A separator within a text is no end of a row in the protocol."""
    path = tmp_path / "odd.piece"
    text = PATTERN.replace('"Tab"', '"Tab\u2028\x0b"')
    editor.open(path, text)
    line = text.split("\n").index("    room  = 2 cm")
    spot = {"line": line, "character": len("    room  = 2 cm")}
    found = editor.edit(path, {"range": {"start": spot, "end": spot}, "text": " kg"})
    assert {note["range"]["start"]["line"] for note in found} >= {line}


def late(editor: Client, path: Path) -> list[dict[str, Any]]:
    """What the drawing adds, once it is there."""
    return editor.diagnostics(path.as_uri())


CHARTED = PATTERN.replace("    allowance", '    chart      "women.csv"\n    allowance')
BENT = CHARTED.replace("curve leaving square to flank", "curve")


def test_what_the_drawing_tells_comes_once_the_typing_stops(editor: Client, tmp_path: Path) -> None:
    path = tmp_path / "tab.piece"
    assert editor.open(path, BENT) == []
    found = late(editor, path)
    assert any("is not square to the fold" in note["message"] for note in found)
    rows = BENT.split("\n")
    place = next(note["range"] for note in found if "is not square" in note["message"])
    assert rows[place["start"]["line"]].strip().startswith("lower") and place["end"]["line"] == place["start"]["line"]
    spot = {"line": 0, "character": 0}
    after = editor.edit(path, {"range": {"start": spot, "end": spot}, "text": "# more\n"})
    moved = next(note["range"] for note in after if "is not square" in note["message"])
    assert moved["start"]["line"] == place["start"]["line"] + 1, "what was told stays where its line is"
    mended = editor.change(path, CHARTED)
    assert not any("is not square" in note["message"] for note in mended)


def test_a_place_that_is_mended_has_the_fix_that_is_written(editor: Client, tmp_path: Path) -> None:
    path = tmp_path / "tab.piece"
    editor.open(path, BENT)
    found = [note for note in late(editor, path) if "is not square" in note["message"]]
    place = {"textDocument": {"uri": path.as_uri()}, "range": found[0]["range"], "context": {"diagnostics": found}}
    actions = editor.ask("textDocument/codeAction", place)
    after = [applied(BENT, action["edit"]["changes"][path.as_uri()]) for action in actions]
    assert any("curve leaving square to centre" in text or "arriving square to centre" in text for text in after)


def test_figures_and_forms_are_shown() -> None:
    editor = Client({"size": "S"})
    path = Path(__file__).parent / "tab.piece"
    editor.open(path, PATTERN)
    rows = {"start": {"line": 0, "character": 0}, "end": {"line": 99, "character": 0}}
    found = editor.ask("textDocument/inlayHint", {"textDocument": {"uri": path.as_uri()}, "range": rows})
    width = next(hint for hint in found if hint["position"]["line"] == 15)
    assert width["label"] == "= 12.8 cm" and "size S" in width["tooltip"]
    assert width["position"]["character"] == len(PATTERN.split("\n")[15])
    asked = editor.at(path, PATTERN, "from side: nose", len("from side: "))
    told = editor.ask("textDocument/signatureHelp", asked)
    (one,) = told["signatures"]
    start, end = one["parameters"][told["activeParameter"]]["label"]
    assert one["label"][start:end] == "LENGTH" and one["documentation"]
    editor.tell("workspace/didChangeConfiguration", {"settings": {"plainseam": {"size": "M", "tidy": True}}})
    found = editor.ask("textDocument/inlayHint", {"textDocument": {"uri": path.as_uri()}, "range": rows})
    assert next(hint for hint in found if hint["position"]["line"] == 15)["label"] == "= 13.8 cm"
    editor.change(path, PATTERN.replace("room  = 2 cm", "room=2cm"))
    saving = {"textDocument": {"uri": path.as_uri()}, "reason": 1}
    assert editor.ask("textDocument/willSaveWaitUntil", saving)
    assert editor.close() == 0
