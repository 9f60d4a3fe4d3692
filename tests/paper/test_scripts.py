"""Words in letters that the carried font lacks: in order, in their direction, measured, drawn, told when missing."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen

from draft.base.notes import Severity
from draft.pack.files_on_pages import paged_sheets
from draft.pack.letters import letters_missing
from draft.pack.printed_files import Printing
from draft.paper.booklet.code import code
from draft.paper.booklet.set_blocks import paragraph
from draft.paper.drawing import font, scripts, system_fonts, unseen
from draft.paper.drawing.direction import as_paragraph
from draft.paper.drawing.drawing import Label
from draft.paper.drawing.flow import Type
from draft.paper.drawing.ink import page_description
from draft.paper.drawing.scripts import BOX, Run, drawn, visual_runs
from draft.paper.drawing.wording import Wording
from draft.paper.pages.paged_sheet import paged_pdf
from draft.plan.advice import LONGEST_LINK
from tests.asking import bundled
from tests.paper.made_up import make_garment

pytest.importorskip("uharfbuzz")

_WIDTHS = {"א": 600, "ב": 500, "ג": 700, "漢": 1000}
"""The letters of the font that these tests make, and how wide each is, thousandths of an em."""


@pytest.fixture
def other(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """The only font beside the carried one: each of its letters is a bar as wide as the letter."""
    names = {letter: f"uni{ord(letter):04X}" for letter in _WIDTHS}
    glyphs = {".notdef": TTGlyphPen(None).glyph()}
    for letter, name in names.items():
        pen = TTGlyphPen(None)
        pen.moveTo((0, 0))
        for corner in ((0, 500), (_WIDTHS[letter], 500), (_WIDTHS[letter], 0)):
            pen.lineTo(corner)
        pen.closePath()
        glyphs[name] = pen.glyph()
    made = FontBuilder(1000, isTTF=True)
    made.setupGlyphOrder(list(glyphs))
    made.setupCharacterMap({ord(letter): name for letter, name in names.items()})
    made.setupGlyf(glyphs)
    made.setupHorizontalMetrics({".notdef": (500, 0)} | {names[k]: (wide, 0) for k, wide in _WIDTHS.items()})
    made.setupHorizontalHeader(ascent=800, descent=-200)
    made.setupPost()
    made.save(tmp_path / "bars.ttf")
    monkeypatch.setenv(system_fonts.CHOSEN, str(tmp_path))
    monkeypatch.setattr(system_fonts, "_places", list)
    _forget()
    yield str(tmp_path / "bars.ttf")
    _forget()


def _forget() -> None:
    """What was found with the fonts of another test."""
    for kept in (system_fonts._files, system_fonts._found, system_fonts._letters, font._thousandths, scripts.drawn):
        kept.cache_clear()


def runs(text: str) -> list[tuple[str, str]]:
    return [(run.text, Path(run.file).name) for run in visual_runs(text, font.letters())]


def test_each_script_stands_in_its_own_direction(other: str) -> None:
    assert runs("Top") == [("Top", "")]
    assert runs("Top אב") == [("Top ", ""), ("אב", "bars.ttf")]
    assert runs("אב Top") == [("Top", ""), (" ", ""), ("אב", "bars.ttf")]
    assert [text.strip() for text, _ in runs("אב 12 ג") if text.strip()] == ["ג", "12", "אב"]


def test_signs_between_letters_read_from_the_right_stand_and_look_so(other: str) -> None:
    on_paper = "".join(text if not Path(file).name else text[::-1] for text, file in runs("אב (ג), א"))
    assert on_paper == "א ,(ג) בא"  # the carried font's signs are turned, what is shaped turns by itself


def test_a_line_from_the_right_is_drawn_from_the_left(other: str) -> None:
    found = drawn(Run("אב", other, rightward=False))
    starts = [float(outline[..., 0].min()) for outline in found.outlines]
    widths = [float(np.ptp(outline[..., 0])) for outline in found.outlines]
    assert np.allclose(widths, [0.5, 0.6]) and np.allclose(starts, [0.0, 0.5]) and found.width == pytest.approx(1.1)


def test_words_are_as_wide_as_their_runs(other: str) -> None:
    latin = font.text_width("Top ", 10.0)
    assert font.text_width("Top 漢", 10.0) == pytest.approx(latin + 10.0)
    assert font.wrapped("漢 漢 漢", 10.0, 24.0)[0] == "漢 漢"


def test_a_script_without_blanks_is_parted_between_letters(other: str) -> None:
    assert font.wrapped("漢漢漢漢漢", 10.0, 25.0) == ["漢漢", "漢漢", "漢"]
    assert font.wrapped("漢漢、漢 Top漢", 10.0, 31.0) == ["漢漢、", "漢", "Top漢"]
    assert font.wrapped("漢漢、漢", 10.0, 25.0)[:2] == ["漢", "漢、"]  # no line begins with that sign
    assert "".join(font.wrapped("漢漢。漢漢", 10.0, 10.0)) == "漢漢。漢漢"


def test_what_is_drawn_is_told_over_the_outlines(other: str) -> None:
    page = page_description(100.0, 50.0, [Label("Top אב", 10.0, 20.0, 5.0, "middle", 30.0)])
    said = page.content.decode("ascii")
    found = [said.index(f"<{unseen.codes(letter)}> Tj") for letter in "בא"]
    assert found == sorted(found) and said.count("3 Tr") == said.count("0 Tr") == 2 and "BDC" not in said
    assert page.letters == {"regular": frozenset("Top "), "unseen": frozenset("אב")}
    level = page_description(100.0, 50.0, [Label("漢漢", 10.0, 20.0, 5.0)]).content.decode("ascii")
    assert f"<{unseen.codes('漢漢')}> Tj" in level and " re" not in level


def test_a_letter_without_a_code_is_told_beside_a_blank(other: str) -> None:
    said = page_description(100.0, 50.0, [Label("\U00020000", 10.0, 20.0, 5.0)]).content.decode("ascii")
    assert f"ActualText <feff{chr(0x20000).encode('utf-16-be').hex()}>" in said and said.count("3 Tr") == 1


def test_a_letter_that_no_font_has_is_an_empty_box_and_told(other: str) -> None:
    assert runs("a한") == [("a", ""), ("한", BOX)]
    box = drawn(Run("한", BOX))
    areas = [float(np.prod(np.ptp(outline[:, 0], axis=0))) for outline in box.outlines]
    assert len(areas) == 2 and 0.6 < areas[1] / areas[0] < 0.9  # a frame, and nothing black
    drafted = bundled("marlpit", "M")
    assert letters_missing(drafted, Wording()) == []
    odd = replace(drafted, garment=replace(drafted.garment, title="한글 漢"))
    (note,) = letters_missing(odd, Wording())
    assert note.severity is Severity.CAUTION and "글 한" in note.message and "漢" not in note.message
    assert system_fonts.CHOSEN in note.hints[0]


def test_without_the_library_that_is_told(other: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(system_fonts, "can_shape", lambda: False)
    _forget()
    drafted = bundled("marlpit", "M")
    (note,) = letters_missing(replace(drafted, garment=replace(drafted.garment, title="אב")), Wording())
    assert "uharfbuzz" in note.hints[0] and runs("אב") == [("אב", BOX)]


def test_a_pattern_with_such_a_title_prints(other: str) -> None:
    garment = replace(make_garment(2), title="Top אב", maker="漢")
    (sheet,) = paged_sheets(garment, Printing(("a4",)))
    with pikepdf.open(io.BytesIO(paged_pdf(sheet))) as pdf:
        assert pdf.check_pdf_syntax() == []
        fonts = {name: one for page in pdf.pages for form in page.Resources.XObject.values()
                 for name, one in form.Resources.Font.items()}  # fmt: skip
        blank = fonts["/unseen"]
        assert "<05d0> <05d0>" in blank.ToUnicode.read_bytes().decode("ascii")
        glyphs = blank.DescendantFonts[0].CIDToGIDMap.read_bytes()
        assert glyphs[2 * 0x5D0 : 2 * 0x5D0 + 2] == b"\x00\x01"  # never the glyph of what a font lacks
        assert len(blank.DescendantFonts[0].FontDescriptor.FontFile2.read_bytes()) > 0
        assert str(pdf.docinfo.get("/Title", "")).startswith("Top אב")


def test_the_longest_link_still_has_a_code() -> None:
    link = "https://saltern-lane.example/"
    assert code(link + "a" * (LONGEST_LINK - len(link))) is not None
    assert code(link + "a" * (LONGEST_LINK - len(link) + 1)) is None


def test_a_paragraph_read_from_the_right_ends_at_its_right_side(other: str) -> None:
    setting = Type(10.0)
    block = paragraph("אב גא ב" * 3 + " then words of ours that take a line and more", 40.0, setting)
    labels = [item for item in block.items if isinstance(item, Label)]
    assert len(labels) > 2 and {(one.x, one.anchor) for one in labels} == {(40.0, "end")}
    ours = paragraph("words of ours אב", 40.0, setting)
    assert {(one.x, one.anchor) for one in ours.items if isinstance(one, Label)} == {(0.0, "start")}


def test_each_line_of_it_is_read_from_there(other: str) -> None:
    """A line that begins with our letters still runs to the left: what comes first stands rightmost."""
    known = font.letters()
    (_, second) = as_paragraph(["אבג", "top אב"])
    assert [run.text.strip() for run in visual_runs(second, known) if run.text.strip()] == ["אב", "top"]
    assert [run.text.strip() for run in visual_runs("top אב", known) if run.text.strip()] == ["top", "אב"]


def test_bold_letters_of_another_font_have_a_line_round_them(other: str) -> None:
    def operators(bold: bool) -> list[bytes]:
        return page_description(40.0, 40.0, [Label("א", 5.0, 35.0, 30.0, bold=bold)]).content.split()

    assert b"B" in operators(bold=True) and b"B" not in operators(bold=False)
