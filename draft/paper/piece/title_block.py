"""The title block of a piece: its words arranged from generous to one line, and the largest that fits its room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property, lru_cache

from draft.base.record import dataclass
from draft.garment.garment import Piece
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import CLEAR, Room, Spot
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.piece.surface import Surface

SMALLEST = 8.0
"""No printed word is smaller, in points: it is read at a cutting table, not in the hand."""
_LONGEST = 24 * PT  # ems of a title on a piece; the first page and the margins show more of it
_LEADING = 1.32
_GAP = 1.0  # ems between words side by side in a row
_DOT = " · "
_NARROW = 28.0
"""Width of a line of small letters in a narrow block, mm before it is enlarged."""
_COMPACT = 3
"""Which of the arrangements is the first that stands beside a piece: no larger than is read with ease."""
_NAME = 16.0
"""The name of a piece above rows of small letters has so many points at most."""
_WRAPPED = (90.0, 56.0, 42.0)
"""Widths of rows of small letters, mm."""
_LEVEL = 2
"""The first of the arrangements that is used where words are enlarged and never turned."""


@dataclass(frozen=True)
class Phrase:
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
    def advance(self) -> float:
        """From the beginning of these words to the next in their row, in mm."""
        return self.width + _GAP * self.points * PT


@dataclass(frozen=True)
class TitleBlock:
    """Rows of words, set flush left."""

    rows: tuple[tuple[Phrase, ...], ...]

    @cached_property
    def width(self) -> float:
        """In mm."""
        return max(sum(phrase.advance for phrase in row[:-1]) + row[-1].width for row in self.rows)

    @cached_property
    def height(self) -> float:
        """From the top of the first row's capitals to the last row's descenders, in mm."""
        return self.baselines[-1] + max(phrase.points for phrase in self.rows[-1]) * PT * font.DESCENT

    @cached_property
    def baselines(self) -> tuple[float, ...]:
        """How far below the block's top each row stands, in mm."""
        found: list[float] = []
        for row in self.rows:
            size = max(phrase.points for phrase in row) * PT
            step = size * _LEADING + row[0].above * PT if found else size * font.CAP_HEIGHT
            found.append((found[-1] if found else 0.0) + step)
        return tuple(found)

    def enlarged(self, factor: float) -> TitleBlock:
        """The same words, larger."""
        if factor == 1.0:
            return self
        rows = tuple(
            tuple(replace(phrase, points=phrase.points * factor, above=phrase.above * factor) for phrase in row)
            for row in self.rows
        )
        return TitleBlock(rows)

    def labels(self, spot: Spot) -> tuple[Label, ...]:
        """The words in their place; the block's top left corner is the spot's."""
        found: list[Label] = []
        for row, baseline in zip(self.rows, self.baselines, strict=True):
            right = -spot.width / 2
            for phrase in row:
                x, y = spot.at(right, baseline - spot.height / 2)
                found.append(Label(phrase.text, x, y, phrase.points * PT, angle=spot.angle, bold=phrase.bold))
                right += phrase.advance
        return tuple(found)


def placed_blocks(
    room: Room, pattern: str, piece: Piece, sizes: Sequence[str], wording: Wording, surface: Surface
) -> Iterator[tuple[TitleBlock, Spot]]:
    """The blocks that the room holds and where, the most generous first, upright before sideways."""
    known = arrangements(pattern, piece, sizes, wording, surface.opened)
    wrapped = tuple(_with_larger_name(block) for block in known[-len(_WRAPPED) :])
    known = (*known[: -len(_WRAPPED)], *wrapped, *known[-len(_WRAPPED) :])
    if surface.level:
        known = (_narrow(known[0]), *known[_LEVEL:])
    blocks = [block.enlarged(surface.enlarged) for block in known]
    for clear in (CLEAR[:-2], CLEAR[-2:]):
        for block in blocks:
            for angle in (surface.upright,) if surface.level else (surface.upright, surface.upright - 90.0):
                spot = room.find(block.width, block.height, angle, clear=clear)
                if spot is not None:
                    yield block, spot


def _elastic(piece: Piece, wording: Wording) -> tuple[str, ...]:
    """That elastic draws in hems, by their names; of a seam it is said along the seam, which has a letter."""
    drawn = [edge for edge in piece.edges if edge.elastic is not None]
    hems = dict.fromkeys(wording.named(edge.whole or edge.name) for edge in drawn if edge.turned_up)
    if hems:
        return (wording.say("piece.elastic_at", edges=wording.listed(list(hems))),)
    return (wording.say("piece.elastic"),) if drawn else ()


def arrangements(
    pattern: str, piece: Piece, sizes: Sequence[str], wording: Wording, opened: bool = False
) -> tuple[TitleBlock, ...]:
    """The same words set in some ways, the largest first: the pattern's title, the piece, and how it is cut.

    Of a piece that is `opened` none says to lay it on a fold.
    """
    piece = replace(piece, edges=tuple(edge for edge in piece.edges if not edge.on_fold)) if opened else piece
    extra = wording.allowances(piece)
    extra = (capitalised(extra[0]), *extra[1:]) if extra else ()
    said = (wording.title(piece), wording.sizes(sizes), wording.cut(piece))
    return _arranged(pattern, *said, tuple(wording.cuts(piece)), (*extra, *_elastic(piece, wording)))


@lru_cache(maxsize=256)  # ten pieces in ten sizes, and their nests
def _arranged(
    pattern: str, piece: str, size: str, cut: str, cuts: tuple[str, ...], extra: tuple[str, ...]
) -> tuple[TitleBlock, ...]:
    title, name = (font.fitted_text(text, PT, _LONGEST) for text in (pattern, piece))
    allowances = "; ".join(extra)
    return (
        _tall(title, name, size, cuts, extra, (15.0, 54.0, 24.0, 13.0)),
        _tall(title, name, size, cuts, extra, (11.0, 30.0, 15.0, 10.0)),
        TitleBlock((
            (Phrase(title, 9.0),),
            (Phrase(name, 18.0, True),),
            (Phrase(size, 11.0, above=1.0), Phrase(cuts[0], 11.0, True)),
            *((Phrase(line, 11.0, True),) for line in cuts[1:]),
            (Phrase(allowances, 9.0, above=2.0),),
        )),
        TitleBlock((
            (Phrase(name, 12.0, True), Phrase(size, 9.0), Phrase(cut, 9.0, True)),
            (Phrase(_DOT.join(part for part in (title, allowances) if part), 8.5),),
        )),
        TitleBlock((
            (Phrase(name, 9.0, True), Phrase(_DOT.join(filter(None, (title, size, cut, allowances))), SMALLEST)),
        )),
        *(_wrapped(name, cut, _DOT.join(filter(None, (title, size, allowances))), wide) for wide in _WRAPPED),
    )  # fmt: skip


def beside_blocks(
    pattern: str, piece: Piece, sizes: Sequence[str], wording: Wording, opened: bool, wide: float
) -> tuple[TitleBlock, ...]:
    """The words beside a piece that is too small for them: no wider than the piece, or than can be read."""
    known = arrangements(pattern, piece, sizes, wording, opened)
    return tuple(block for block in known[_COMPACT:] if block.width <= wide) or known[-1:]


def _wrapped(name: str, cut: str, text: str, wide: float) -> TitleBlock:
    """Small letters in rows of one width, for a place that is neither long nor high."""
    cuts = [Phrase(line, SMALLEST, True) for line in font.wrapped(cut, SMALLEST * PT, wide, True)]
    lines = [Phrase(line, SMALLEST) for line in font.wrapped(text, SMALLEST * PT, wide)]
    return TitleBlock(((Phrase(name, 9.0, True),), *((phrase,) for phrase in (*cuts, *lines))))


def _with_larger_name(block: TitleBlock) -> TitleBlock:
    """The same words with the piece's name as large as the block is wide, and not small."""
    (name,), *rest = block.rows
    wide = max(row[0].width for row in rest)
    points = min(_NAME, name.points * wide / name.width)
    return TitleBlock(((replace(name, points=max(points, name.points)),), *rest))


def _narrow(tall: TitleBlock) -> TitleBlock:
    """The rows of a tall block in small letters, none of them wider than need be."""
    points = (10.0, 20.0, 11.0)
    rows = [row[0] for row in tall.rows]
    found = [replace(phrase, points=points[min(k, 2)], above=0.0) for k, phrase in enumerate(rows[:3])]
    for phrase in rows[3:]:
        size = points[0] if phrase.bold else SMALLEST
        lines = font.wrapped(phrase.text, size * PT, _NARROW, phrase.bold)
        found += [Phrase(line, size, phrase.bold, 0.0 if k else 0.5 * size) for k, line in enumerate(lines)]
    return TitleBlock(tuple((phrase,) for phrase in found))


def _tall(
    title: str,
    name: str,
    size: str,
    cuts: Sequence[str],
    extra: Sequence[str],
    points: tuple[float, float, float, float],
) -> TitleBlock:
    small, large, middle, fine = points
    rows = [
        Phrase(title, small),
        Phrase(name, large, True),
        Phrase(size, middle, above=0.3 * middle),
        *(Phrase(line, middle, True) for line in cuts),
        *(Phrase(line, fine, above=0.0 if k else 0.9 * fine) for k, line in enumerate(extra)),
    ]
    return TitleBlock(tuple((row,) for row in rows))
