"""A text read block by block is the text read as a whole, also while it is typed."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.base.notes import Note, Source
from draft.language import by_blocks
from draft.language.by_blocks import Blocks, blocks
from draft.language.reader import Parsed, parsed_partly, read_partly
from tests.project.checkout import ROOT

FILES = sorted(path for folder in ("pieces", "tests/good", "tests/bad") for path in (ROOT / folder).glob("*.piece"))


def in_order(notes: list[Note]) -> list[Note]:
    return sorted(notes, key=lambda note: (note.span.start if note.span else -1, note.message))


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_block_by_block_is_as_a_whole(path: Path) -> None:
    source = Source(path.name, path.read_text(encoding="utf-8").replace("\r\n", "\n"))
    whole, notes = read_partly(source)
    file, found = Blocks().read(source)
    assert in_order(found) == in_order(notes)
    assert file == whole and repr(file) == repr(whole)


@pytest.mark.parametrize("step", [19, pytest.param(7, marks=pytest.mark.slow)])
def test_every_letter_typed_gives_the_same(step: int) -> None:
    text = (ROOT / "tests" / "good" / "branches.piece").read_text(encoding="utf-8")
    kept = Blocks()
    for length in range(0, len(text), step):
        source = Source("typed.piece", text[:length])
        whole, notes = read_partly(source)
        file, found = kept.read(source)
        assert in_order(found) == in_order(notes) and file == whole, text[:length][-60:]


def test_what_has_not_changed_is_not_parsed_again(monkeypatch: pytest.MonkeyPatch) -> None:
    read: list[str] = []
    parse = parsed_partly

    def counted(source: Source) -> Parsed:
        read.append(source.text)
        return parse(source)

    monkeypatch.setattr(by_blocks, "parsed_partly", counted)
    text = (ROOT / "pieces" / "marlpit.piece").read_text(encoding="utf-8")
    kept = Blocks()
    kept.read(Source("a", text))
    assert len(read) == len(list(blocks(text))) > 5
    read.clear()
    kept.read(Source("a", text.replace("bust_ease", "bust_eas", 1)))
    assert len(read) == 1
