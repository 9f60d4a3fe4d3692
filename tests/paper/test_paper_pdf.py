"""Printed pages: true to size, complete, layered, repeatable."""

from __future__ import annotations

import io
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path as File

import numpy as np
import pikepdf
import pytest
from PIL import Image

from draft.base.notes import Problems
from draft.garment.garment import Garment
from draft.pack.printed_files import Printing, svg_files
from draft.paper.drawing.drawing import PT, Drawing, Label
from draft.paper.drawing.papers import PAPERS, Paper
from draft.paper.drawing.room import label_spot
from draft.paper.pages import packing
from draft.paper.pages.page_grid import MATCH_RADIUS, Grid, Page, grid, pieces_by_page
from draft.paper.pages.paged_sheet import paged_pdf, paged_sheet
from draft.paper.pages.sheet import draw_pattern, on_pages
from tests.paper.made_up import SIZES, make_garment
from tests.paper.printed import pdf_files
from tests.paper.reading import page_count, raster, stroked_boxes, text_of

LETTER = PAPERS["letter"]


@pytest.fixture(scope="module")
def sheet(garment: Garment) -> Drawing:
    return on_pages(draw_pattern(garment, range(7)), LETTER.live)


@pytest.mark.parametrize("name", ["letter", "a4"])
def test_the_squares_measure_an_inch_and_five_centimetres(pdfs: dict[str, bytes], name: str) -> None:
    sides = [np.ptp(corners, axis=0) for corners in stroked_boxes(pdfs[f"pattern-{name}.pdf"], 0)]
    assert any(np.allclose(side, 72.0, atol=1e-9) for side in sides)
    assert any(np.allclose(side, 50 / PT, atol=0.002) for side in sides)


def test_the_inch_measures_an_inch_in_pixels(pdfs: dict[str, bytes]) -> None:
    corners = next(c for c in stroked_boxes(pdfs["pattern-letter.pdf"], 0) if np.allclose(np.ptp(c, axis=0), 72.0))
    page = raster(pdfs["pattern-letter.pdf"], 0, scale=10.0)  # 720 dpi
    x0, y0 = corners.min(axis=0) * 10
    row = 255 - page[page.shape[0] - round(y0) - 200, :].astype(float)  # a line across the square, clear of its words
    sides = []
    for x in (x0, x0 + 720):
        window = row[round(x) - 15 : round(x) + 15]
        sides.append((window * np.arange(round(x) - 15, round(x) + 15)).sum() / window.sum())
    assert sides[1] - sides[0] == pytest.approx(720.0, abs=0.5)


def test_pages_trimmed_and_laid_together_are_the_sheet(sheet: Drawing) -> None:
    whole_sheet = Paper("whole", sheet.width + 25.4, sheet.height + 25.4, 12.7)
    in_one, in_pages = (paged_sheet(sheet, one, "t") for one in (whole_sheet, LETTER))
    whole = raster(paged_pdf(in_one), len(in_one.guide), scale=1.0)[36:-36, 36:-36]
    data, found = paged_pdf(in_pages), in_pages.grid
    width, height = 540, 720  # the printed area of Letter in points
    assembled = np.full((round(sheet.height / PT), round(sheet.width / PT)), 255, dtype=np.uint8)
    for page in found.pages:
        picture = raster(data, page.number - 1, scale=1.0)
        x, y = page.column * width, page.row * height
        assembled[y : y + height, x : x + width] = picture[36 : 36 + height, 36 : 36 + width]
    assert whole.shape == assembled.shape
    different = np.abs(whole.astype(int) - assembled) > 24
    assert (255 - whole.astype(int)).sum() > 1e6  # the sheet is not blank
    numbered = [*found.pages, *in_one.grid.pages]
    different &= ~(_in_words(sheet, assembled.shape) & _a_pixel_aside(whole, assembled))
    assert not (different & ~_not_of_the_sheet(found, numbered, assembled.shape)).any()


def _in_words(sheet: Drawing, shape: tuple[int, int]) -> np.ndarray:
    """Where words stand: the viewer sets each of their letters on a whole pixel, that of lines is exact."""
    found = np.zeros(shape, dtype=bool)
    for label in (item for item in sheet.items() if isinstance(item, Label)):
        left, top, right, bottom = (round(side / PT) for side in label_spot(label).box)
        found[max(top - 1, 0) : bottom + 2, max(left - 1, 0) : right + 2] = True
    return found


def _a_pixel_aside(whole: np.ndarray, assembled: np.ndarray) -> np.ndarray:
    """Where a pixel is as dark as one of those about it on the other picture."""
    around = np.pad(whole.astype(int), 1, mode="edge")
    rows, columns = whole.shape
    near = [around[y : y + rows, x : x + columns] for y in range(3) for x in range(3)]
    return np.asarray((assembled <= np.max(near, axis=0) + 24) & (assembled >= np.min(near, axis=0) - 24))


def _not_of_the_sheet(found: Grid, numbered: list[Page], shape: tuple[int, int]) -> np.ndarray:
    """Where frames, match marks and page numbers lie on the assembled sheet, in pixels of a point."""
    masked = np.zeros(shape, dtype=bool)
    for edge in (0, 1, -1):
        masked[:, edge % 540 :: 540] = masked[edge % 720 :: 720, :] = True
    spots = [(shared.x, shared.y, MATCH_RADIUS * 1.2 + 1) for shared in found.shared_edges]
    spots += [(*one.number_at, 4.0) for one in numbered if one.number_at]
    for x, y, radius in spots:
        left, top, right, bottom = (max(0, round(v / PT)) for v in (x - radius, y - radius, x + radius, y + radius))
        masked[top : bottom + 1, left : right + 1] = True
    return np.asarray(masked)


def _without(data: bytes, size: str) -> bytes:
    with pikepdf.open(io.BytesIO(data)) as pdf:
        groups = pdf.Root.OCProperties
        off = [group for group in groups.OCGs if str(group.Name) == size]
        groups.D.OFF = pikepdf.Array(off)
        groups.D.ON = pikepdf.Array([group for group in groups.OCGs if str(group.Name) != size])
        out = io.BytesIO()
        pdf.save(out)
    return out.getvalue()


def _poppler(data: bytes, page: int, folder: File, scale: int = 1) -> np.ndarray:
    (folder / "in.pdf").write_bytes(data)
    number = str(page + 1)
    command = ["pdftoppm", "-r", str(72 * scale), "-gray", "-f", number, "-l", number, "-singlefile", "in.pdf", "out"]
    subprocess.run(command, cwd=folder, check=True)
    return np.asarray(Image.open(folder / "out.pgm"))


@pytest.mark.parametrize("viewer", ["pdfium", "poppler"])
def test_a_size_that_is_switched_off_does_not_print(garment: Garment, tmp_path: File, viewer: str) -> None:
    if viewer == "poppler" and not shutil.which("pdftoppm"):
        pytest.skip("pdftoppm is not installed")

    def ink(data: bytes) -> list[int]:
        pages = range(1, page_count(data))
        shown = [raster(data, p, 1.0) if viewer == "pdfium" else _poppler(data, p, tmp_path) for p in pages]
        return [int((255 - page.astype(int)).sum()) for page in shown]

    both = pdf_files(garment, Printing(("letter",)), ["M", "L"])["pattern-letter.pdf"]
    full, without_m, without_both = ink(both), ink(_without(both, "M")), ink(_without(_without(both, "M"), "L"))
    assert sum(without_m) < sum(full) * 0.97
    assert all(less <= more for less, more in zip(without_m, full, strict=True))
    assert sum(without_both) > 0 and sum(without_m) != sum(without_both)


def test_a_layer_off_leaves_exactly_the_other_size(garment: Garment) -> None:
    both = pdf_files(garment, Printing(("letter",)), ["M", "L"])["pattern-letter.pdf"]
    with_l = [raster(_without(both, "M"), page, 1.0) for page in range(1, page_count(both))]
    texts = [text_of(both, page) for page in range(1, page_count(both))]
    assert any("\nM\n" in f"\n{text}\n".replace("\r", "") for text in texts)
    full = [raster(both, page, 1.0) for page in range(1, page_count(both))]
    assert all((less >= more).all() for less, more in zip(with_l, full, strict=True))  # ink is only taken away


@pytest.mark.parametrize("name", ["letter", "a4"])
def test_the_document_is_sound_and_says_what_it_is(pdfs: dict[str, bytes], name: str) -> None:
    with pikepdf.open(io.BytesIO(pdfs[f"pattern-{name}.pdf"])) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert float(pdf.pdf_version) >= 1.6
        for page in pdf.pages:
            box = [float(v) for v in page.MediaBox]
            expected = (612, 792) if name == "letter" else (595.2756, 841.8898)
            assert box[:2] == [0, 0] and np.allclose(box[2:], expected, atol=1e-4)
        preferences = pdf.Root.ViewerPreferences
        assert preferences.PrintScaling == "/None" and preferences.Duplex == "/Simplex"
        assert preferences.PickTrayByPDFSize and preferences.DisplayDocTitle
        assert str(pdf.Root.Lang) == "en" and "/PageLabels" in pdf.Root
        assert str(pdf.docinfo["/Title"]) == "Easy knit top, sizes XS – 3XL"
        groups = pdf.Root.OCProperties
        assert [str(group.Name) for group in groups.OCGs] == list(SIZES)
        assert [str(group.Name) for group in groups.D.Order] == list(SIZES)
        assert all(set(group.keys()) == {"/Type", "/Name"} for group in groups.OCGs) and "/AS" not in groups.D


def test_frames_and_marks_lie_outside_every_group(pdfs: dict[str, bytes]) -> None:
    with pikepdf.open(io.BytesIO(pdfs["pattern-letter.pdf"])) as pdf:
        for page in pdf.pages[1:]:
            within, shown = list[str](), list[tuple[str, list[str]]]()
            for operands, operator in pikepdf.parse_content_stream(page):
                if str(operator) == "BDC":
                    within.append(str(operands[0]))
                elif str(operator) == "EMC":
                    within.pop()
                elif str(operator) == "Do":
                    shown.append((str(operands[0]), within.copy()))
            frame, groups = shown[-1]
            assert groups == ["/Figure"] and not within and [name for name, _ in shown].count(frame) == 1
            stream = pikepdf.parse_content_stream(page.Resources.XObject[frame])
            boxes = [[float(v) for v in o] for o, op in stream if str(op) == "re"]
            assert [36.0, 36.0, 540.0, 720.0] in [[round(v, 2) for v in box] for box in boxes], boxes


def test_text_is_found_on_the_pages_that_show_it(pdfs: dict[str, bytes], sheet: Drawing) -> None:
    data = pdfs["pattern-letter.pdf"]
    count = page_count(data)
    texts = [text_of(data, page) for page in range(count)]
    assert "100 %" in texts[0] and "Measure" in texts[0] and "1 in" in texts[0] and "5 cm" in texts[0]
    for number in range(2, count + 1):
        assert f"Page {number} of {count}" in texts[number - 1]
        assert "Easy knit top, sizes XS – 3XL" in texts[number - 1]
    found = grid(sheet, LETTER, 2)
    for word in ("Front", "Back", "Neckband", "Sleeve band"):
        bearers = {page.number for page in found.pages if word in texts[page.number - 1]}
        assert bearers == {page.number for page in found.pages if word in pieces_by_page(sheet, found)[page]}
    assert sum("place on fold" in text for text in texts[1:]) == 2  # once on the front and once on the back
    assert sum(text.count("greatest stretch") for text in texts[1:]) == 4


def test_both_pages_of_a_join_bear_its_name_and_no_other_page_does(pdfs: dict[str, bytes], sheet: Drawing) -> None:
    found = grid(sheet, LETTER, 2)
    names = [shared.name for shared in found.shared_edges]
    assert len(names) == len(set(names)) > 10
    texts = {t.number: text_of(pdfs["pattern-letter.pdf"], t.number - 1).split() for t in found.pages}
    for shared in found.shared_edges:
        bearers = {number for number, text in texts.items() if shared.name in text}
        assert bearers == {shared.first.number, shared.second.number}, shared.name


def test_every_pair_of_neighbours_is_joined_and_no_page_is_blank(sheet: Drawing, pdfs: dict[str, bytes]) -> None:
    found = grid(sheet, LETTER, 2)
    pairs = {
        frozenset(((a.row, a.column), (b.row, b.column))) for j in found.shared_edges for a, b in [(j.first, j.second)]
    }
    expected = {
        frozenset((place, other))
        for place in found.by_place
        for other in ((place[0], place[1] + 1), (place[0] + 1, place[1]))
        if other in found.by_place
    }
    assert pairs == expected
    assert [page.number for page in found.pages] == list(range(2, page_count(pdfs["pattern-letter.pdf"]) + 1))


def test_bytes_are_repeatable(pdfs: dict[str, bytes], monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a garment drafted anew, with no work done aside and nothing remembered."""
    monkeypatch.setattr("draft.base.aside.aside", lambda work: work)
    packing._packed.cache_clear()
    again = make_garment()
    assert pdf_files(again) == pdfs
    assert pdf_files(again, Printing(("a4",)))["pattern-a4.pdf"] == pdfs["pattern-a4.pdf"]  # now remembered
    assert svg_files(make_garment(2)) == svg_files(make_garment(2))


def test_one_person_has_one_size_without_layers(one: Garment) -> None:
    said: list[str] = []
    files = pdf_files(one, progress=said.append)
    assert list(files) == said == ["pattern-letter.pdf", "pattern-a4.pdf"]
    assert 10 < page_count(files["pattern-letter.pdf"]) <= 17
    assert "Ines" in text_of(files["pattern-letter.pdf"], 0)


def test_documents_are_small(pdfs: dict[str, bytes]) -> None:
    assert all(len(data) < 120_000 for data in pdfs.values())


def test_hostile_titles_do_no_harm() -> None:
    title = "Top) Tj ET Q /Evil Do \\ (\x00\x1b\n" + "very long " * 40
    data = pdf_files(make_garment(1, title=title, sizes=("M",)), Printing(("letter",)))["pattern-letter.pdf"]
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.check_pdf_syntax() == []
    assert "Evil" in text_of(data, 0)


@pytest.mark.parametrize(
    ("call", "message", "hint"),
    [
        (lambda g: pdf_files(g, Printing(("lettre",))), "`lettre` is not a page size", "letter"),
        (lambda g: pdf_files(g, sizes=["XXS"]), "`XXS` is not a size of this pattern", "XS"),
    ],
)
def test_mistakes_are_told(garment: Garment, call: object, message: str, hint: str) -> None:
    with pytest.raises(Problems) as caught:
        call(garment)  # type: ignore[operator]
    assert caught.value.notes[0].message == message and hint in caught.value.notes[0].hints[0]


def test_nothing_to_draw_is_told(garment: Garment) -> None:
    for make in (pdf_files, svg_files):
        with pytest.raises(Problems, match="no pieces"):
            make(replace(garment, pieces=()))


def test_a_sheet_that_no_viewer_opens_is_refused(sheet: Drawing) -> None:
    with pytest.raises(Problems, match="over 12 m long"):
        paged_sheet(Drawing("t", 12_000, 100, sheet.layers), LETTER, "t")


def test_two_viewers_show_the_same_ink(pdfs: dict[str, bytes], tmp_path: File) -> None:
    if not shutil.which("pdftoppm"):
        pytest.skip("pdftoppm is not installed")
    data = pdfs["pattern-a4.pdf"]
    for page in (0, 1, 5):
        shown = [raster(data, page, 2.0), _poppler(data, page, tmp_path, 2)]  # fine lines in ink fill a pixel then
        height, width = (min(a, b) for a, b in zip(*(image.shape for image in shown), strict=True))
        dark = [image[:height, :width] < 140 for image in shown]
        for one, other in (dark, dark[::-1]):
            near = np.pad(other, 1)
            near = np.any([near[y : y + height, x : x + width] for y in (0, 1, 2) for x in (0, 1, 2)], axis=0)
            assert one.sum() > 500 and (one & ~near).sum() < 0.02 * one.sum(), page


def test_the_guide_is_read_and_every_page_told_in_words(pdfs: dict[str, bytes]) -> None:
    """Headings, steps and signs of the guide in their order; a page of the pattern as one figure with its pieces."""
    with pikepdf.open(io.BytesIO(pdfs["pattern-letter.pdf"])) as pdf:
        read = [(str(one.S), str(one.get("/Alt", ""))) for one in pdf.Root.StructTreeRoot.K[0].K]
        roles, told = [role for role, _ in read], [alt for role, alt in read if role == "/Figure"]
        assert roles[0] == "/H1" and {"/H2", "/P", "/Figure"} <= set(roles)
        pages = [alt for alt in told if alt.startswith("Page ")]
        assert len(pages) == len(pdf.pages) - 1 and pages[0].startswith("Page 2 of ")
        assert any("Back" in alt for alt in pages) and any("Front" in alt for alt in pages)
        assert all(page.StructParents == k for k, page in enumerate(pdf.pages))
