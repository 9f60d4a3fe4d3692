"""A sheet cut into printed pages: which pages there are, which edges they share, and what marks each page.

Every shared edge has a name of its own and both of its pages bear one half of its mark, so that no wrong neighbour
fits. Edges side by side have half-rings, edges one below the other half-diamonds; the letter tells the line of edges
down the sheet and the number the place in that line.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from draft.notes import Problems, error, nearest
from draft.paper import font, outline, styles, words
from draft.paper.drawing import PT, Drawing, Item, Label, Path, Stroke, arc, box, chain
from draft.paper.label_block import SMALLEST
from draft.paper.room import label_spot


@dataclass(frozen=True)
class Page:
    """A size of paper: width, height and the margin that home printers keep free, in mm."""

    name: str
    width: float
    height: float
    margin: float

    @property
    def live(self) -> tuple[float, float]:
        """Width and height of what is printed of the sheet."""
        return self.width - 2 * self.margin, self.height - 2 * self.margin


PAGES = {
    page.name: page
    for page in (
        # ANSI/ASME Y14.1 sizes in inches; margins of 1/2 in are common practice for home printers
        Page("letter", 215.9, 279.4, 12.7),
        Page("legal", 215.9, 355.6, 12.7),
        Page("tabloid", 279.4, 431.8, 12.7),
        # ISO 216 sizes
        Page("a4", 210.0, 297.0, 12.7),
        Page("a3", 297.0, 420.0, 12.7),
        Page("a0", 841.0, 1189.0, 12.7),
    )
}


def paper(name: str) -> Page:
    """The page size called `name`. Raises Problems if there is none."""
    if name not in PAGES:
        raise Problems([error(f"`{name}` is not a page size", None, *nearest(name, PAGES))])
    return PAGES[name]


MARK = 6.5
"""Radius of a match mark, in mm: its name fits in each half."""
_TEXT = SMALLEST * PT
_ASIDE = 3.6
"""From the frame to the words in the margin, in mm: off the trimmed edge, and on paper that home printers reach."""
_PLACES = tuple(0.5 + 0.035 * step * side for step in range(12) for side in ((1, -1) if step else (1,)))
"""Where along a shared edge its mark may stand, the middle first: it goes where the least is drawn."""
_HAIR = 1e-6  # a sheet that is larger than its pages by rounding alone needs no further page
_FRAME = Stroke(styles.FINE, join="miter")


@dataclass(frozen=True)
class Tile:
    """One printed page of the sheet, by row and column from 0, and its page number."""

    row: int
    column: int
    number: int


@dataclass(frozen=True)
class Join:
    """An edge that two pages share: its name, and the middle of its mark on the sheet in mm."""

    name: str
    first: Tile
    second: Tile
    x: float
    y: float

    @property
    def beside(self) -> bool:
        """Whether the second page lies beside the first, not below it."""
        return self.first.row == self.second.row


@dataclass(frozen=True)
class Grid:
    """The sheet's pages in reading order; pages that no piece touches are left out."""

    page: Page
    tiles: tuple[Tile, ...]
    joins: tuple[Join, ...]

    @cached_property
    def by_place(self) -> dict[tuple[int, int], Tile]:
        """Each page by its row and column."""
        return {(tile.row, tile.column): tile for tile in self.tiles}

    def corner(self, tile: Tile) -> tuple[float, float]:
        """Where the page's printed area begins on the sheet, in mm."""
        return tile.column * self.page.live[0], tile.row * self.page.live[1]


def grid(drawing: Drawing, page: Page, first_number: int) -> Grid:
    """The pages that a drawing needs, numbered from `first_number`, and their joins."""
    import shapely

    wide, tall = page.live
    needed = shapely.union_all([shapely.Polygon(ring) for ring in drawing.areas] or [_everything(drawing)])
    shapely.prepare(needed)
    columns, rows = (
        max(1, math.ceil(side / step - _HAIR)) for side, step in zip(_size(drawing), page.live, strict=True)
    )
    places = [
        (row, column)
        for row in range(rows)
        for column in range(columns)
        if needed.intersects(shapely.box(column * wide, row * tall, (column + 1) * wide, (row + 1) * tall))
    ]
    tiles = tuple(Tile(row, column, first_number + k) for k, (row, column) in enumerate(places))
    found = Grid(page, tiles, ())
    return Grid(page, tiles, _joins(found, Crowd(drawing)))


def _size(drawing: Drawing) -> tuple[float, float]:
    return drawing.width, drawing.height


def _everything(drawing: Drawing) -> Any:
    import shapely

    return shapely.box(0, 0, drawing.width, drawing.height)


class Crowd:
    """What is drawn on the sheet, for finding where it is empty."""

    def __init__(self, drawing: Drawing) -> None:
        import shapely

        shapes = []
        for item in drawing.items():
            if isinstance(item, Label):
                shapes.append(label_spot(item).shape())
            else:
                shapes += [shapely.LineString(outline.points(run)) for run in item.runs]
        self._tree = shapely.STRtree(shapes)

    def around(self, spot: tuple[float, float], radius: float) -> int:
        """How many drawn things come within `radius` mm of a point."""
        import shapely

        return len(self._tree.query(shapely.Point(spot), predicate="dwithin", distance=radius))


def _joins(found: Grid, crowd: Crowd) -> tuple[Join, ...]:
    wide, tall = found.page.live
    joins = []
    for tile in found.tiles:
        x, y = found.corner(tile)
        beside = found.by_place.get((tile.row, tile.column + 1))
        below = found.by_place.get((tile.row + 1, tile.column))
        if beside:
            spots = [(x + wide, y + tall * part) for part in _PLACES]
            joins.append(Join(_name(2 * tile.row, tile.column), tile, beside, *_emptiest(spots, crowd)))
        if below:
            spots = [(x + wide * part, y + tall) for part in _PLACES]
            joins.append(Join(_name(2 * tile.row + 1, tile.column), tile, below, *_emptiest(spots, crowd)))
    return tuple(joins)


def _emptiest(spots: Sequence[tuple[float, float]], crowd: Crowd) -> tuple[float, float]:
    return min(spots, key=lambda spot: crowd.around(spot, MARK + 1.0))


def _name(line: int, place: int) -> str:
    """`A1` for the first edge of the first line of edges; after Z comes AA."""
    letters = ""
    line += 1
    while line:
        line, rest = divmod(line - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return f"{letters}{place + 1}"


def furniture(found: Grid, tile: Tile, title: str, last_number: int) -> tuple[Item, ...]:
    """Everything on a page that is not the sheet: frame, title, numbers, what to trim, half marks; mm on the page."""
    page = found.page
    frame = Path((box(page.margin, page.margin, *page.live),), _FRAME, closed=True, id="frame")
    return (frame, *_heading(page, tile, title, last_number), *_margins(found, tile), *_halves(found, tile))


def _heading(page: Page, tile: Tile, title: str, last_number: int) -> tuple[Item, ...]:
    base, position = page.margin - 2.2, words.page_position(tile.number, last_number, tile.row + 1, tile.column + 1)
    room = page.live[0] - font.text_width(position, _TEXT) - 12.0
    return (
        Label(font.shortened(title, _TEXT, room, bold=True), page.margin, base, _TEXT, bold=True),
        Label(position, page.width - page.margin, base, _TEXT, "end"),
    )


def _margins(found: Grid, tile: Tile) -> tuple[Item, ...]:
    """What happens to each margin, told by the page that joins there."""
    page, at = found.page, found.by_place.get
    right, below, left = (at((tile.row + r, tile.column + c)) for r, c in ((0, 1), (1, 0), (0, -1)))
    middle_x, middle_y, low = page.width / 2, page.height / 2, _TEXT * font.CAP_HEIGHT
    items: list[Item] = []
    if right:
        x = page.width - page.margin + _ASIDE
        items.append(Label(words.TRIM.format(page=right.number), x - low / 2, middle_y, _TEXT, "middle", 90.0))
    if below:
        y = page.height - page.margin + _ASIDE + low / 2
        items.append(Label(words.TRIM.format(page=below.number), middle_x, y, _TEXT, "middle"))
    if left:
        x = page.margin - _ASIDE
        items.append(Label(words.UNDER.format(page=left.number), x + low / 2, middle_y, _TEXT, "middle", -90.0))
    return tuple(items)


def _halves(found: Grid, tile: Tile) -> tuple[Item, ...]:
    x, y = found.corner(tile)
    dx, dy = found.page.margin - x, found.page.margin - y
    items: list[Item] = []
    for join in found.joins:
        if tile in (join.first, join.second):
            items += half_mark(join, join.x + dx, join.y + dy, first=tile == join.first)
    return tuple(items)


def half_mark(join: Join, x: float, y: float, first: bool) -> tuple[Item, ...]:
    """The half of a join's mark on its first page (left, or above) or its second, about a point of the page."""
    side = -1 if first else 1
    low = _TEXT * font.CAP_HEIGHT
    if join.beside:
        shape = arc(x, y, MARK, first=1 if first else 3, quarters=2)
        word = (x + side * MARK * 0.47, y + low / 2)
    else:
        shape = chain([(x - MARK * 1.2, y), (x, y + side * MARK * 1.2), (x + MARK * 1.2, y)])
        word = (x, y + side * MARK * 0.42 + low / 2)
    return Path((shape,), styles.mark()), Label(join.name, *word, _TEXT, "middle", bold=True)
