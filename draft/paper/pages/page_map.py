"""The map of the pages: the whole sheet small, with the pieces on it and the number of each page."""

from __future__ import annotations

from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Path, Stroke, rectangle
from draft.paper.pages.page_grid import Grid

_LIGHT = Stroke(0.2, colour="#8c8c8c", join="miter")
_SHADE = "#e6e6e6"


def sheet_sides(grid: Grid) -> tuple[float, float]:
    """How wide and how high the pages are together, mm."""
    return grid.shape[0] * grid.paper.live[0], grid.shape[1] * grid.paper.live[1]


def map_height(width: float, grid: Grid, most: float) -> float:
    """How high a map of this width is, at most so many mm."""
    wide, tall = sheet_sides(grid)
    return min(most, tall * width / wide)


def sheet_map(drawing: Drawing, grid: Grid, scale: float) -> list[Item]:
    """The sheet made small from its corner: pieces, the pages' edges and their numbers."""
    wide, tall = (side * scale for side in grid.paper.live)
    areas = [ring for one in drawing.footprints for ring in one.outline or one.rings]
    items: list[Item] = [Path((lines_through(area * scale),), fill=_SHADE, closed=True) for area in areas]
    for page in grid.pages:
        x, y = page.column * wide, page.row * tall
        items.append(Path((rectangle(x, y, wide, tall),), _LIGHT, closed=True))
        size = min(11.0 * PT, 0.6 * min(wide, tall), 1.3 * wide / len(str(grid.pages[-1].number)))
        items.append(Label(str(page.number), x + wide / 2, y + tall / 2 + 0.36 * size, size, "middle", bold=True))
    return items
