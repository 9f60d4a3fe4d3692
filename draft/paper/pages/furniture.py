"""What stands on a printed page beside the sheet: its frame, its place, what to cut off, halves of its match marks.

A margin that is cut off is hatched, and scissors stand on it: the drawing says it without words. Edges side by side
have half-rings, edges one below the other half-diamonds; both halves of a match mark bear the name of the edge.
"""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.record import dataclass
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Item, Label, Path, Stroke, circle, rectangle
from draft.paper.drawing.room import Spot
from draft.paper.drawing.wording import Wording
from draft.paper.pages.page_grid import MATCH_RADIUS, Grid, Page, SharedEdge
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
    imprint: str = ""
    """Who made the pattern, which version it is, and its licence."""


@dataclass(frozen=True)
class _Margin:
    """One margin of a page: the spot of its middle, turned so that `down` leads away from the frame."""

    spot: Spot
    trimmed: bool
    words: str


def furniture(found: Grid, page: Page, said: Said, pieces: Sequence[str] = ()) -> tuple[Item, ...]:
    """Everything on a page that is not the sheet, in mm on the page; `pieces` are the pieces that it shows."""
    paper = found.paper
    if not found.cut:
        return _heading(found, page, said, pieces)
    frame = Path((rectangle(paper.margin, paper.margin, *paper.live),), _FRAME, closed=True, id="frame")
    margins = [item for margin in _margins(found, page, said.wording) for item in _margin(margin)]
    return (frame, *_heading(found, page, said, pieces), *_number(found, page), *margins, *_halves(found, page))


def _heading(found: Grid, page: Page, said: Said, pieces: Sequence[str]) -> tuple[Item, ...]:
    paper, base = found.paper, found.paper.margin - _HEADING
    position = _position(page, said)
    room = paper.live[0] - font.text_width(position, _TEXT) - 8.0
    title = font.fitted_text(said.title, _TEXT, room, bold=True)
    left = paper.margin + font.text_width(title, _TEXT, bold=True) + 3.0
    names = font.fitted_text(", ".join(pieces), _TEXT, max(0.0, paper.margin + room - left))
    return (
        Label(title, paper.margin, base, _TEXT, bold=True),
        *([Label(names, left, base, _TEXT)] if len(names) > 1 else []),
        *_imprint(found, said),
        *([Label(position, paper.width - paper.margin, base, _TEXT, "end")] if position else []),
    )


def _position(page: Page, said: Said) -> str:
    """Which page it is; nothing of a sheet alone, which is no page."""
    fields = {"page": page.number, "count": said.last, "row": page.row + 1, "column": page.column + 1}
    return said.wording.say("page.position", **fields) if said.last > 1 else ""


def told_of(page: Page, said: Said, pieces: Sequence[str]) -> str:
    """A page in words, for who does not see it: which one it is, and which pieces it shows."""
    return ": ".join(part for part in (_position(page, said), ", ".join(pieces)) if part)


def _imprint(found: Grid, said: Said) -> list[Item]:
    """At the very foot of the page, below the words of its edge."""
    paper = found.paper
    text = font.fitted_parts(said.imprint, _TEXT, paper.live[0])
    return [Label(text, paper.margin, paper.height - paper.margin + _HEADING + _LOW, _TEXT)] if text else []


def _number(found: Grid, page: Page) -> tuple[Item, ...]:
    """The page's number within its frame too: it is still there when the margins are gone."""
    if page.number_at is None:
        return ()
    (x, y), (left, top) = page.number_at, found.corner(page)
    at = x - left + found.paper.margin, y - top + found.paper.margin + _NUMBER * font.CAP_HEIGHT / 2
    return (Label(str(page.number), *at, _NUMBER, "middle", bold=True, colour=line_styles.GREY),)


def _margins(found: Grid, page: Page, wording: Wording) -> list[_Margin]:
    """The margins at which another page lies."""
    paper = found.paper
    (wide, tall), middle = paper.live, (paper.width / 2, paper.height / 2)
    places = {
        (0, 1): Spot(paper.width - paper.margin, middle[1], tall, 0.0, -90.0),
        (1, 0): Spot(middle[0], paper.height - paper.margin, wide, 0.0, 0.0),
        (0, -1): Spot(paper.margin, middle[1], tall, 0.0, 90.0),
        (-1, 0): Spot(middle[0], paper.margin, wide, 0.0, 180.0),
    }
    margins = []
    for (down, right), spot in places.items():
        other = found.neighbour(page, down, right)
        if other:
            trimmed = found.assembly == "butt" or down + right > 0
            key = "page.trim" if trimmed else "page.under"
            margins.append(_Margin(spot, trimmed, wording.say(key, page=other.number)))
    return margins


def _margin(margin: _Margin) -> list[Item]:
    """The words of one margin; hatching and scissors where it is cut off."""
    spot, half = margin.spot, font.text_width(margin.words, _TEXT) / 2
    angle = {180.0: 0.0}.get(spot.angle, -spot.angle)  # read from above, below, or the side
    x, y = spot.at(0, _ASIDE)
    words = Label(margin.words, *Spot(x, y, 0, 0, angle).at(0, _LOW / 2), _TEXT, "middle", angle)
    if not margin.trimmed:
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


def _halves(found: Grid, page: Page) -> tuple[Item, ...]:
    x, y = found.corner(page)
    dx, dy = found.paper.margin - x, found.paper.margin - y
    items: list[Item] = []
    for shared in found.shared_edges:
        if page.number in (shared.first.number, shared.second.number):
            items += half_match(shared, shared.x + dx, shared.y + dy, first=page.number == shared.first.number)
    return tuple(items)


def half_match(shared: SharedEdge, x: float, y: float, first: bool) -> tuple[Item, ...]:
    """The half of a match mark on its first page (left, or above) or its second, about a point of the page."""
    side = -1 if first else 1
    if shared.beside:
        shape = circle(x, y, MATCH_RADIUS, first=1 if first else 3, quarters=2)
        word = (x + side * MATCH_RADIUS * 0.47, y + _LOW / 2)
    else:
        shape = lines_through(
            [(x - MATCH_RADIUS * 1.2, y), (x, y + side * MATCH_RADIUS * 1.2), (x + MATCH_RADIUS * 1.2, y)]
        )
        word = (x, y + side * MATCH_RADIUS * 0.42 + _LOW / 2)
    return Path((shape,), line_styles.sign_stroke()), Label(shared.name, *word, _TEXT, "middle")
