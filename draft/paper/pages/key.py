"""What a sheet says of itself: its heading, the squares that test the scale, and which line is which size."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.units import MM_PER_INCH
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path, rectangle
from draft.paper.drawing.wording import Wording

METRIC = 50.0
"""Side of the metric test square, in mm: common practice is 5 cm beside 1 in."""
SECOND = 26 * 3 * PT
"""From the corner of the 1 in square to that of the other: whole points."""
WIDTH = 330.0
"""Least width of a sheet's heading, in mm."""
_SAMPLE, _BESIDE, _APART = 22.0, 4.0, 6.0
_ROW = 6.2
_TEXT = 10.0 * PT


def test_squares(x: float, y: float, wording: Wording) -> tuple[Item, ...]:
    """A square of 1 in and one of 5 cm side by side, from the corner of the first, each with its size inside.

    Their sides are measured between the middles of their lines. The whole takes 50 mm x 50 mm, plus 1 in and a gap.
    """
    x, y = (round(at / PT) * PT for at in (x, y))  # on whole points, which the page description holds exactly
    second = x + SECOND
    return (
        *_square(x, y, MM_PER_INCH, wording.say("guide.test_inch"), "test-inch"),
        *_square(second, y, METRIC, wording.say("guide.test_metric"), "test-metric"),
    )


def _square(x: float, y: float, side: float, text: str, name: str) -> tuple[Item, ...]:
    square = Path((rectangle(x, y, side, side),), line_styles.square_stroke(), closed=True, id=name)
    return square, Label(text, x + side / 2, y + side / 2 + 0.36 * 11 * PT, 11 * PT, "middle", bold=True)


def size_key(sizes: Sequence[str], x: float, y: float, width: float, rows: int) -> tuple[tuple[Item, ...], float]:
    """The cutting line of each size beside its name, and where they end, down the page.

    They stand in columns of so many rows, in more rows where the columns would be wider than `width` mm.
    """
    items: list[Item] = []
    names = [font.fitted_text(size, _TEXT, width - _SAMPLE - _BESIDE, bold=True) for size in sizes]
    step = _SAMPLE + _BESIDE + max(font.text_width(name, _TEXT, bold=True) for name in names) + _APART
    columns = max(1, min(-(-len(sizes) // rows), int((width + _APART) / step)))
    rows = -(-len(sizes) // columns)
    for index, name in enumerate(names):
        column, row = divmod(index, rows)
        left, base = x + column * max(step, width / columns), y + row * _ROW
        stroke = line_styles.evenly_dashed(line_styles.cutting_stroke(index), _SAMPLE)
        items.append(Path((lines_through([(left, base), (left + _SAMPLE, base)]),), stroke))
        items.append(Label(name, left + _SAMPLE + _BESIDE, base + 0.36 * _TEXT, _TEXT, bold=True))
    return tuple(items), y + rows * _ROW


def heading(
    title: str, subtitle: str, sizes: Sequence[str], x: float, y: float, wording: Wording
) -> tuple[tuple[Item, ...], float]:
    """The title of a sheet for the screen, test squares, and the key of more than one size; and its lower end."""
    room = WIDTH - METRIC - SECOND - 10.0
    large = max(30.0 * min(1.0, room / font.text_width(title or " ", 30.0 * PT, bold=True)), 15.0) * PT
    items: list[Item] = [
        Label(font.fitted_text(title, large, room, bold=True), x, y + large * font.CAP_HEIGHT, large, bold=True),
        Label(font.fitted_text(subtitle, 15.0 * PT, room), x, y + 22.0, 15.0 * PT),
    ]
    if len(sizes) > 1:
        samples, low = size_key(sizes, x, y + 33.0, room, rows=3)
        items += samples
    else:
        low = y
    squares = test_squares(WIDTH - METRIC - SECOND + x, y, wording)
    return (*items, *squares), max(low, y + METRIC)
