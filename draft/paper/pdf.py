"""PDF: a sheet as pages for a home printer, each size a layer that the reader can switch off.

Every layer is drawn once and every page shows its part of it, so a document is small and quick to make. Frames, marks
and page numbers belong to no layer and always print.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from draft.notes import Problems, error
from draft.paper import guide, outline, tiles, words
from draft.paper.drawing import PT, Drawing, Item, Label, Layer, Path
from draft.paper.ink import Ink
from draft.paper.room import label_spot
from draft.paper.tiles import Grid, Tile
from draft.paper.tiles import Page as Paper

_THICK = 1.0
"""A line this near to a page, in mm, may show its width on it."""
_LARGEST = 14_400 * PT
"""The longest side that the format's readers customarily open, in mm (ISO 32000-1, Annex C)."""


def tiled_pdf(drawing: Drawing, page: str, title: str) -> bytes:
    """The drawing on printed pages of a named size, after a first page that says how to print and assemble.

    The same input gives the same bytes on one machine. Raises Problems if the page is not known, the sheet is too
    large for the format, or cairo is missing.
    """
    paper = tiles.paper(page)
    if max(drawing.width, drawing.height) > _LARGEST:
        raise Problems([error("the sheet is more than 200 in long, which is too large for a PDF")])
    grid = tiles.grid(drawing, paper, first_number=2)
    drawn = _Drawn.of(drawing, grid, title)
    return _assemble(drawing, grid, drawn, title)


@dataclass(frozen=True)
class _Drawn:
    """The cairo document and which of its pages holds what; pages by number, counted from 0."""

    data: bytes
    guide: int
    layers: tuple[int, ...]
    words: dict[tuple[int, int], int]
    furniture: dict[int, int]

    @classmethod
    def of(cls, drawing: Drawing, grid: Grid, title: str) -> _Drawn:
        ink, page = Ink(), grid.page
        first = ink.page(page.width, page.height, guide.guide(drawing, grid))
        size = drawing.width, drawing.height
        layers = tuple(ink.page(*size, _paths(layer)) for layer in drawing.layers)
        words_on: dict[tuple[int, int], int] = {}
        furniture: dict[int, int] = {}
        for tile in grid.tiles:
            for index, layer in enumerate(drawing.layers):
                labels = _labels_on(layer, grid, tile)
                if labels:
                    words_on[tile.number, index] = ink.page(*size, labels)
            furniture[tile.number] = ink.page(
                page.width, page.height, tiles.furniture(grid, tile, title, grid.tiles[-1].number)
            )
        return cls(ink.finish(), first, layers, words_on, furniture)


def _paths(layer: Layer) -> list[Item]:
    return [item for item in layer.items if isinstance(item, Path)]


def _labels_on(layer: Layer, grid: Grid, tile: Tile) -> list[Item]:
    """The words that show on a page, so that a search finds each word only where it can be read."""
    shape = _tile_shape(grid, tile)
    return [item for item in layer.items if isinstance(item, Label) and label_spot(item).shape().intersects(shape)]


def _tile_shape(grid: Grid, tile: Tile) -> Any:
    import shapely

    x, y = grid.corner(tile)
    return shapely.box(x, y, x + grid.page.live[0], y + grid.page.live[1])


def _touching(drawing: Drawing, grid: Grid) -> list[set[int]]:
    """The numbers of the pages on which each layer has a line."""
    import shapely

    shapes = [_tile_shape(grid, tile) for tile in grid.tiles]
    found = []
    for layer in drawing.layers:
        runs = [outline.points(run) for item in layer.items if isinstance(item, Path) for run in item.runs]
        lines = shapely.MultiLineString(runs)
        near = [bool(lines.intersects(shape.buffer(_THICK))) for shape in shapes]
        found.append({tile.number for tile, here in zip(grid.tiles, near, strict=True) if here})
    return found


def _assemble(drawing: Drawing, grid: Grid, drawn: _Drawn, title: str) -> bytes:
    import pikepdf

    with pikepdf.open(io.BytesIO(drawn.data)) as pdf:
        forms = [_form(pdf, page) for page in pdf.pages]
        groups = _groups(pdf, drawing)
        touching = _touching(drawing, grid)
        del pdf.pages[:]
        _add_page(pdf, grid.page, [("", forms[drawn.guide], (0.0, 0.0))], groups)
        for tile in grid.tiles:
            shown = [
                (layer.size, forms[at], _shift(drawing, grid, tile))
                for index, layer in enumerate(drawing.layers)
                for at in _parts(index, tile, drawn, touching[index])
            ]
            _add_page(pdf, grid.page, shown, groups, forms[drawn.furniture[tile.number]])
        _describe(pdf, drawing, groups, title)
        return _saved(pdf)


def _parts(index: int, tile: Tile, drawn: _Drawn, touching: set[int]) -> list[int]:
    """The lines and the words of a layer, if the page shows any."""
    lines = [drawn.layers[index]] if tile.number in touching else []
    written = drawn.words.get((tile.number, index))
    return lines + ([written] if written is not None else [])


def _form(pdf: Any, page: Any) -> Any:
    form = page.as_form_xobject()
    if "/Group" in form:
        del form["/Group"]
    return pdf.make_indirect(form)


def _shift(drawing: Drawing, grid: Grid, tile: Tile) -> tuple[float, float]:
    """Where the sheet's lower left corner lies on the page, in mm from the page's."""
    x, y = grid.corner(tile)
    page = grid.page
    return page.margin - x, page.height - page.margin + y - drawing.height


def _add_page(
    pdf: Any,
    page: Paper,
    shown: Sequence[tuple[str, Any, tuple[float, float]]],
    groups: dict[str, Any],
    over: Any = None,
) -> None:
    """A page that shows parts of the sheet within its frame, each in its size's group, and `over` all of them."""
    from pikepdf import Dictionary, Name, Page

    forms, used, lines = Dictionary(), Dictionary(), []
    if over is not None:
        lines += ["q", _numbers(page.margin, page.margin, *page.live) + " re W n"]
    for index, (size, form, (x, y)) in enumerate(shown):
        forms[f"/S{index}"] = form
        draw = f"q 1 0 0 1 {_numbers(x, y)} cm /S{index} Do Q"
        if size:
            group = f"/G{list(groups).index(size)}"
            used[group] = groups[size]
            draw = f"/OC {group} BDC {draw} EMC"
        lines.append(draw)
    if over is not None:
        forms["/Over"] = over
        lines += ["Q", "/Over Do"]
    box = [0, 0, round(page.width / PT, 4), round(page.height / PT, 4)]
    leaf = Dictionary(Type=Name.Page, MediaBox=box, Resources=Dictionary(XObject=forms, Properties=used))
    leaf.Contents = pdf.make_stream("\n".join(lines).encode("ascii"))
    pdf.pages.append(Page(pdf.make_indirect(leaf)))


def _numbers(*mm: float) -> str:
    return " ".join(f"{value / PT:.5f}".rstrip("0").rstrip(".") for value in mm)


def _groups(pdf: Any, drawing: Drawing) -> dict[str, Any]:
    """An optional content group for each size: no Usage and no AS, which some viewers put above the reader's choice."""
    from pikepdf import Dictionary, Name, String

    return {size: pdf.make_indirect(Dictionary(Type=Name.OCG, Name=String(size))) for size in drawing.sizes}


def _describe(pdf: Any, drawing: Drawing, groups: dict[str, Any], title: str) -> None:
    from pikepdf import Array, Dictionary, Name, String

    root = pdf.Root
    if groups:
        every = Array(groups.values())
        root.OCProperties = Dictionary(OCGs=every, D=Dictionary(Order=every, ON=every))
    root.ViewerPreferences = Dictionary(
        PrintScaling=Name("/None"), Duplex=Name.Simplex, PickTrayByPDFSize=True, DisplayDocTitle=True
    )
    root.Lang = String(words.LANGUAGE)
    root.PageLabels = Dictionary(Nums=Array([0, Dictionary(S=Name.D)]))
    if "/Info" in pdf.trailer:
        del pdf.trailer["/Info"]
    pdf.docinfo["/Title"] = title
    pdf.docinfo["/Creator"] = "plainseam"


def _saved(pdf: Any) -> bytes:
    import pikepdf

    file = io.BytesIO()
    pdf.remove_unreferenced_resources()
    pdf.save(file, min_version="1.6", deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return file.getvalue()
