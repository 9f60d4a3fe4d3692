"""A studio's face on what is printed: every document shows it, a pattern may differ, and a bad mark stops nothing."""

from __future__ import annotations

import io
import json
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pytest
from click.testing import CliRunner

from draft.base.notes import Note, Problems
from draft.command.main import commands
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.planned import plan_for
from draft.drafting.request import Request, Whom
from draft.pack.pack import pack_files
from draft.pack.studio_paper import studio_paper
from tests.studio.withy_bank import withy_bank


def _packed(folder: Path, told: list[Note], **paper: Any) -> dict[str, bytes]:
    drafted = _drafted(folder)
    assert drafted.planned
    usual = studio_paper(drafted.planned.studio)
    return pack_files(drafted, replace(usual, cloth=(), **paper), warn=told.append)


def _drafted(folder: Path) -> Drafted:
    return draft_and_check(Request(str(folder / "gorse.piece"), Whom(sizes=("M",))), whole=True)


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, bytes]:
    told: list[Note] = []
    found = _packed(withy_bank(tmp_path_factory.mktemp("studio")), told, large=("a0",))
    assert not told
    return found


def _words(data: bytes) -> str:
    with pypdfium2.PdfDocument(data) as pdf:
        return " ".join(" ".join(page.get_textpage().get_text_range().split()) for page in pdf)


def _shown(page: pikepdf.Page) -> list[str]:
    return [name for name in page.Resources.get("/XObject", {}) if name.startswith("/F-") or _is_mark(page, name)]


def _is_mark(page: pikepdf.Page, name: str) -> bool:
    """Whether a form is the mark's page: the only one with a matrix or resources of a foreign writer, 120 px wide."""
    box = [float(value) for value in page.Resources.XObject[name].BBox]
    return abs((box[2] - box[0]) - 90.0) < 0.1  # 120 px of 1/96 in (CSS Values 4, 6.2)


def test_a_pack_holds_what_the_studio_says_and_no_more(files: Mapping[str, bytes]) -> None:
    assert set(files) == {"pattern-a4.pdf", "booklet.pdf", "booklet.html", "large/a0.pdf"}


@pytest.mark.parametrize("name", ["pattern-a4.pdf", "booklet.pdf", "large/a0.pdf"])
def test_every_document_shows_the_mark_once_and_says_whose_it_is(files: Mapping[str, bytes], name: str) -> None:
    words = _words(files[name])
    assert "Withy Bank Patterns" in words and "Saltern Lane" not in words
    with pikepdf.open(io.BytesIO(files[name])) as pdf:
        assert [number for number, page in enumerate(pdf.pages) for _ in _shown(page)] == [0]
        with pdf.open_metadata() as xmp:
            assert xmp["dc:creator"] == ["Withy Bank Patterns"] and xmp["dc:publisher"] == {"Withy Bank Patterns"}
            assert xmp["dc:rights"].startswith("Sew as many")
            assert xmp["xmpRights:WebStatement"] == "https://withybank.example"
            assert xmp["xmpRights:UsageTerms"].startswith("The pattern is yours")
    assert "withybank.example" in words


def test_the_cover_has_address_terms_and_colours_beside_the_flat_drawing(files: Mapping[str, bytes]) -> None:
    words = _words(files["booklet.pdf"])
    for said in ("4 Osier Lane, Saltmarsh", "Terms of use", "The pattern is yours", "Gorse top · Withy Bank Patterns"):
        assert said in words
    html = files["booklet.html"].decode()
    assert 'class="mark"><img alt="Withy Bank Patterns" src="data:image/svg+xml;base64,' in html
    assert "h1{color:#1d4f4b;border-color:#2f7d77}" in html
    assert 'aria-label="Gorse top, finished: front and back"' in html
    with pikepdf.open(io.BytesIO(files["booklet.pdf"])) as pdf:
        content = pdf.pages[0].Contents.read_bytes()
    assert b"0.114 0.31 0.294 rg" in content and b"0.184 0.49 0.467 RG" in content  # 1d4f4b and 2f7d77 in parts of 255


def test_another_language_has_the_studios_words_in_it(tmp_path: Path) -> None:
    folder = withy_bank(tmp_path)
    (folder / "studio.de.toml").write_text(
        '"Please send others to our shop." = "Schickt andere bitte in unseren Laden."\n', encoding="utf-8"
    )
    drafted = _drafted(folder)
    assert drafted.planned
    paper = studio_paper(drafted.planned.studio, "de")
    html = pack_files(drafted, replace(paper, cloth=(), holds=("html",)))["booklet.html"].decode()
    assert "Schickt andere bitte in unseren Laden." in html and "Nutzungsbedingungen" in html


def test_a_patterns_own_lines_win_but_not_those_that_it_inherits_from_elsewhere(tmp_path: Path) -> None:
    folder = withy_bank(tmp_path)
    plan = plan_for(Request(str(folder / "gorse.piece"))).plan
    assert (plan.maker, plan.booklet.link) == ("Withy Bank Patterns", "https://withybank.example")
    own = 'pattern broom from "gorse.piece"\n    maker "Ines Hallig"\n\nbooklet\n    licence "Not to be sold."\n'
    (folder / "broom.piece").write_text(own, encoding="utf-8")
    (folder / "heath.piece").write_text('pattern heath from "broom.piece"\n', encoding="utf-8")
    for name in ("broom", "heath"):  # what lies in the same folder is her own
        plan = plan_for(Request(str(folder / f"{name}.piece"))).plan
        assert (plan.maker, plan.booklet.licence) == ("Ines Hallig", "Not to be sold.")
        assert plan.booklet.link == "https://withybank.example"


@pytest.mark.parametrize(
    ("mark", "said"),
    [
        ("<svg", "cannot be read as SVG"),
        ('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>', "holds `script`"),
        ('<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg">&a;</svg>', "cannot be read as SVG"),
        ('<svg xmlns="http://www.w3.org/2000/svg"><image href="file:///etc/passwd"/></svg>', "holds `image`"),
        ('<svg xmlns="http://www.w3.org/2000/svg" width="1e9" height="1e9"><rect/></svg>', "size that can be drawn"),
        ("<svg>" + "<g/>" * 20_001 + "</svg>", "too many for a small picture"),
    ],
    ids=["torn", "script", "entity", "image", "huge", "many"],
)
def test_a_hostile_mark_is_told_and_the_pack_still_comes(tmp_path: Path, mark: str, said: str) -> None:
    folder = withy_bank(tmp_path)
    (folder / "withy.svg").write_text(mark, encoding="utf-8")
    told: list[Note] = []
    files = _packed(folder, told, holds=("html",), large=())
    assert len(told) == 1 and said in told[0].message
    assert told[0].message.startswith("the documents are made without the studio's mark: ")
    assert str(told[0].span) == "studio.toml:2:1"
    assert b"Withy Bank Patterns" in files["booklet.html"] and b'class="mark"' not in files["booklet.html"]


def test_what_is_typed_wins_over_the_studio(tmp_path: Path) -> None:
    folder = withy_bank(tmp_path)
    words = ["--page", "none", "--paper", "none", "--cloth", "none", "--out", str(tmp_path / "pack")]
    ran = CliRunner().invoke(commands, ["pack", str(folder / "gorse.piece"), "--sizes", "M", *words])
    assert ran.exit_code == 0, ran.output
    assert sorted(path.name for path in (tmp_path / "pack").rglob("*.*")) == ["booklet.html", "booklet.pdf"]


@pytest.mark.parametrize(
    ("line", "fact"),
    [
        ('pages = ["a44"]', "`a44` is not a page size"),
        ('large_papers = ["a9"]', "`a9` is not a large paper"),
        ('languages = ["xx"]', "there are no words in the language `xx`"),
    ],
)
def test_paper_and_language_that_cannot_be_had_are_told_with_their_place(tmp_path: Path, line: str, fact: str) -> None:
    (tmp_path / "studio.toml").write_text(f'name = "Withy Bank"\n{line}\n', encoding="utf-8")
    (tmp_path / "gorse.piece").write_text('pattern gorse from "marlpit.piece"\n', encoding="utf-8")
    with pytest.raises(Problems) as caught:
        studio_paper(plan_for(Request(str(tmp_path / "gorse.piece"))).studio)
    assert caught.value.notes[0].message == fact and str(caught.value.notes[0].span) == "studio.toml:2:1"


def test_the_same_studio_makes_the_same_bytes(files: Mapping[str, bytes], tmp_path: Path) -> None:
    again = _packed(withy_bank(tmp_path), [], large=("a0",))
    assert again == files


def test_a_cover_with_much_to_say_keeps_its_foot_on_its_page(tmp_path: Path) -> None:
    """A wide mark, a name of two lines and long terms: the drawing gives way, and no page holds the foot alone."""
    folder = withy_bank(tmp_path)
    (folder / "withy.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 400 30"><rect width="400" height="30"/></svg>', "utf-8"
    )
    terms = [
        " ".join(["The pattern is yours to print as often as you need it."] * 3),
        " ".join(["Please send others to our shop instead of a copy."] * 2),
        "Third paragraph of the terms that goes on for a while, so that the cover has to find room for it somewhere.",
    ]
    twice = "Sew as many as you like for yourself, and up to twenty a year to sell. " * 2
    lines = [
        'name = "The Very Long Named Pattern Cutting Studio of Osier & Withy"',
        'mark = "withy.svg"',
        'address = ["4 Osier Lane", "Saltmarsh", "Near the Old Boathouse", "Third Floor"]',
        'link = "https://withybank.example/shops/patterns/all-of-them/and-more"',
        f'licence = "{twice}Sew as many as you like."',
        f"terms = {json.dumps(terms)}",
        'pack = ["booklet"]',
    ]
    (folder / "studio.toml").write_text("\n".join(lines), encoding="utf-8")
    files = _packed(folder, [])
    with pypdfium2.PdfDocument(files["booklet.pdf"]) as pdf:
        first, second = (" ".join(pdf[k].get_textpage().get_text_range().split()) for k in (0, 1))
    assert "https://withybank.example" in first and "More about this pattern" in first
    assert second.startswith("Your size")
