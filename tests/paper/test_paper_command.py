"""`pack` with its choices of paper, units and language, as it is called."""

from __future__ import annotations

import io
from pathlib import Path

import pikepdf
import pytest
from click.testing import CliRunner, Result

from draft.base.notes import Problems
from draft.command.main import commands
from tests.paper.reading import page_count, text_of


def pack(folder: Path, *more: str) -> Result:
    found = CliRunner().invoke(commands, ["pack", "marlpit", "--sizes", "M", "--out", str(folder), *more])
    if isinstance(found.exception, Problems):
        raise found.exception
    return found


def test_a_pack_for_a_shop_in_german_is_in_centimetres(tmp_path: Path) -> None:
    more = ("--page", "a4", "--paper", "roll-36in,projector", "--assemble", "butt", "--language", "de")
    found = pack(tmp_path, *more, "--cloth", "none")
    assert found.exit_code == 0
    names = {str(path.relative_to(tmp_path)) for path in tmp_path.rglob("*.*")}
    printed = {"booklet.pdf", "flat.svg", "pattern-a4.pdf", "projector.pdf", "large/roll-36in.pdf", "svg/M.svg"}
    assert printed <= names and "pattern-letter.pdf" not in names
    assert "pattern-a4.pdf: " in found.output and "large/roll-36in.pdf: 1 page of 91 x" in found.output
    for name in [name for name in printed if name.endswith(".pdf")]:
        data = (tmp_path / name).read_bytes()
        with pikepdf.open(io.BytesIO(data)) as pdf:
            assert pdf.check_pdf_syntax() == [] and str(pdf.Root.Lang) == "de", name
    guide = text_of((tmp_path / "pattern-a4.pdf").read_bytes(), 0)
    assert "Drucken und zusammensetzen" in guide and "Kante an Kante" in guide
    booklet = (tmp_path / "booklet.pdf").read_bytes()
    said = " ".join(text_of(booklet, page) for page in range(page_count(booklet)))
    assert "Brustumfang" in said and "Zoll" not in said.replace("36 Zoll breite Rolle", "")  # as shops call it
    assert "im Stoffbruch" in (tmp_path / "svg" / "M.svg").read_text("utf-8")


@pytest.mark.parametrize(
    ("more", "fact"),
    [
        (("--page", "10x10mm"), "leaves 0 x 0 mm"),
        (("--page", "letterr"), "is not a page size"),
        (("--paper", "foo"), "is not a large paper"),
        (("--paper", "roll-41cm"), "does not fit on `roll-41cm`"),
        (("--language", "xx"), "in the language `xx`"),
    ],
)
def test_a_choice_that_cannot_be_is_told_and_nothing_written(tmp_path: Path, more: tuple[str, ...], fact: str) -> None:
    with pytest.raises(Problems) as caught:
        pack(tmp_path / "pack", *more)
    assert any(fact in note.message for note in caught.value.notes)
    assert not (tmp_path / "pack").exists()


def test_without_home_paper_there_is_still_a_booklet(tmp_path: Path) -> None:
    assert pack(tmp_path, "--page", "none", "--cloth", "none").exit_code == 0
    assert (tmp_path / "booklet.pdf").exists() and not list(tmp_path.glob("pattern-*"))
