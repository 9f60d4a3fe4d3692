"""PDF: a sheet as pages for a home printer, each size a layer that the reader can switch off.

Every layer is drawn once and every page shows its part of it. Frames, marks and page numbers belong to no layer and
always print.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Problems, error
from draft.geometry.flatten import polyline
from draft.paper.drawing.document import About, Leaf, Shown, pdf_document
from draft.paper.drawing.drawing import Drawing, Item, Label, Layer, Path
from draft.paper.drawing.ink import PageDescription, page_description
from draft.paper.drawing.papers import LARGEST, Paper
from draft.paper.drawing.room import label_spot
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.pages import tiles
from draft.paper.pages.furniture import Said, furniture
from draft.paper.pages.guide import Guide, guide
from draft.paper.pages.tiles import Assembly, Grid, Tile

_THICK = 1.0
"""A line this near to a page, in mm, may show its width on it."""


@dataclass(frozen=True)
class Tiled:
    """A sheet on printed pages: its grid, and the pages of the guide before it, if any."""

    drawing: Drawing
    grid: Grid
    guide: tuple[tuple[Item, ...], ...]
    title: str
    wording: Wording = field(default=ENGLISH)


def on_tiles(
    drawing: Drawing, page: Paper, title: str, assembly: Assembly = "overlap", wording: Wording = ENGLISH
) -> Tiled:
    """The drawing on printed pages, after a guide that says how to print and assemble.

    Raises Problems if the sheet is too large for the format.
    """
    if max(drawing.width, drawing.height) > LARGEST:
        raise Problems([error("the sheet is more than 200 in long, which is too large for a PDF")])
    found = tiles.grid(drawing, page, 2, assembly)
    pages = guide(Guide(drawing, found, wording))
    if len(pages) > 1:
        found = tiles.grid(drawing, page, len(pages) + 1, assembly)
        pages = guide(Guide(drawing, found, wording))
    return Tiled(drawing, found, tuple(pages), title, wording)


def tiled_pdf(tiled: Tiled) -> bytes:
    """The pages as a document; the same input gives the same bytes."""
    ink, drawing, page = list[PageDescription](), tiled.drawing, tiled.grid.page

    def draw(width: float, height: float, items: Iterable[Item]) -> int:
        ink.append(page_description(width, height, items))
        return len(ink) - 1

    first = [draw(page.width, page.height, items) for items in tiled.guide]
    size = drawing.width, drawing.height
    layers = [draw(*size, _paths(layer)) for layer in drawing.layers]
    touching, written = _touching(drawing, tiled.grid), [_Written.of(layer) for layer in drawing.layers]
    leaves = [Leaf(page.width, page.height, above=(Shown(number),)) for number in first]
    said = Said(tiled.title, tiled.grid.tiles[-1].number, tiled.wording)
    for one in tiled.grid.tiles:
        shown = []
        for index, layer in enumerate(drawing.layers):
            labels = written[index].on(tiled.grid, one)
            forms = [layers[index]] if one.number in touching[index] else []
            forms += [draw(*size, labels)] if labels else []
            shown += [Shown(form, *_shift(drawing, tiled.grid, one), layer.size) for form in forms]
        own = furniture(tiled.grid, one, said, tiles.pieces_on(drawing, tiled.grid, one))
        over = Shown(draw(page.width, page.height, own))
        leaves.append(Leaf(page.width, page.height, tuple(shown), (over,), page.margin))
    about = About(tiled.title, tiled.wording.language, drawing.sizes, _bookmarks(tiled))
    return pdf_document(ink, leaves, about)


def _bookmarks(tiled: Tiled) -> tuple[tuple[str, int], ...]:
    """The guide, and each piece by the page that shows most of it."""
    import shapely

    found = [(tiled.wording.say("guide.title"), 0)] if tiled.guide else []
    for footprint in [footprint for footprint in tiled.drawing.footprints if footprint.name]:
        shape = shapely.union_all([shapely.Polygon(ring) for ring in footprint.rings])
        best = max(tiled.grid.tiles, key=lambda one: round(float(tiled.grid.area(one).intersection(shape).area)))
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

    def on(self, grid: Grid, one: Tile) -> list[Item]:
        """Those that show on a page, so that a search finds each word only where it can be read."""
        x, y = grid.corner(one)
        wide, tall = grid.page.live
        left, top, right, bottom = self.boxes.T
        shown = (right >= x) & (left <= x + wide) & (bottom >= y) & (top <= y + tall)
        return [self.labels[k] for k in np.flatnonzero(shown)]


def _touching(drawing: Drawing, grid: Grid) -> list[set[int]]:
    """The numbers of the pages on which each layer has a line."""
    import shapely

    shapes: list[Any] = [grid.area(one).buffer(_THICK) for one in grid.tiles]
    found = []
    for layer in drawing.layers:
        runs = [polyline(run) for item in layer.items if isinstance(item, Path) for run in item.runs]
        lines = shapely.MultiLineString(runs)
        near = [bool(lines.intersects(shape)) for shape in shapes]
        found.append({one.number for one, here in zip(grid.tiles, near, strict=True) if here})
    return found


def _shift(drawing: Drawing, grid: Grid, one: Tile) -> tuple[float, float]:
    """Where the sheet's lower left corner lies on the page, in mm from the page's."""
    x, y = grid.corner(one)
    page = grid.page
    return page.margin - x, page.height - page.margin + y - drawing.height
