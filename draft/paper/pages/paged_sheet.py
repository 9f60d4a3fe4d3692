"""PDF: a sheet as pages for a home printer, each size a layer that the reader can switch off.

Every layer is drawn once and every page shows its part of it. Frames, match marks and page numbers belong to no layer
and always print.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field, replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Problems, error
from draft.base.record import dataclass
from draft.geometry.flatten import polyline_each
from draft.paper.drawing.document import About, Leaf, Shown, pdf_document
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Path
from draft.paper.drawing.imprint import NO_IMPRINT, Imprint
from draft.paper.drawing.ink import PageDescription, page_description
from draft.paper.drawing.mark_places import marks_shown, without_places
from draft.paper.drawing.papers import Paper
from draft.paper.drawing.passage import Passage
from draft.paper.drawing.room import label_spot
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.pages import page_grid
from draft.paper.pages.furniture import Said, furniture, told_of
from draft.paper.pages.guide import guide
from draft.paper.pages.guide_parts import Guide
from draft.paper.pages.page_grid import Assembly, Grid, Page

_THICK = 1.0
"""A line this near to a page, in mm, may show its width on it."""


_LONGEST = 32_767 * PT
"""No place on the sheet is further from its corner, mm: the number that older readers keep (from memory)."""
_SHORTER = "print it on larger pages, or write it as two patterns"


@dataclass(frozen=True)
class PagedSheet:
    """A sheet on printed pages: its grid, and the pages of the guide before it, if any."""

    drawing: Drawing
    grid: Grid
    guide: tuple[tuple[Item, ...], ...]
    title: str
    wording: Wording = field(default=ENGLISH)
    imprint: Imprint = NO_IMPRINT


def paged_sheet(
    drawing: Drawing,
    paper: Paper,
    title: str,
    assembly: Assembly = "overlap",
    wording: Wording = ENGLISH,
    imprint: Imprint = NO_IMPRINT,
) -> PagedSheet:
    """The drawing on printed pages, after a guide that says how to print and assemble.

    Raises Problems if the sheet is too large for the format.
    """
    if max(drawing.width, drawing.height) > _LONGEST:
        raise Problems(
            [error(f"the sheet of all pages is over {_LONGEST / 1000:.0f} m long, too long for a PDF", None, _SHORTER)]
        )
    found = page_grid.grid(drawing, paper, 2, assembly)
    pages = guide(Guide(drawing, found, wording, imprint))
    if len(pages) > 1:
        found = page_grid.numbered_from(found, len(pages) + 1)
        pages = guide(Guide(drawing, found, wording, imprint))
    return PagedSheet(drawing, found, tuple(pages), title, wording, imprint)


def without_drawing(sheet: PagedSheet) -> PagedSheet:
    """What there is to say of a sheet and its pages, without what is printed on them: little, for another process."""
    return replace(sheet, drawing=replace(sheet.drawing, layers=()), guide=tuple(() for _ in sheet.guide))


def paged_pdf(sheet: PagedSheet) -> bytes:
    """The pages as a document; the same input gives the same bytes."""
    ink, drawing, paper = list[PageDescription](), sheet.drawing, sheet.grid.paper

    def draw(width: float, height: float, items: Iterable[Item], marked: bool = False) -> int:
        ink.append(page_description(width, height, without_places(items), marked))
        return len(ink) - 1

    first = [draw(paper.width, paper.height, items, marked=True) for items in sheet.guide]
    size = drawing.width, drawing.height
    layers = [draw(*size, _paths(layer)) for layer in drawing.layers]
    touching, written = _touching(drawing, sheet.grid), [_Written.of(layer) for layer in drawing.layers]
    size_of, face = (paper.width, paper.height), sheet.imprint.face
    leaves = [
        Leaf(*size_of, above=tuple(marks_shown(items, face, paper.height, size_of)), marked=number)
        for number, items in zip(first, sheet.guide, strict=True)
    ]
    named = page_grid.pieces_by_page(drawing, sheet.grid)
    said = Said(sheet.title, sheet.grid.pages[-1].number, sheet.wording, sheet.wording.imprint(sheet.imprint))
    for page in sheet.grid.pages:
        shown = []
        for index, layer in enumerate(drawing.layers):
            labels = written[index].on(sheet.grid, page)
            numbers = [layers[index]] if page.number in touching[index] else []
            numbers += [draw(*size, labels)] if labels else []
            at = _shift(drawing, sheet.grid, page)
            shown += [Shown(number, *at, layer.size) for number in numbers]
            shown += marks_shown(layer.items, face, drawing.height, size_of, at)
        own = furniture(sheet.grid, page, said, named[page])
        over = Shown(draw(paper.width, paper.height, own))
        told = Passage("Figure", told_of(page, said, named[page] or [sheet.title]))
        leaves.append(Leaf(paper.width, paper.height, tuple(shown), (over,), paper.margin, figure=told))
    about = About(sheet.title, sheet.wording.language, drawing.sizes, _bookmarks(sheet), imprint=sheet.imprint)
    return pdf_document(ink, leaves, about, [face.mark.data] if face.mark else [])


def _bookmarks(sheet: PagedSheet) -> tuple[tuple[str, int], ...]:
    """The guide, and each piece by the page that shows most of it."""
    import shapely

    found = [(sheet.wording.say("guide.title"), 0)] if sheet.guide else []
    for footprint in [footprint for footprint in sheet.drawing.footprints if footprint.name]:
        shape = shapely.union_all([shapely.Polygon(ring) for ring in footprint.rings])
        best = max(sheet.grid.pages, key=lambda page: round(float(sheet.grid.area(page).intersection(shape).area)))
        found.append((footprint.name, best.number - 1))
    return tuple(found)


def _paths(layer: Layer) -> list[Item]:
    return [item for item in layer.items if isinstance(item, Path)]


@dataclass(frozen=True)
class _Written:
    """The words of a layer, and the boxes `(n, 4)` that they take up: left, top, right, bottom."""

    labels: tuple[Label, ...]
    boxes: Floats

    @classmethod
    def of(cls, layer: Layer) -> _Written:
        labels = tuple(item for item in layer.items if isinstance(item, Label))
        return cls(labels, np.array([label_spot(label).box for label in labels]).reshape(-1, 4))

    def on(self, grid: Grid, page: Page) -> list[Item]:
        """Those that show on a page, so that a search finds each word only where it can be read."""
        x, y = grid.corner(page)
        wide, tall = grid.paper.live
        left, top, right, bottom = self.boxes.T
        shown = (right >= x) & (left <= x + wide) & (bottom >= y) & (top <= y + tall)
        return [self.labels[k] for k in np.flatnonzero(shown)]


def _touching(drawing: Drawing, grid: Grid) -> list[set[int]]:
    """The numbers of the pages on which each layer has a line."""
    import shapely

    shapes = shapely.buffer([grid.area(page) for page in grid.pages], _THICK)
    found = []
    for layer in drawing.layers:
        runs = polyline_each([run for item in layer.items if isinstance(item, Path) for run in item.runs])
        lines = shapely.MultiLineString(runs)
        shapely.prepare(lines)
        near = shapely.intersects(lines, shapes)
        found.append({page.number for page, here in zip(grid.pages, near, strict=True) if here})
    return found


def _shift(drawing: Drawing, grid: Grid, page: Page) -> tuple[float, float]:
    """Where the sheet's lower left corner lies on the page, in mm from the page's."""
    x, y = grid.corner(page)
    paper = grid.paper
    return paper.margin - x, paper.height - paper.margin + y - drawing.height
