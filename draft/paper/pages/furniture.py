"""What marks a printed page: its frame, its place, what to cut off, and the halves of its match marks.

A margin that is cut off is hatched, and scissors stand on it: the drawing says it without words. Edges side by side
have half-rings, edges one below the other half-diamonds; both halves of a mark bear the name of the join.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path, Stroke, circle, rectangle
from draft.paper.drawing.room import Spot
from draft.paper.drawing.wording import Wording
from draft.paper.pages.tiles import MARK, Grid, Join, Tile
from draft.paper.piece.title_block import SMALLEST

_TEXT = SMALLEST * PT
_LOW = _TEXT * font.CAP_HEIGHT
_NUMBER = 11.0 * PT
_ASIDE = 3.6
"""From the frame to the words in the margin, in mm: off the trimmed edge, and on paper that home printers reach."""
_HEADING = 6.4
"""From the frame to the heading's baseline, in mm: above the words of the edge."""
_FRAME = Stroke(line_styles.FINE, join="miter")
_HATCH = Stroke(0.15, colour="#999999")
_HATCHED = 5.6
_APART = 6.0
_SCISSORS_AT = 14.0
_AIR = 3.0


@dataclass(frozen=True)
class Said:
    """What the margins of a document's pages say: its title, the number of its last page, and in which words."""

    title: str
    last: int
    wording: Wording


@dataclass(frozen=True)
class _Side:
    """One margin of a page: the spot of its middle, turned so that `down` leads away from the frame."""

    spot: Spot
    trimmed: bool
    words: str


def furniture(found: Grid, tile: Tile, said: Said, pieces: Sequence[str] = ()) -> tuple[Item, ...]:
    """Everything on a page that is not the sheet, in mm on the page; `pieces` are the pieces that it shows."""
    page = found.page
    if not found.cut:
        return _heading(found, tile, said, pieces)
    frame = Path((rectangle(page.margin, page.margin, *page.live),), _FRAME, closed=True, id="frame")
    sides = [item for side in _sides(found, tile, said.wording) for item in _margin(side)]
    return (frame, *_heading(found, tile, said, pieces), *_number(found, tile), *sides, *_halves(found, tile))


def _heading(found: Grid, tile: Tile, said: Said, pieces: Sequence[str]) -> tuple[Item, ...]:
    page, base = found.page, found.page.margin - _HEADING
    fields = {"page": tile.number, "count": said.last, "row": tile.row + 1, "column": tile.column + 1}
    position = said.wording.say("tile.position", **fields)
    room = page.live[0] - font.text_width(position, _TEXT) - 8.0
    title = font.fitted_text(said.title, _TEXT, room, bold=True)
    left = page.margin + font.text_width(title, _TEXT, bold=True) + 3.0
    names = font.fitted_text(", ".join(pieces), _TEXT, max(0.0, page.margin + room - left))
    return (
        Label(title, page.margin, base, _TEXT, bold=True),
        *([Label(names, left, base, _TEXT)] if len(names) > 1 else []),
        Label(position, page.width - page.margin, base, _TEXT, "end"),
    )


def _number(found: Grid, tile: Tile) -> tuple[Item, ...]:
    """The page's number within its frame too: it is still there when the margins are gone."""
    if tile.number_at is None:
        return ()
    (x, y), (left, top) = tile.number_at, found.corner(tile)
    at = x - left + found.page.margin, y - top + found.page.margin + _NUMBER * font.CAP_HEIGHT / 2
    return (Label(str(tile.number), *at, _NUMBER, "middle", bold=True, colour=line_styles.GREY),)


def _sides(found: Grid, tile: Tile, wording: Wording) -> list[_Side]:
    """The margins at which another page joins."""
    page = found.page
    (wide, tall), middle = page.live, (page.width / 2, page.height / 2)
    places = {
        (0, 1): Spot(page.width - page.margin, middle[1], tall, 0.0, -90.0),
        (1, 0): Spot(middle[0], page.height - page.margin, wide, 0.0, 0.0),
        (0, -1): Spot(page.margin, middle[1], tall, 0.0, 90.0),
        (-1, 0): Spot(middle[0], page.margin, wide, 0.0, 180.0),
    }
    sides = []
    for (down, right), spot in places.items():
        other = found.joined(tile, down, right)
        if other:
            trimmed = found.assembly == "butt" or down + right > 0
            key = "tile.trim" if trimmed else "tile.under"
            sides.append(_Side(spot, trimmed, wording.say(key, page=other.number)))
    return sides


def _margin(side: _Side) -> list[Item]:
    """The words of one margin; hatching and scissors where it is cut off."""
    spot, half = side.spot, font.text_width(side.words, _TEXT) / 2
    angle = {180.0: 0.0}.get(spot.angle, -spot.angle)  # read from above, below, or the side
    x, y = spot.at(0, _ASIDE)
    words = Label(side.words, *Spot(x, y, 0, 0, angle).at(0, _LOW / 2), _TEXT, "middle", angle)
    if not side.trimmed:
        return [words]
    return [words, _hatching(spot, half + _AIR), *_scissors(spot)]


def _hatching(spot: Spot, clear: float) -> Path:
    """Slanting lines along a margin, but not across its words or scissors."""
    half, runs = spot.width / 2, []
    for k in range(int(spot.width // _APART)):
        at = -half + _APART * (k + 0.5)
        on_words = -clear - _HATCHED < at < clear
        on_scissors = abs(at + half - _SCISSORS_AT + _HATCHED / 2) < 7.0
        if not on_words and not on_scissors and at + _HATCHED <= half:
            runs.append(lines_through([spot.at(at, _HATCHED), spot.at(at + _HATCHED, 0.6)]))
    return Path(tuple(runs), _HATCH)


def _scissors(spot: Spot) -> list[Item]:
    """A small pair of scissors in the margin, its blades along the frame."""
    x = -spot.width / 2 + _SCISSORS_AT
    blades = [[(x - 1.4, 2.6 + s * 0.8), (x + 3.6, 2.6 - s * 0.75)] for s in (-1, 1)]
    lines = tuple(lines_through([spot.at(*point) for point in blade]) for blade in blades)
    rings = tuple(circle(*spot.at(x - 2.2, 2.6 + s * 1.35), 0.95) for s in (-1, 1))
    return [Path((*lines, *rings), Stroke(line_styles.FINE, cap="round"))]


def _halves(found: Grid, tile: Tile) -> tuple[Item, ...]:
    x, y = found.corner(tile)
    dx, dy = found.page.margin - x, found.page.margin - y
    items: list[Item] = []
    for join in found.joins:
        if tile.number in (join.first.number, join.second.number):
            items += half_mark(join, join.x + dx, join.y + dy, first=tile.number == join.first.number)
    return tuple(items)


def half_mark(join: Join, x: float, y: float, first: bool) -> tuple[Item, ...]:
    """The half of a join's mark on its first page (left, or above) or its second, about a point of the page."""
    side = -1 if first else 1
    if join.beside:
        shape = circle(x, y, MARK, first=1 if first else 3, quarters=2)
        word = (x + side * MARK * 0.47, y + _LOW / 2)
    else:
        shape = lines_through([(x - MARK * 1.2, y), (x, y + side * MARK * 1.2), (x + MARK * 1.2, y)])
        word = (x, y + side * MARK * 0.42 + _LOW / 2)
    return Path((shape,), line_styles.sign_stroke()), Label(join.name, *word, _TEXT, "middle", bold=True)
