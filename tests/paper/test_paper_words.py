"""Printed words and the font that they are set in."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest
from fontTools.cffLib import CFFFontSet
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.naming import plain
from draft.base.notes import Problems
from draft.bodies.measures import MEASURES
from draft.garment.garment import Garment
from draft.paper.drawing import font
from draft.paper.drawing.spoken_languages import languages, own_words, usual_units
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.plan.library import Texts, bundled_patterns, find, read_texts
from tests.asking import bundled

FACES = {False: "PlainseamSans-Regular.otf", True: "PlainseamSans-Bold.otf"}
FOLDER = font._FOLDER


@pytest.mark.parametrize(
    ("names", "expected"),
    [(("M",), "Size M"), (("2XL",), "Size 2XL"), (("38",), "Size 38"), (("S/M",), "Size S/M"), (("Ines",), "Ines"),
     (("XS", "S", "M"), "Sizes XS – M")],
)  # fmt: skip
def test_sizes_in_words(names: tuple[str, ...], expected: str) -> None:
    assert ENGLISH.sizes(names) == expected


def test_allowances_are_read_off_the_edges(garment: Garment) -> None:
    front, band = garment.piece("front"), garment.piece("neckband")
    assert ENGLISH.allowances(front) == ("1/2 in (1.3 cm) seam allowance included", "hem 1 in (2.5 cm)")
    assert ENGLISH.allowances(band) == ("1/2 in (1.3 cm) seam allowance included",)
    none = replace(band, edges=tuple(replace(edge, allowance=0.0) for edge in band.edges))
    assert ENGLISH.allowances(none) == ("no seam allowance included",)
    mixed = replace(front, edges=tuple(replace(e, allowance=0.0) if e.name == "cuff" else e for e in front.edges))
    assert ENGLISH.allowances(mixed)[1:] == ("hem 1 in (2.5 cm)", "without allowance: cuff")


def test_cut_words(garment: Garment) -> None:
    assert ENGLISH.cut(garment.piece("back")) == "Cut 1 on fold"
    assert ENGLISH.cut(garment.piece("sleeve_band")) == "Cut 2"
    band = garment.piece("sleeve_band")
    assert ENGLISH.cut(replace(band, cut_as="as a pair")) == "Cut 2 as a mirrored pair"
    assert ENGLISH.cut(replace(band, cut=4, cut_as="as a pair")) == "Cut 4 as mirrored pairs"
    assert ENGLISH.cut(replace(band, cut=1, cut_as="right side up")) == "Cut 1, right side up"


def test_a_second_cloth_keeps_its_capital_where_nouns_have_one() -> None:
    band = bundled("ropewalk", "M").garment.piece("waistband")
    assert ENGLISH.cut(band) == "Shell: cut 1; interfacing: cut 1, seam allowances cut off"
    german = Wording("de", own={"shell": "Oberstoff"})
    assert german.cut(band) == "Oberstoff: 1 × zuschneiden; Einlage: 1 × zuschneiden, Nahtzugaben abgeschnitten"


@pytest.mark.parametrize("bold", [False, True])
def test_widths_are_those_of_the_carried_font(bold: bool) -> None:
    face = TTFont(FOLDER / FACES[bold])
    metrics, scale = face["hmtx"].metrics, 1000 / face["head"].unitsPerEm
    for code, glyph in face.getBestCmap().items():
        assert abs(font.text_width(chr(code), 1000, bold) - metrics[glyph][0] * scale) <= 0.5
        assert font.glyph(chr(code)) == face.getGlyphID(glyph)
    assert face["head"].unitsPerEm == 1000
    assert face["name"].getDebugName(1) == font.FAMILY
    assert face["OS/2"].sCapHeight / face["head"].unitsPerEm == pytest.approx(font.CAP_HEIGHT, abs=0.001)


def test_the_font_holds_every_word_that_is_printed_and_carries_its_licence() -> None:
    known = set(TTFont(FOLDER / FACES[False]).getBestCmap())
    printed = [text for code in languages() for text in Wording(code)._all.values()]
    printed += ["0123456789/ A1 ←↑→↓½¼¾⅛⅜⅝⅞×°…", "Größe Łódź Ηλέκτρα Инес"]
    assert {ord(letter) for text in printed for letter in text if letter.isprintable()} <= known
    licence = (FOLDER / "OFL.txt").read_text("utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence and "The Inter Project Authors" in licence
    assert all((FOLDER / name).stat().st_size < 60_000 for name in FACES.values())


def test_a_pdf_holds_the_carried_font_and_no_other(pdfs: dict[str, bytes]) -> None:
    with pikepdf.open(io.BytesIO(pdfs["pattern-a4.pdf"])) as pdf:
        names = {str(o.BaseFont) for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and "/BaseFont" in o}
    assert names and all("PlainseamSans" in name for name in names)


def test_a_pdf_holds_the_outlines_of_its_own_letters_alone(pdfs: dict[str, bytes]) -> None:
    whole = CFFFontSet()
    with pikepdf.open(io.BytesIO(pdfs["pattern-a4.pdf"])) as pdf:
        (stream,) = {
            o.FontFile3.objgen: o.FontFile3 for o in pdf.objects
            if isinstance(o, pikepdf.Dictionary) and "/FontFile3" in o and "Regular" in str(o.FontName)
        }.values()  # fmt: skip
        whole.decompile(io.BytesIO(stream.read_bytes()), TTFont())
    drawn = whole[0].CharStrings
    assert whole.fontNames == ["PlainseamSans-Regular"]
    for letter, some in (("a", True), ("S", True), ("Ω", False), ("Ж", False)):
        string = drawn[whole[0].charset[font.glyph(letter)]]
        string.decompile()
        assert (string.program != ["endchar"] * len(string.program)) == some, letter


@given(st.text(min_size=1, max_size=200), st.floats(10, 200))
@settings(max_examples=60, deadline=None)
def test_wrapped_lines_fit_and_lose_no_word(text: str, width: float) -> None:
    lines = font.wrapped(text, 4.0, width)
    assert "".join("".join(lines).split()) == "".join(text.split())
    if max(text) < "\u2e80":  # no script that is written without blanks
        assert " ".join(lines).split() == text.split()
    assert all(font.text_width(line, 4.0) <= width or len(line.split()) == 1 for line in lines)


@given(st.text(max_size=120), st.floats(5, 100))
@settings(max_examples=60, deadline=None)
def test_shortened_words_fit(text: str, width: float) -> None:
    assert font.text_width(font.fitted_text(text, 4.0, width), 4.0) <= max(width, font.text_width("…", 4.0))


OWN = ("names.", "options.", "measures.", "how.", "articles.", "genders.")
"""What other languages have besides: names that patterns use, body measures, whose English is their own, articles."""


@pytest.mark.parametrize("code", [code for code in languages() if code != "en"])
def test_a_language_has_the_same_texts_with_the_same_blanks(code: str) -> None:
    english, other = ENGLISH._all, Wording(code)._all
    assert {key for key in other if not key.startswith(OWN)} == set(english)
    blanks = re.compile(r"\{(\w+)(?::\w+)?\}")
    for key, text in english.items():
        assert set(blanks.findall(text)) == set(blanks.findall(other[key])), key
        assert other[key].strip() == other[key] or text.strip() != text, key
    for kind in ("measures", "how"):
        assert {key.removeprefix(f"{kind}.") for key in other if key.startswith(f"{kind}.")} == set(MEASURES)


@pytest.mark.parametrize(
    ("names", "said"),
    [(["Bund"], "in den Bund, zu dem Bund"), (["Beuteltasche"], "in die Beuteltasche, zu der Beuteltasche"),
     (["Vorderteil"], "in das Vorderteil, zu dem Vorderteil"),
     (["Wimpel"], "in das Teil „Wimpel“, zu dem Teil „Wimpel“"),
     (["Außenseite (Kragen)"], "in die Außenseite (Kragen), zu der Außenseite (Kragen)"),
     (["vorderes Seitenteil"], "in das vordere Seitenteil, zu dem vorderen Seitenteil"),
     (["Bund", "Tasche"], "in den Bund und die Tasche, zu dem Bund und der Tasche")],
)  # fmt: skip
def test_a_thing_is_called_with_the_article_of_its_noun(names: list[str], said: str) -> None:
    called = Wording("de").called(names)
    assert f"in {called:den}, zu {called:dem}" == said
    assert f"{called}" == " und ".join(names) == called


def test_every_form_of_the_article_that_texts_use_is_there() -> None:
    german = Wording("de")._all
    used = {form for text in german.values() for form in re.findall(r"\{\w+:(\w+)\}", text)}
    assert used and all(len(german[f"articles.{form}"].split(", ")) == 3 for form in used)
    assert {text for key, text in german.items() if key.startswith("genders.")} <= {"der", "die", "das"}


def test_each_language_has_its_usual_units() -> None:
    assert usual_units("en") == "both" and usual_units("de") == "cm"
    with pytest.raises(Problems, match="in the language `xx`"):
        usual_units("xx")


def test_english_is_the_first_and_there_is_another() -> None:
    assert "en" in languages() and len(languages()) > 1


def test_lengths_in_one_unit_or_both() -> None:
    said = {units: Wording(units=units).length(12.7) for units in ("both", "in", "cm")}  # type: ignore[arg-type]
    assert said == {"both": "1/2 in (1.3 cm)", "in": "1/2 in", "cm": "1.3 cm"}
    assert Wording("de").length(12.7) == "1/2 Zoll (1,3 cm)"
    assert ENGLISH.percent(0.85) == "85 %" and ENGLISH.listed(["a", "b", "c"]) == "a, b and c"


@pytest.mark.parametrize(
    ("language", "units", "said"), [("xx", "both", "in the language `xx`"), ("en", "ell", "`ell`")]
)
def test_a_language_or_units_that_there_are_none_of_are_told(language: str, units: str, said: str) -> None:
    with pytest.raises(Problems) as caught:
        Wording(language, units)  # type: ignore[arg-type]
    assert said in caught.value.notes[0].message


def test_a_pattern_speaks_in_the_words_of_the_file_beside_it(tmp_path: Path) -> None:
    pattern = tmp_path / "top.piece"
    assert own_words(pattern, "de") == {}
    (tmp_path / "top.de.toml").write_text('"sleeve band" = "Bund am Ärmel"\n"At the {waist}" = "Um 100 %"\n', "utf-8")
    wording = Wording("de", own=own_words(pattern, "de"))
    assert wording.named("sleeve_band") == "Bund am Ärmel" and wording.named("front") == "Vorderteil"
    assert wording.named("At the {waist}") == "Um 100 %" and wording.named("gusset") == "gusset"


@pytest.mark.parametrize("text", ["not toml", '"a" = 3\n', "[a]\n"])
def test_a_file_of_translations_that_cannot_be_read_is_told(tmp_path: Path, text: str) -> None:
    (tmp_path / "top.de.toml").write_text(text, "utf-8")
    with pytest.raises(Problems) as caught:
        own_words(tmp_path / "top.piece", "de")
    assert caught.value.notes[0].message


@pytest.mark.parametrize(
    ("name", "form", "said"),
    [
        ("Beleg", "des", "des Belegs"),
        ("Abschluss", "des", "des Abschlusses"),
        ("Passe", "des", "der Passe"),
        ("rechter Beleg", "den", "den rechten Beleg"),
        ("rechtes Vorderteil", "den", "das rechte Vorderteil"),
        ("linke Passe", "dem", "der linken Passe"),
        ("linkes Vorderteil", "des", "des linken Vorderteils"),
        ("Einfassung des Schlitzes", "den", "die Einfassung des Schlitzes"),
        ("facing", "des", "des Teils „facing“"),
    ],
)
def test_german_nouns_and_the_adjectives_before_them_bend(name: str, form: str, said: str) -> None:
    assert format(Wording("de").called([name]), form) == said


@pytest.mark.parametrize("name", bundled_patterns())
def test_every_seam_of_a_bundled_pattern_has_a_name_in_every_language(name: str) -> None:
    """In all branches, also those of styles that nobody chose: a step is told by the name of its seam."""
    for code in (code for code in languages() if code != "en"):
        path = find(name)
        wording = replace(Wording(code), own=own_words(path, code))
        texts: Texts | None = read_texts(path)
        while texts:
            names = [plain(join.name) for join in texts.main.joins]
            assert not [one for one in names if one not in wording.own and f"names.{one}" not in wording._all]
            texts = texts.base
