"""A pattern put together from its printed pages alone is the pattern; any paper, overlapped or edge to edge."""

from __future__ import annotations

import io
from itertools import combinations

import numpy as np
import pikepdf
import pytest
import shapely

from draft.base.notes import Problems
from draft.garment.garment import Garment
from draft.pack.files_on_pages import paged_sheets
from draft.pack.printed_files import Printing
from draft.paper.drawing.drawing import PT, Drawing, Label
from draft.paper.drawing.papers import LEAST, Paper, paper
from draft.paper.drawing.room import label_spot
from draft.paper.drawing.wording import ENGLISH
from draft.paper.pages.furniture import half_match
from draft.paper.pages.guide_parts import printing_steps, ranges, sizes_alike
from draft.paper.pages.key import size_key
from draft.paper.pages.packing import pack_on_pages
from draft.paper.pages.page_grid import Assembly, Grid, least_pages, pages_by_size
from draft.paper.pages.paged_sheet import PagedSheet, paged_pdf, paged_sheet
from draft.paper.pages.sheet import draw_pattern
from draft.paper.piece.title_block import SMALLEST
from tests.asking import bundled
from tests.paper.assembling import assembled_places, read_pages
from tests.paper.made_up import SIZES
from tests.paper.patterns import PATTERNS, on_paper
from tests.paper.printed import pdf_files
from tests.paper.reading import raster, text_of

THIRD = {"marlpit": "a5", "tidemill": "tabloid", "ropewalk": "legal"}
"""Besides Letter and A4, each pattern is read on one more paper."""


def _whole(drawing: Drawing) -> np.ndarray:
    """The sheet as one page without frame or match marks, a pixel to the point."""
    whole = Paper("whole", drawing.width + 25.4, drawing.height + 25.4, 12.7)
    return raster(paged_pdf(paged_sheet(drawing, whole, "t")), 1, scale=1.0)[36:-36, 36:-36]


@pytest.mark.parametrize(
    ("name", "assembly"),
    [("letter", "overlap"), ("a4", "overlap"), ("a3", "overlap"), ("letter", "butt"), ("297x210mm", "butt")],
)
def test_pages_put_together_by_their_match_marks_are_the_sheet(garment: Garment, name: str, assembly: Assembly) -> None:
    (sheet,) = paged_sheets(garment, Printing((name,), assembly))
    _put_together(sheet, assembly)


@pytest.mark.parametrize(
    ("name", "assembly", "size"), [("letter", "overlap", "2XL"), ("letter", "butt", "L"), ("a4", "overlap", "3XL")]
)
def test_pages_of_one_size_with_turned_pieces_are_the_sheet(name: str, assembly: Assembly, size: str) -> None:
    garment = bundled("marlpit").garment
    drawn = draw_pattern(garment, [garment.sizes.index(size)])
    packing = pack_on_pages([piece.footprint.rings for piece in drawn.pieces], paper(name).live)
    assert {turn.quarters for turn in packing.turns} > {0}
    (sheet,) = paged_sheets(garment, Printing((name,), assembly), [size])
    _put_together(sheet, assembly)


def _put_together(sheet: PagedSheet, assembly: Assembly) -> None:
    """Lays the pages by what they say, and compares them with the sheet that was never cut."""
    data = paged_pdf(sheet)
    pages = read_pages(data)
    places = assembled_places(pages)
    assert len(places) == len(pages) == len(sheet.grid.pages)
    by_number = {page.number: page for page in pages}
    left, top = (min(place[k] for place in places.values()) for k in (0, 1))
    for page in pages:
        for other in page.cut:
            assert page.number in (by_number[other].cut if assembly == "butt" else by_number[other].kept)
        assert not (page.kept and assembly == "butt")
        right, below = (places[page.number][k] + page.frame[2 + k] - page.frame[k] for k in (0, 1))
        near = {by_number[n].number for n in (*page.cut, *page.kept)}
        for other in near:
            x, y = places[other]
            assert min(abs(x - right), abs(y - below), *_behind(places, by_number[other], page.number)) < 0.3
    assembled = np.full(
        (round(sheet.drawing.height / PT) + 2, round(sheet.drawing.width / PT) + 2), 255, dtype=np.uint8
    )
    for page in pages:
        x0, y0, x1, y1 = (round(v) for v in page.frame)
        shown = raster(data, page.index, scale=1.0)[y0:y1, x0:x1]
        x, y = round(places[page.number][0] - left), round(places[page.number][1] - top)
        assembled[y : y + shown.shape[0], x : x + shown.shape[1]] = shown
    _compare(sheet, assembled)


def _behind(places: dict[int, tuple[float, float]], other: object, number: int) -> list[float]:
    """How far the far edges of a neighbour are from a page's near ones."""
    frame, (x, y) = other.frame, places[other.number]  # type: ignore[attr-defined]
    return [abs(x + frame[2] - frame[0] - places[number][0]), abs(y + frame[3] - frame[1] - places[number][1])]


def _compare(sheet: PagedSheet, assembled: np.ndarray) -> None:
    """Ink of the whole sheet is on the assembled one too, to a pixel; besides it are frames, match marks, numbers."""
    whole = _whole(sheet.drawing)
    height, width = (min(a, b) for a, b in zip(whole.shape, assembled.shape, strict=True))
    ink = whole[:height, :width] < 160
    inked = np.pad(assembled[:height, :width] < 235, 1)
    near = np.zeros_like(ink)
    for dy in (0, 1, 2):
        for dx in (0, 1, 2):
            near |= inked[dy : dy + height, dx : dx + width]
    assert ink.sum() > 10_000
    assert (ink & ~near).sum() < 1e-3 * ink.sum()


@pytest.mark.parametrize("sizes", [(), ("M",)], ids=["all", "M"])
@pytest.mark.parametrize("pattern", PATTERNS)
def test_no_word_is_split_upside_down_small_or_under_a_match_mark(pattern: str, sizes: tuple[str, ...]) -> None:
    for name in ("letter", "a4", "a3" if sizes else THIRD[pattern]):
        sheet = on_paper(pattern, name, *sizes)
        areas = shapely.STRtree([sheet.grid.area(page) for page in sheet.grid.pages])
        match_marks = shapely.STRtree([half for shared in sheet.grid.shared_edges for half in _match_mark(shared)])
        for label in [item for item in sheet.drawing.items() if isinstance(item, Label)]:
            shape = label_spot(label).shape()
            assert len(areas.query(shape, predicate="within")) == 1, label.text
            assert label.size >= SMALLEST * PT - 1e-9
            assert -91 <= (label.angle + 180) % 360 - 180 <= 91, (label.text, label.angle)
            assert not len(match_marks.query(shape, predicate="intersects")), label.text


def _match_mark(shared: object) -> list[shapely.Geometry]:
    halves = [half_match(shared, shared.x, shared.y, first)[0] for first in (True, False)]  # type: ignore[arg-type, attr-defined]
    return [shapely.box(*half.box().ravel()) for half in halves]


def test_each_size_needs_the_pages_that_show_it(garment: Garment) -> None:
    for sheet in paged_sheets(garment, Printing(("letter", "a4"))):
        found = pages_by_size(sheet.drawing, sheet.grid)
        assert list(found) == list(SIZES)
        for index, numbers in enumerate(found.values()):
            needed = shapely.union_all(
                [shapely.Polygon(ring) for footprint in sheet.drawing.footprints for ring in footprint.by_size[index]]
            )
            shown = [page.number for page in sheet.grid.pages if sheet.grid.area(page).intersection(needed).area > 1e-6]
            assert set(shown) <= set(numbers) and len(numbers) - len(shown) <= 1
        said = text_of(paged_pdf(sheet), 0).replace("\r", "")
        assert f"3XL {ranges(found['3XL'])}" in said.replace("\n", " ")


@pytest.mark.parametrize(
    ("numbers", "said"), [([], ""), ([2], "2"), ([2, 3, 4, 7, 9, 10], "2–4, 7, 9–10"), ([5, 7], "5, 7")]
)
def test_ranges_of_pages(numbers: list[int], said: str) -> None:
    assert ranges(numbers) == said


def test_the_command_is_told_the_pages_and_their_lower_bound(garment: Garment) -> None:
    said: list[str] = []
    pdf_files(garment, Printing(("letter",)), tell=said.append)
    (sheet,) = paged_sheets(garment, Printing(("letter",)))
    count, least = len(sheet.grid.pages), least_pages(sheet.drawing, sheet.grid.paper)
    area = sum(
        shapely.union_all([shapely.Polygon(r) for r in footprint.rings]).area for footprint in sheet.drawing.footprints
    )
    assert least == int(np.ceil(area / (190.5 * 254))) <= count
    assert said == [f"pattern-letter.pdf: {count} pages and a guide; the area of the pieces alone is that of {least}"]


@pytest.mark.parametrize("pattern", PATTERNS)
def test_the_patterns_stay_within_their_pages(pattern: str) -> None:
    nested, single = on_paper(pattern, "letter"), on_paper(pattern, "letter", "M")
    assert len(nested.grid.pages) <= 20 and len(single.grid.pages) <= 14


@pytest.mark.parametrize(
    ("size", "letter", "a4"),
    [("XS", 11, 11), ("S", 12, 11), ("M", 12, 12), ("L", 13, 12), ("XL", 14, 13), ("2XL", 15, 14), ("3XL", 16, 15)],
)
def test_each_size_of_the_marlpit_top_stays_within_its_pages(size: str, letter: int, a4: int) -> None:
    """Front and back of 2XL and 3XL alone need 14 and 15 of Letter, with no strip for a band: see the benchmarks."""
    counts = [len(on_paper("marlpit", name, size).grid.pages) for name in ("letter", "a4")]
    assert counts[0] <= letter and counts[1] <= a4


def test_bookmarks_lead_to_the_pieces(garment: Garment) -> None:
    (sheet,) = paged_sheets(garment, Printing(("a4",)))
    data = paged_pdf(sheet)
    with pikepdf.open(io.BytesIO(data)) as pdf, pdf.open_outline() as outline:
        names = [item.title for item in outline.root]
        pages = [pdf.pages.index(pikepdf.Page(item.destination[0])) for item in outline.root]  # type: ignore[index]
    assert names == ["Print and put together", "Front", "Back", "Sleeve band", "Neckband"]
    assert pages[0] == 0
    for name, page in zip(names[1:], pages[1:], strict=True):
        assert name in text_of(data, page)


@pytest.mark.parametrize("name", ["a5", "250x120mm", "5.5x11in", "12x12in"])
def test_odd_paper_has_a_guide_too(garment: Garment, name: str) -> None:
    (sheet,) = paged_sheets(garment, Printing((name,)), ["S", "M"])
    data = paged_pdf(sheet)
    used = sheet.grid.paper
    said = " ".join(text_of(data, index) for index in range(len(sheet.guide))).replace("\r", "").replace("\n", " ")
    for words in ("Print at 100 %", "1 in", "5 cm", "Pages for one size", "How the pages lie", "Neckband"):
        assert words in said
    for items in sheet.guide:
        for item in items:
            low, high = (
                (label_spot(item).shape().bounds[k : k + 2] for k in (0, 2)) if isinstance(item, Label) else item.box()
            )
            assert low[0] >= used.margin - 0.5 and high[0] <= used.width - used.margin + 0.5
            assert low[1] >= used.margin - 0.5 and high[1] <= used.height - used.margin + 0.5
        labels = [label_spot(item).shape(-0.1) for item in items if isinstance(item, Label)]
        assert not any(a.intersects(b) for a, b in combinations(labels, 2))
    assert read_pages(data)[0].number == len(sheet.guide) + 1


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("a9", "`a9` is not a page size"),
        ("100x100mm", "leaves 75 x 75 mm"),
        ("10x400mm", "leaves 0 x 375 mm"),
        ("0x0mm", "leaves 0 x 0 mm"),
        ("8000x200mm", "more than 200 in"),
        ("-210x297mm", "is not a page size"),
        ("210xmm", "is not a page size"),
        ("9" * 50 + "x" + "9" * 50 + "mm", "is not a page size"),
        ("", "is not a page size"),
    ],
)
def test_paper_that_cannot_be_printed_on_is_told(name: str, message: str) -> None:
    with pytest.raises(Problems) as caught:
        paper(name)
    assert message in caught.value.notes[0].message and len(caught.value.notes[0].message) < 200


@pytest.mark.parametrize(
    ("name", "sides"),
    [("A4", (210, 297)), ("210x297mm", (210, 297)), ("21 x 29.7 cm", (210, 297)), ("8.5x11in", (215.9, 279.4)),
     ("8.5×11 in", (215.9, 279.4))],
)  # fmt: skip
def test_paper_by_name_and_by_measures(name: str, sides: tuple[float, float]) -> None:
    found = paper(name)
    assert (found.width, found.height) == pytest.approx(sides)
    assert min(found.live) >= LEAST


def test_a_grid_of_one_page_has_no_frame_to_cut() -> None:
    drawing = Drawing("t", 100, 100, ())
    grid: Grid = paged_sheet(drawing, paper("a4"), "t").grid
    assert len(grid.pages) == 1 and not grid.cut


@pytest.mark.parametrize("width", [77.5, 242.0])
@pytest.mark.parametrize("count", [2, 7, 20, 60])
def test_the_key_of_any_number_of_sizes_stays_within_its_width(count: int, width: float) -> None:
    for names in ([str(34 + 2 * k) for k in range(count)], [f"{'long ' * 12}{k}" for k in range(count)]):
        items, low = size_key(names, 0.0, 0.0, width, rows=9)
        labels = [item for item in items if isinstance(item, Label)]
        assert len(labels) == count and len(items) == 2 * count
        shapes = [label_spot(label).shape() for label in labels]
        assert max(shape.bounds[2] for shape in shapes) <= width + 1e-6
        assert max(shape.bounds[3] for shape in shapes) <= low
        assert not any(a.intersects(b) for a, b in combinations(shapes, 2))


def test_sizes_that_need_the_same_pages_are_named_together() -> None:
    found = {"S": [2, 3], "M": [2, 3], "L": [2, 3, 4], "XL": [2, 3, 4], "2XL": [5]}
    assert sizes_alike(found) == [("S – M", [2, 3]), ("L – XL", [2, 3, 4]), ("2XL", [5])]


def test_match_marks_are_named_by_letters_that_are_no_figures() -> None:
    names = [shared.name for shared in on_paper("marlpit", "a5").grid.shared_edges]
    assert len(set(names)) == len(names)
    assert not {name[0] for name in names} & {"I", "O"}
    assert max(name[0] for name in names) >= "J"  # so many rows that I would have been one


def test_a_single_page_behind_the_first_is_no_range_of_pages() -> None:
    said = dict(printing_steps(2, 2, "", False, "overlap", ENGLISH))
    assert said["Print the rest"] == "Page 2, on one side of the paper."
    assert "Pages 2 to 5" in dict(printing_steps(2, 5, "A1", False, "overlap", ENGLISH))["Print the rest"]
