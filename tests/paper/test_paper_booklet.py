"""The booklet: complete, readable, true to the pattern, whatever its designer adds."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path as File

import numpy as np
import pikepdf
import pytest
import segno
import shapely

from draft.base.bounded import Failed, run_each
from draft.base.notes import Note, Problems, Severity, Span
from draft.drafting.drafting import Drafted
from draft.pack.files_on_pages import paged_sheets
from draft.pack.printed_files import Printing, booklet_files
from draft.paper.booklet import BookletFacts, ClothAmounts, ClothPlan, booklet_pdf, pictures
from draft.paper.booklet.bands_section import opening
from draft.paper.booklet.booklet import book_of
from draft.paper.booklet.code import code
from draft.paper.booklet.material_section import gauge_block, stretch_asked
from draft.paper.booklet.order import sewing_order
from draft.paper.booklet.page_format import HEIGHT, REGULAR, WIDTH
from draft.paper.booklet.set_blocks import SIDE
from draft.paper.booklet.step_drawing import SEAM, Drawer
from draft.paper.drawing.drawing import PT, Item, Label, Path
from draft.paper.drawing.font import text_width
from draft.paper.drawing.foreign_svg import drawn
from draft.paper.drawing.room import label_spot
from draft.paper.drawing.spoken_languages import own_words
from draft.paper.drawing.wording import Wording
from draft.paper.flat.bands import bands
from draft.plan.advice import Advice, Booklet, Picture
from draft.plan.library import find
from tests.asking import bundled
from tests.paper.made_up import SOURCE
from tests.paper.patterns import PATTERNS, on_home_paper
from tests.paper.reading import page_count, text_of

LEFT, FULL, BOTTOM = REGULAR.left, REGULAR.full, REGULAR.bottom
SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 30" width="60mm" height="30mm">{}</svg>'


@pytest.fixture(scope="module", params=PATTERNS)
def drafted(request: pytest.FixtureRequest) -> Drafted:
    return bundled(request.param)


@pytest.fixture(scope="module")
def marlpit() -> Drafted:
    return bundled("marlpit")


def facts_of(drafted: Drafted, wording: Wording | None = None, **more: object) -> BookletFacts:
    bodies = tuple(range(len(drafted.garment.sizes)))
    return BookletFacts(drafted, bodies, wording or Wording(), **more)  # type: ignore[arg-type]


def with_booklet(drafted: Drafted, own: Booklet) -> Drafted:
    return replace(drafted, plan=replace(drafted.plan, booklet=own))


def said(data: bytes) -> str:
    text = " ".join(text_of(data, page) for page in range(page_count(data)))
    return " ".join(text.replace("\r", "").split())


def _stroked(items: list[Item]) -> list[Path]:
    paths = [item for item in items if isinstance(item, Path) and not item.fill]
    return [path for path in paths if path.stroke and path.stroke.width < 0.3]


@pytest.mark.parametrize(("language", "units"), [("en", "both"), ("en", "in"), ("de", "cm")])
def test_every_word_is_on_its_page_large_enough_and_apart_from_others(
    drafted: Drafted, language: str, units: str
) -> None:
    wording = Wording(language, units)  # type: ignore[arg-type]
    book, _ = book_of(facts_of(drafted, wording, sheets=on_home_paper(drafted.plan.name)))
    for number, items in book.footed().items():
        labels = [item for item in items if isinstance(item, Label)]
        for label in labels:
            left, top, right, bottom = label_spot(label).shape().bounds
            assert left >= LEFT - 0.3 and right <= LEFT + FULL + 0.3, (number, label.text)
            assert top >= 10 and bottom <= HEIGHT - 6, (number, label.text)
            assert label.size >= 8 * PT - 1e-9, (number, label.text)
        shapes = [label_spot(label).shape(-0.2) for label in labels]
        meeting = shapely.STRtree(shapes).query(shapes, predicate="intersects").T
        assert not [(labels[a].text, labels[b].text) for a, b in meeting if a < b], number
        for path in _stroked(items):
            low, high = path.box()
            assert low[0] >= LEFT - 0.5 and high[0] <= LEFT + FULL + 0.5 and high[1] <= BOTTOM + 1, number


@pytest.mark.parametrize("sizes", [[], ["M"]], ids=["all", "M"])
def test_the_document_is_sound_and_finds_its_sections(sizes: list[str]) -> None:
    drafted = bundled("marlpit", *sizes)
    sheets = paged_sheets(drafted.garment, Printing(("letter",)))
    files = booklet_files(drafted, sheets=sheets)
    assert sorted(files) == ["booklet.html", "booklet.pdf"]
    data = files["booklet.pdf"]
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert str(pdf.Root.Lang) == "en" and str(pdf.docinfo["/Title"]) == "Marlpit top: how it is made"
        assert all(
            np.allclose([float(v) for v in p.MediaBox][2:], [WIDTH / PT, HEIGHT / PT], atol=1e-3) for p in pdf.pages
        )
        with pdf.open_outline() as outline:
            names = [item.title for item in outline.root]
    assert names[0] == "Your size" and {"Words", "Sewing"} <= set(names)
    assert ("From one size to another" in names) == (not sizes)
    text = said(data)
    for words in (
        "Marlpit top", "By Saltern Lane Studio", "Bust girth", "Finished measurements", "Take care", "Blades are sharp",
        "Irons are hot", "ISO 4915", "Does it stretch enough?", "cut length = opening", "Letter: ", "grain",
    ):  # fmt: skip
        assert words in text, words
    assert booklet_files(drafted, sheets=sheets)["booklet.pdf"] == data


def test_the_size_chart_and_the_finished_measurements_are_those_of_the_draft(marlpit: Drafted) -> None:
    text = said(booklet_pdf(facts_of(marlpit, Wording(units="cm"))))
    wording = Wording(units="cm")
    for name in marlpit.plan.measures[:3]:
        row = " ".join(wording.number(v / 10) for v in marlpit.bodies.values[name])
        assert f"cm {row}" in text, name
    for reading in marlpit.garment.finished:
        assert "cm " + " ".join(wording.number(v / 10) for v in reading.values) in text, reading.name


def test_units_are_those_asked_for(marlpit: Drafted) -> None:
    inches, metric = (said(booklet_pdf(facts_of(marlpit, Wording(units=u)))) for u in ("in", "cm"))  # type: ignore[arg-type]
    assert " cm " not in inches and "½ in" in inches
    assert (
        " in 3" not in metric
        and "1.3 cm" in metric
        and "½" not in metric
        and "1/2" not in metric.replace("marked 1/2", "")
    )


def test_the_gauge_is_true_to_size(marlpit: Drafted) -> None:
    across, _ = stretch_asked(facts_of(marlpit))
    assert across == pytest.approx(marlpit.garment.cloth["stretch_across"])
    block = gauge_block(101.6, across, "rest", "reach")
    by_id = {item.id: item for item in block.items if isinstance(item, Path)}
    bar, line = by_id["gauge-base"].runs[0], by_id["gauge-reach"].runs[0]
    assert bar[0, 0, 0] == 0 and bar[-1, 3, 0] == pytest.approx(101.6)
    assert line[0, 0, 0] == pytest.approx(101.6 * (1 + across))


def test_the_need_of_cloth_is_shown_as_shops_sell_it(marlpit: Drafted) -> None:
    lengths = tuple(700.0 + 101.0 * k for k in range(7))
    plan = ClothPlan((ClothAmounts(1473.2, False, lengths), ClothAmounts(1473.2, True, lengths)))
    text = said(booklet_pdf(facts_of(marlpit, cloth=plan)))
    assert "Cloth 58 in or 148 cm wide" in text and "with a nap" in text
    assert "m 0.70 0.85 0.95 1.05 1.15 1.25 1.35" in text  # up to the next 5 cm
    assert "yd ⅞ 1 1 1⅛ 1¼ 1⅜ 1½" in text  # up to the next eighth of a yard
    assert "How much cloth you need depends on its width" in said(booklet_pdf(facts_of(marlpit)))


def test_a_ring_is_closed_before_it_is_set_on_and_an_opening_before_its_band(drafted: Drafted) -> None:
    order = [step.name for step in sewing_order(drafted.garment)]
    expected = {
        "marlpit": ["overarm", "underarm", "neckband_ends", "neck", "band_ends", "cuff", "hem"],
        "tidemill": ["shoulder", "side", "sleeve_seam", "cap", "band_ends", "neck", "hem"],
        "ropewalk": [
            "stay", "interfacing", "front", "back", "centre_back", "centre_back", "side", "waist",
            "band_end", "band_lap", "band_inside", "waistband", "hem", "centre_back",
        ],
    }  # fmt: skip
    assert order == expected[drafted.plan.name]
    turned = replace(drafted.garment, joins=tuple(reversed(drafted.garment.joins)))
    back = [step.name for step in sewing_order(turned)]
    for first, then in (("neckband_ends", "neck"), ("overarm", "neck"), ("underarm", "cuff"), ("shoulder", "neck"),
                        ("shoulder", "cap"), ("side", "waist")):  # fmt: skip
        if {first, then} <= set(back):
            assert back.index(first) < back.index(then), (first, then)


def test_each_step_is_drawn_with_its_seam_thick(drafted: Drafted) -> None:
    drawer = Drawer.of(drafted.garment, 3)
    for join in drafted.garment.joins:
        block = drawer.join(join)
        thick = [item for item in block.items if isinstance(item, Path) and item.stroke == SEAM]
        assert len(thick) == 1 and thick[0].runs and block.height > 0, join.name
        box = np.array([item.box() for item in block.items if isinstance(item, Path)])
        assert box[:, 0].min() > -1 and box[:, 1, 0].max() < SIDE + 1 and box[:, 1, 1].max() < block.height + 1


def test_the_bands_are_worked_out_from_their_openings(marlpit: Drafted) -> None:
    facts, garment = facts_of(marlpit, Wording(units="cm")), marlpit.garment
    text = said(booklet_pdf(facts))
    for band in bands(garment, 3):
        size = opening(band, facts)
        cut = band.piece.edge("long").segments[:, 0, 3, 0] + 25.4
        assert np.allclose(size * np.asarray(band.join.ratio) + 25.4, cut, atol=0.5)
        for values in (size, cut):
            assert "cm " + " ".join(facts.wording.number(v / 10) for v in values) in text
    assert "Cut width: 5.1 cm, folded in half to a finished 1.3 cm." in text


# ---- what a designer adds -------------------------------------------------------------------------------------------


def _picture(folder: File, inside: str = '<rect width="60" height="30" fill="#eee"/>', text: str = "") -> Picture:
    file = folder / "own.svg"
    file.write_text(text or SVG.format(inside), encoding="utf-8")
    return Picture(Span(SOURCE, 0, 4), file)


def test_what_a_designer_adds_is_printed(marlpit: Drafted, tmp_path: File) -> None:
    picture, link = _picture(tmp_path), "https://example.org/marlpit?edition=2"
    span = Span(SOURCE, 0, 4)
    own = Booklet(
        ("A top for warm days — für Łódź, Ηλέκτρα.",), (), "CC BY 4.0", link,
        (Advice(span, "neck", "Try the band on.", picture), Advice(span, "front.hem", "Let it hang.", None)),
    )  # fmt: skip
    facts = facts_of(with_booklet(marlpit, own))
    data = booklet_pdf(facts)
    text = said(data)
    for words in ("A top for warm days — für Łódź, Ηλέκτρα.", "CC BY 4.0", link, "Try the band on.", "Let it hang."):
        assert words in text, words
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.check_pdf_syntax() == []
        links = [str(note.A.URI) for page in pdf.pages for note in page.get("/Annots", [])]
    assert links == [link]
    book, shown = book_of(facts)
    assert len(shown) == 1 and shown[0].width == pytest.approx(60, abs=0.1)
    (placed,) = [one for page in book.pictures.values() for one in page]
    assert placed.width <= FULL and placed.y < BOTTOM


def test_a_long_title_leaves_the_page_number_alone(marlpit: Drafted) -> None:
    long = replace(marlpit, garment=replace(marlpit.garment, title="W" * 120))
    book, _ = book_of(facts_of(long))
    for number, items in list(book.footed().items())[1:]:
        label, title = items[-2:]
        assert isinstance(label, Label) and isinstance(title, Label)
        assert label.text == str(number + 1) and title.text.endswith("…")
        assert text_width(title.text, title.size) < FULL - text_width(label.text, label.size) - 2


def test_the_code_of_a_link_holds_its_squares() -> None:
    link = "https://example.org/marlpit"
    block = code(link)
    assert block is not None
    (path,) = block.items
    assert isinstance(path, Path)
    matrix = segno.make_qr(link, error="m").matrix
    drawn = np.zeros((len(matrix), len(matrix)), dtype=bool)
    module = block.height / len(matrix)
    for run in path.runs:
        (left, top), (right, bottom) = run[:, 0].min(axis=0) / module, run[:, 0].max(axis=0) / module
        drawn[round(top) : round(bottom), round(left) : round(right)] = True
    assert np.array_equal(drawn, np.array([list(row) for row in matrix], dtype=bool))
    assert module >= 0.5


@pytest.mark.parametrize("length", [2_000, 5_000])
def test_a_very_long_link_is_printed_in_words(marlpit: Drafted, length: int) -> None:
    link = "https://example.org/" + "x" * length
    assert code(link) is None
    data = booklet_pdf(facts_of(with_booklet(marlpit, Booklet(link=link))))
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert [str(note.A.URI) for note in pdf.pages[0].Annots] == [link]
    assert "https://example.org/xxx" in text_of(data, 0).replace("\r", "").replace("\n", "")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("no picture at all", "cannot be read as SVG"),
        ("<svg", "cannot be read as SVG"),
        ("<html/>", "does not begin with `svg`"),
        (SVG.format('<use href="#a"/>'), "holds `use`, which is not drawn"),
        (SVG.format('<image href="file:///etc/passwd"/>'), "holds `image`"),
        (SVG.format('<image href="https://example.org/a.png"/>'), "holds `image`"),
        (SVG.format("<script>1</script>"), "holds `script`"),
        (SVG.format("<foreignObject/>"), "holds `foreignObject`"),
        (SVG.format("<g/>" * 30_000), "too many"),
        ('<!DOCTYPE svg [<!ENTITY a "b">]>' + SVG.format("<text>&a;</text>"), "cannot be read as SVG"),
    ],
)
def test_a_picture_that_cannot_be_drawn_is_told(tmp_path: File, text: str, message: str) -> None:
    with pytest.raises(Problems) as caught:
        pictures.picture_pages([_picture(tmp_path, text=text)])
    (note,) = caught.value.notes
    assert message in note.message and note.span and note.hints


def test_without_cairo_a_picture_says_how_to_install_it(tmp_path: File, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "cairosvg.py").write_text("raise OSError('no library called cairo was found')")
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    with pytest.raises(Problems) as caught:
        pictures.picture_pages([_picture(tmp_path)])
    (note,) = caught.value.notes
    assert "`own.svg` is drawn by the cairo library" in note.message and note.span
    assert "apt install libcairo2" in note.hints[0] and "brew install cairo" in note.hints[0]


def _clipped(depth: int) -> str:
    """A picture of shapes clipped by two shapes each, so many deep: each step takes twice as long to draw."""
    twice = '<path d="M0 0H9V9Z" clip-path="url(#c{0})"/>' * 2
    clips = "".join(f'<clipPath id="c{k}">{twice.format(k + 1)}</clipPath>' for k in range(depth))
    last = f'<clipPath id="c{depth}"><path d="M0 0H9V9Z"/></clipPath>'
    return SVG.format(f'<defs>{clips}{last}</defs><rect width="60" height="30" clip-path="url(#c0)"/>')


def test_a_picture_without_an_end_is_left_out_and_told(
    marlpit: Drafted, tmp_path: File, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pictures, "run_each", partial(pictures.run_each, seconds=1))
    (tmp_path / "good").mkdir()
    endless, good = _picture(tmp_path, text=_clipped(40)), _picture(tmp_path / "good")
    assert endless.file.stat().st_size < 7000
    span = Span(SOURCE, 0, 4)
    own = Booklet((), (endless, good), "", "", (Advice(span, "neck", "Try it on.", endless),))
    warned: list[Note] = []
    book, shown = book_of(facts_of(with_booklet(marlpit, own)), warned.append)
    assert len(shown) == 1 and [one.picture for page in book.pictures.values() for one in page] == [0]
    assert [note.severity for note in warned] == [Severity.CAUTION] * 2
    assert "`own.svg` is left out of the booklet: drawing it takes more than" in warned[0].message
    (clipped,), notes = pictures.picture_pages([_picture(tmp_path, text=_clipped(3))])
    assert clipped and not notes


def test_pictures_for_which_no_time_is_left_are_told_of_once(tmp_path: File, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "run_each", partial(pictures.run_each, seconds=1, together=1))
    several = []
    for k in range(6):
        (tmp_path / str(k)).mkdir()
        several.append(_picture(tmp_path / str(k), text=_clipped(40 + k) if k else SVG.format("<text>b</text>")))
    pages, notes = pictures.picture_pages([*several, several[0], several[5]])
    assert [bool(page) for page in pages] == [True, *[False] * 5, True, False]
    assert len(notes) == 1 and notes[0].severity is Severity.CAUTION and notes[0].span is several[1].span
    assert notes[0].message == (
        "`own.svg` is left out of the booklet: drawing all its pictures takes more than 30 seconds"
    )


def test_a_picture_that_several_steps_show_is_drawn_once(tmp_path: File, monkeypatch: pytest.MonkeyPatch) -> None:
    drawn_for: list[int] = []

    def counted(drawer: str, items: Sequence[bytes]) -> list[bytes | Failed]:
        drawn_for.append(len(items))
        return run_each(drawer, items)

    monkeypatch.setattr(pictures, "run_each", counted)
    (tmp_path / "other").mkdir()
    one, other = _picture(tmp_path), _picture(tmp_path / "other", text=SVG.format("<text>b</text>"))
    pages, notes = pictures.picture_pages([one, other, one])
    assert drawn_for == [2] and not notes
    assert pages[0] and pages[1] and pages[0] == pages[2] != pages[1]


def test_a_picture_is_drawn_as_it_is_here(tmp_path: File) -> None:
    picture = _picture(tmp_path)
    ((page,), _) = pictures.picture_pages([picture])
    here = drawn(picture.file.read_bytes())
    assert page and len({re.sub(rb"/CreationDate[^\n]*", b"", data) for data in (page.data, here)}) == 1


def test_a_picture_of_an_editor_with_its_own_notes_is_drawn(tmp_path: File) -> None:
    inside = (
        '<metadata>m</metadata><defs><style>.a{fill:#a33c00}</style></defs><sodipodi:namedview xmlns:sodipodi="s"/>'
        '<g transform="scale(2)"><path class="a" d="M0 0 L10 10 Z"/><text x="3" y="9">ünï</text></g>'
    )
    ((page,), _) = pictures.picture_pages([_picture(tmp_path, inside)])
    assert page and (page.width, page.height) == (pytest.approx(60, abs=0.1), pytest.approx(30, abs=0.1))
    assert page.data.startswith(b"%PDF")


@pytest.mark.parametrize(
    "title",
    [
        "",
        "x",
        "Wide " * 80,
        "Unbroken" * 60,
        "</title>) Tj ET Q",
        "日本語のタイトル",
        "a\tb\nc\x00d",
        "\U0001f9f5 thread",
    ],
)
def test_any_title_makes_a_sound_booklet(marlpit: Drafted, title: str) -> None:
    garment = replace(marlpit.garment, title=title, maker=title)
    data = booklet_pdf(facts_of(replace(marlpit, garment=garment)))
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.check_pdf_syntax() == []
    assert page_count(data) > 8


def test_a_long_advice_goes_on_over_pages(marlpit: Drafted) -> None:
    own = Booklet(advice=(Advice(Span(SOURCE, 0, 4), "neck", "Pin it well. " * 900, None),))
    data = booklet_pdf(facts_of(with_booklet(marlpit, own)))
    assert said(data).count(" well.") == 900  # a page may end within the words


def test_a_garment_without_panels_joins_or_measurements_has_a_booklet(marlpit: Drafted) -> None:
    band = marlpit.garment.piece("neckband")
    bare = replace(marlpit.garment, pieces=(band,), joins=(), finished=())
    text = said(booklet_pdf(facts_of(replace(marlpit, garment=bare))))
    assert "Neckband" in text and "Finished measurements" not in text


# ---- languages ------------------------------------------------------------------------------------------------------


def test_nothing_english_is_left_in_another_language(drafted: Drafted) -> None:
    name = drafted.plan.name
    assert drafted.planned
    own_de: dict[str, str] = {}
    for file in (*drafted.planned.texts.bases, find(name)):
        own_de |= own_words(file, "de")
    wording = Wording("de", "both", own_de)
    text = said(booklet_pdf(facts_of(drafted, wording, sheets=on_home_paper(name))))
    english = Wording()
    for key in english._all:
        one, other = english._all[key], wording._all[key]
        if len(one) > 12 and "{" not in one and one != other:
            assert one not in text, key
    plan = drafted.plan
    own = [style.words for style in plan.styles] + [reading.words for reading in plan.finished] + [plan.title]
    own += [*plan.booklet.texts, *(advice.text for advice in plan.booklet.advice)]
    own += [*(text for _, text in plan.booklet.topics), *(notion.words for notion in plan.notions)]
    own += [cloth.words for cloth in plan.cloths]
    names = [p.title for p in plan.pieces] + [s.name for s in plan.joins] + [r.name for r in plan.finished]
    names += [*(notion.name for notion in plan.notions), *(cloth.name for cloth in plan.cloths)]
    names += [advice.to for advice in plan.booklet.advice if advice.own]
    for written in [words for words in own if words]:
        assert written in wording.own, f"{name}.de.toml lacks {written!r}"
    for written in names:
        plain = written.replace("_", " ")
        assert wording._all.get(f"names.{plain}") or {written, plain} & wording.own.keys(), written


def test_a_narrow_table_stands_in_two_columns(marlpit: Drafted) -> None:
    """Of one size the measures stand beside one another, the first half and the rest, under a head each."""

    def places(facts: BookletFacts) -> tuple[tuple[int, float], tuple[int, float]]:
        found = dict[str, tuple[int, float]]()
        for number, items in book_of(facts)[0].pages.items():
            for item in items:
                if isinstance(item, Label) and item.passage and item.passage.role == "TH":
                    found.setdefault(item.text, (number, item.x))
        return found["Bust girth"], found["Front waist length"]

    left, right = places(replace(facts_of(marlpit), bodies=(2,)))
    assert left[0] == right[0] and right[1] - left[1] == REGULAR.column + REGULAR.gutter
    above, below = places(facts_of(marlpit))
    assert above[1] == below[1]  # the cover has the first of them too


@pytest.mark.parametrize("name", ["marlpit", "lockside", "ropewalk", "roundhouse"])
def test_no_heading_is_left_at_the_foot_of_a_page(name: str) -> None:
    """Below each heading of a section something stands on the same page."""
    drafted = bundled(name)
    for body in range(0, len(drafted.garment.sizes), 2):
        book, _ = book_of(replace(facts_of(drafted), bodies=(body,)))
        for number, items in book.pages.items():
            read = [item for item in items if item.passage and (isinstance(item, Label) or item.runs)]
            heads = [item.y for item in read if isinstance(item, Label) and item.passage and item.passage.role == "H2"]
            lowest = max((item.y if isinstance(item, Label) else item.box()[1, 1] for item in read), default=0.0)
            assert not heads or max(heads) < lowest - 3.0, (name, body, number)
