"""Words and pictures set one below the other in columns, from page to page.

A flow fills frames in turn. What is put into it stays whole and moves on to the next frame when it does not fit;
paragraphs break between lines, but never leave one line alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from draft.base.record import dataclass
from draft.paper.drawing import font
from draft.paper.drawing.direction import as_paragraph, from_left
from draft.paper.drawing.drawing import INK, PT, Item, Label, Turn
from draft.paper.drawing.passage import Passage, said_as


@dataclass(frozen=True)
class Type:
    """How words are set: size in points, weight, and from line to line in sizes."""

    points: float
    bold: bool = False
    leading: float = 1.42
    colour: str = INK
    tabular: bool = False
    """Whether all digits are as wide, as in a table of figures."""

    @property
    def size(self) -> float:
        """One em in mm."""
        return self.points * PT

    @property
    def line_height(self) -> float:
        """From one baseline to the next, in mm."""
        return self.size * self.leading

    def lines(self, text: str, width: float) -> list[str]:
        """The text in lines of this width; a word that is longer than a line is broken."""
        found: list[str] = []
        for line in font.wrapped(text, self.size, width, self.bold):
            found += _broken(line, self, width)
        return as_paragraph(found)

    def label(self, text: str, x: float, baseline: float, anchor: str = "start") -> Label:
        """One line of words on its baseline."""
        return Label(
            text, x, baseline, self.size, anchor, bold=self.bold, colour=self.colour, tabular=self.tabular
        )  # fmt: skip

    def set_in(self, text: str, x: float, baseline: float, width: float) -> Label:
        """One line of words in a column: at its left side, or at its right one where the line is read from there."""
        if from_left(text):
            return self.label(text, x, baseline)
        return self.label(text, x + width, baseline, "end")

    def width(self, text: str) -> float:
        """How long a line is, in mm."""
        return font.text_width(font.in_cells(text) if self.tabular else text, self.size, self.bold)


def _broken(line: str, setting: Type, width: float) -> list[str]:
    if setting.width(line) <= width:
        return [line]
    found, wide = [""], 0.0
    for letter in line:
        step = setting.width(letter)
        if found[-1] and wide + step > width:
            found.append("")
            wide = 0.0
        found[-1] += letter
        wide += step
    return found


@dataclass(frozen=True)
class Frame:
    """Where a flow may set, in mm on a page (counted from 0)."""

    page: int
    x: float
    y: float
    width: float
    bottom: float


def column_frames(x: float, width: float, first_top: float, top: float, bottom: float) -> Iterator[Frame]:
    """The same column on one page after the other; on the first it begins lower."""
    page = 0
    while True:
        yield Frame(page, x, first_top if page == 0 else top, width, bottom)
        page += 1


class Flow:
    """Sets things in frames, one below the other; `pages` holds what came to stand on each page."""

    def __init__(self, frames: Iterable[Frame], pages: dict[int, list[Item]]) -> None:
        self._frames = iter(frames)
        self.frame = next(self._frames)
        self.y = self.frame.y
        self.pages = pages
        self.pages.setdefault(self.frame.page, [])

    @property
    def width(self) -> float:
        """Of the frame, in mm."""
        return self.frame.width

    @property
    def room(self) -> float:
        """What is left of the frame's height, in mm."""
        return self.frame.bottom - self.y

    @property
    def at_top(self) -> bool:
        """Whether nothing stands in the frame yet."""
        return self.y <= self.frame.y

    def next_frame(self) -> None:
        """Go on in the next frame."""
        self.frame = next(self._frames)
        self.y = self.frame.y
        self.pages.setdefault(self.frame.page, [])

    def need(self, height: float) -> None:
        """Go on in the next frame unless this one has so many mm left, or is empty."""
        if height > self.room and not self.at_top:
            self.next_frame()

    def gap(self, height: float) -> None:
        """Leave room, but not at the top of a frame."""
        if not self.at_top:
            self.y += height

    def put(self, items: Iterable[Item], height: float) -> None:
        """Set items, drawn from the top left corner of a box of this height."""
        self.need(height)
        turn = Turn(0, self.frame.x, self.y)
        self.pages[self.frame.page] += [item.moved(turn) for item in items]
        self.y += height

    def words(self, text: str, setting: Type, indent: float = 0.0, keep: float = 0.0, role: str = "P") -> None:
        """A paragraph, read as `role`; `keep` mm that follow it stay with its last lines."""
        passage = Passage(role, text)
        lines = setting.lines(text, self.width - indent)
        for k, line in enumerate(lines):
            left = len(lines) - k
            whole = left if k == 0 and left <= 3 else (2 if k == 0 or left == 2 else 1)  # no line stands alone
            self.need(whole * setting.line_height + (keep if whole == left else 0.0))
            label = setting.set_in(line, indent, _first_baseline(setting), self.width - indent)
            self.put(said_as([label], passage), setting.line_height)


def _first_baseline(setting: Type) -> float:
    """From the top of a line's box to its baseline."""
    return setting.line_height / 2 + setting.size * (font.CAP_HEIGHT / 2)


def stacked(
    lines: Sequence[str], setting: Type, x: float = 0.0, y: float = 0.0, width: float = 0.0
) -> tuple[list[Label], float]:
    """Lines of words as labels from a top left corner, and their height together.

    In a column of some `width`, those that are read from the right end at its right side.
    """
    first = _first_baseline(setting)
    places = [y + first + k * setting.line_height for k in range(len(lines))]
    if not width:
        return [setting.label(line, x, at) for line, at in zip(lines, places, strict=True)], len(
            lines
        ) * setting.line_height
    labels = [setting.set_in(line, x, at, width) for line, at in zip(lines, places, strict=True)]
    return labels, len(lines) * setting.line_height
