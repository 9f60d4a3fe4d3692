"""The first printed page: how to print, squares to measure, and a map of the pages."""

from __future__ import annotations

from draft.paper import font, key, words
from draft.paper.drawing import PT, Drawing, Item, Label, Path, Stroke, Turn, box, chain
from draft.paper.tiles import Grid

_BODY = 10.0 * PT
_TITLE, _HEAD = 28.0 * PT, 14.0 * PT
_LEADING = 1.42
_GUTTER = 12.0
_MAP_TALLEST = 110.0
_LIGHT = Stroke(0.2, colour="#8c8c8c", join="miter")
_SHADE = "#e6e6e6"
_SQUARES = key.METRIC + key.SECOND


def guide(drawing: Drawing, grid: Grid) -> tuple[Item, ...]:
    """The items of the first page, in mm on the page."""
    page = grid.page
    left, right = page.margin, page.width - page.margin
    column = right - _SQUARES
    head, y = _head(drawing, left, page.margin, right - left)
    y += 9.0
    steps, low = _steps(drawing, grid, left, y, column - left - _GUTTER)
    side, beside = _side(drawing, column, y, right - column)
    top = max(low, beside) + 6.0
    plan = _map(drawing, grid, (left, top, column - _GUTTER, page.height - page.margin))
    return (*head, *steps, *side, *plan, *_contents(drawing, column, top))


def _side(drawing: Drawing, x: float, y: float, width: float) -> tuple[tuple[Item, ...], float]:
    """Test squares, and under them the line of each size."""
    caption = _lines(words.MEASURE, x, y + key.METRIC + 6.0, width)
    items: tuple[Item, ...] = (*key.test_squares(x, y), *caption)
    y += key.METRIC + 6.0 + _BODY * _LEADING * len(caption) + 8.0
    if len(drawing.sizes) < 2:
        return items, y
    title = Label(words.KEY, x, y, _BODY, bold=True)
    samples, y = key.lines(drawing.sizes, x, y + 7.0, columns=1 + len(drawing.sizes) // 9)
    return (*items, title, *samples), y


def _contents(drawing: Drawing, x: float, y: float) -> tuple[Item, ...]:
    """Each piece and how it is cut."""
    items: list[Item] = [Label(words.CONTENTS, x, y + 4.0, _HEAD, bold=True)] if drawing.contents else []
    y += 13.0
    for name, cut in drawing.contents:
        items += [Label(name, x, y, _BODY, bold=True), Label(cut, x + 36.0, y, _BODY)]
        y += _BODY * _LEADING + 1.2
    return tuple(items)


def _head(drawing: Drawing, x: float, y: float, width: float) -> tuple[list[Item], float]:
    """The title, smaller if it is long, and the sizes."""
    large = _TITLE * min(1.0, width / font.text_width(drawing.title or " ", _TITLE, bold=True))
    large = max(large, _HEAD)
    title = font.shortened(drawing.title, large, width, bold=True)
    first = Label(title, x, y + _TITLE * font.CAP_HEIGHT + 2.0, large, bold=True)
    second = Label(font.shortened(drawing.subtitle, _HEAD, width), x, first.y + 8.0, _HEAD)
    return [first, second], second.y


def _steps(drawing: Drawing, grid: Grid, x: float, y: float, width: float) -> tuple[tuple[Item, ...], float]:
    numbers = [tile.number for tile in grid.tiles]
    join = grid.joins[0].name if grid.joins else "A1"
    items: list[Item] = [Label(words.GUIDE_TITLE, x, y + 4.0, _HEAD, bold=True)]
    y += 13.0
    for number, (name, text) in enumerate(words.steps(numbers[0], numbers[-1], join, len(drawing.sizes) > 1), 1):
        items.append(Label(str(number), x, y, _BODY, bold=True))
        items.append(Label(name, x + 6.0, y, _BODY, bold=True))
        lines = _lines(text, x + 6.0, y + _BODY * _LEADING, width - 6.0)
        items += lines
        y += _BODY * _LEADING * (len(lines) + 1) + 2.4
    return tuple(items), y


def _lines(text: str, x: float, y: float, width: float, bold: bool = False) -> tuple[Item, ...]:
    step = _BODY * _LEADING
    return tuple(
        Label(line, x, y + step * k, _BODY, bold=bold) for k, line in enumerate(font.wrapped(text, _BODY, width, bold))
    )


def _map(drawing: Drawing, grid: Grid, room: tuple[float, float, float, float]) -> tuple[Item, ...]:
    """The sheet made small: pieces, the pages' edges and their numbers."""
    left, top, right, bottom = room
    title = Label(words.MAP, left, top + 4.0, _HEAD, bold=True)
    top += 11.0
    wide, tall = grid.page.live
    columns, rows = (max(at) + 1 for at in zip(*((t.column, t.row) for t in grid.tiles), strict=True))
    scale = min((right - left) / (columns * wide), (bottom - top) / (rows * tall), _MAP_TALLEST / (rows * tall))
    place = Turn(0, left, top)
    areas = [Path((chain(place.points(area * scale)),), fill=_SHADE, closed=True) for area in drawing.areas]
    items: list[Item] = [title, *areas]
    for tile in grid.tiles:
        x, y = left + tile.column * wide * scale, top + tile.row * tall * scale
        items.append(Path((box(x, y, wide * scale, tall * scale),), _LIGHT, closed=True))
        middle = x + wide * scale / 2, y + tall * scale / 2 + 0.36 * 11 * PT
        items.append(Label(str(tile.number), *middle, 11 * PT, "middle", bold=True))
    return tuple(items)
