"""The words on a piece: layouts from generous to one line, and the largest that fits the room there is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from draft.garment.garment import Garment, Piece
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import CLEAR, Room, Spot
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.piece.page_edges import Pages

SMALLEST = 8.0
"""No printed word is smaller, in points: it is read at a cutting table, not in the hand."""
_LONGEST = 24 * PT  # ems of a title on a piece; the first page and the margins show more of it
_LEADING = 1.32
_GAP = 1.0  # ems between words side by side in a row
_DOT = " · "


@dataclass(frozen=True)
class Words:
    """Words in one size and weight; `above` is extra room over their row, in points."""

    text: str
    points: float
    bold: bool = False
    above: float = 0.0

    @property
    def width(self) -> float:
        """In mm."""
        return font.text_width(self.text, self.points * PT, self.bold)

    @property
    def step(self) -> float:
        """From the beginning of these words to the next in their row, in mm."""
        return self.width + _GAP * self.points * PT


@dataclass(frozen=True)
class Block:
    """Rows of words, set flush left."""

    rows: tuple[tuple[Words, ...], ...]

    @cached_property
    def width(self) -> float:
        """In mm."""
        return max(sum(words.step for words in row[:-1]) + row[-1].width for row in self.rows)

    @cached_property
    def height(self) -> float:
        """From the top of the first row's capitals to the last row's descenders, in mm."""
        return self.baselines[-1] + max(words.points for words in self.rows[-1]) * PT * font.DESCENT

    @cached_property
    def baselines(self) -> tuple[float, ...]:
        """How far below the block's top each row stands, in mm."""
        found: list[float] = []
        for row in self.rows:
            size = max(words.points for words in row) * PT
            step = size * _LEADING + row[0].above * PT if found else size * font.CAP_HEIGHT
            found.append((found[-1] if found else 0.0) + step)
        return tuple(found)

    def enlarged(self, factor: float) -> Block:
        """The same words, larger."""
        rows = tuple(
            tuple(replace(words, points=words.points * factor, above=words.above * factor) for words in row)
            for row in self.rows
        )
        return Block(rows)

    def labels(self, spot: Spot) -> tuple[Label, ...]:
        """The words in their place; the block's top left corner is the spot's."""
        found: list[Label] = []
        for row, baseline in zip(self.rows, self.baselines, strict=True):
            right = -spot.width / 2
            for piece in row:
                x, y = spot.at(right, baseline - spot.height / 2)
                found.append(Label(piece.text, x, y, piece.points * PT, angle=spot.angle, bold=piece.bold))
                right += piece.step
        return tuple(found)


def places(
    room: Room, garment: Garment, piece: Piece, sizes: Sequence[str], wording: Wording, pages: Pages
) -> Iterator[tuple[Block, Spot]]:
    """The blocks that the room holds and where, the most generous first, upright before sideways."""
    blocks = [block.enlarged(pages.enlarged) for block in layouts(garment, piece, sizes, wording)]
    for clear in (CLEAR[:-2], CLEAR[-2:]):
        for block in blocks:
            for angle in (pages.upright, pages.upright - 90.0):
                spot = room.find(block.width, block.height, angle, clear=clear)
                if spot is not None:
                    yield block, spot


def layouts(garment: Garment, piece: Piece, sizes: Sequence[str], wording: Wording) -> tuple[Block, ...]:
    """The same words set in five ways, the largest first."""
    title, name = (
        font.fitted_text(text, PT, _LONGEST) for text in (wording.named(garment.title), wording.title(piece))
    )
    size, cut, extra = wording.sizes(sizes), wording.cut(piece), wording.allowances(piece)
    extra = (capitalised(extra[0]), *extra[1:]) if extra else ()
    joined = "; ".join(extra)
    return (
        _tall(title, name, size, cut, extra, (15.0, 54.0, 24.0, 13.0)),
        _tall(title, name, size, cut, extra, (11.0, 30.0, 15.0, 10.0)),
        Block((
            (Words(title, 9.0),),
            (Words(name, 18.0, True),),
            (Words(size, 11.0, above=1.0), Words(cut, 11.0, True)),
            (Words(joined, 9.0, above=2.0),),
        )),
        Block((
            (Words(name, 12.0, True), Words(size, 9.0), Words(cut, 9.0, True)),
            (Words(_DOT.join(part for part in (title, joined) if part), 8.5),),
        )),
        Block(((Words(name, 9.0, True), Words(_DOT.join(filter(None, (title, size, cut, joined))), SMALLEST)),)),
    )  # fmt: skip


def _tall(
    title: str, name: str, size: str, cut: str, extra: Sequence[str], points: tuple[float, float, float, float]
) -> Block:
    small, large, middle, fine = points
    rows = [
        Words(title, small),
        Words(name, large, True),
        Words(size, middle, above=0.3 * middle),
        Words(cut, middle, True),
        *(Words(line, fine, above=0.0 if k else 0.9 * fine) for k, line in enumerate(extra)),
    ]
    return Block(tuple((row,) for row in rows))
