"""How lines are set: which block each belongs to, its columns, and the empty lines between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field
from itertools import pairwise, takewhile

from draft.base.record import dataclass
from draft.language.columns import Columns, columns
from draft.language.going_on import BRANCHES, SECTIONS
from draft.language.written import Line, WrittenWord

INDENT = 4
BROKEN_INDENT = 8  # a line that goes on inside parentheses stands further in than what is nested under it
WIDTH = 125  # columns: what a screen shows beside a drawing; no sentence is pushed beyond it to stand in line
WIDEST_GAP = 30  # columns: an eye that crosses more empty paper loses its line
AFTER_WORD, AFTER_WORDS = 2, 3  # columns between cells: more after a cell that has spaces of its own
BEFORE_COMMENT = 2

_TIGHT_BEFORE = frozenset({",", ":", ")", "."})
_TIGHT_AFTER = frozenset({"(", "."})
_NONE = Columns()


@dataclass
class Placed:
    """A line in its block.

    `under` is the number of the line that it stands under (-1 for none), `block` the word that heads its block,
    `group` what its columns are shared with, `head` its text up to the sentence.
    """

    line: Line
    under: int
    block: str
    opens: bool
    columns: Columns = _NONE
    group: tuple[object, ...] = ()
    paragraph: int = 0
    cells: list[str] = field(default_factory=list)
    head: str = ""
    sentence: str = ""
    below: list[str] = field(default_factory=list)


class Layout:
    """The layout of a text's lines; `signs` are the places where a minus belongs to the quantity behind it."""

    def __init__(self, written: list[Line], signs: frozenset[int]) -> None:
        self.signs = signs
        self.placed = _placed(written)
        for placed in self.placed:
            self._divide(placed)
        for group in _grouped((p.group, p) for p in self.placed if p.columns.sort):
            _set_columns(group)
        for placed in self.placed:
            placed.head = " " * (INDENT * placed.line.level) + "".join(placed.cells)
        together = (((p.under, p.paragraph), p) for p in self.placed if p.sentence and not p.below)
        for group in _grouped(together):
            _set_sentences(group)

    def rows(self) -> Iterator[str]:
        """The rows of the text."""
        for number, placed in enumerate(self.placed):
            line = placed.line
            blanks = self._blanks(number)
            for remark, blank in zip(line.above, blanks, strict=False):
                yield from [""] * blank
                yield " " * (INDENT * remark.level) + remark.text
            if line.rows:
                yield from [""] * blanks[-1]
                yield from self._written(placed)

    # ---- one line

    def _divide(self, placed: Placed) -> None:
        """Cut a line into its cells, its sentence, and what goes on in the rows below."""
        line, found = placed.line, placed.columns
        if not line.rows:
            return
        rows = [row.words for row in line.rows]
        if self._fits_one_row(line):
            rows = [line.words]
        rows = _commas_before(rows)
        said = len(line.words) - (found.sentence or 0)
        if found.sentence is not None and said < len(rows[-1]):
            placed.sentence = spaced(rows[-1][-said:], self.signs)
            rows[-1] = rows[-1][:-said]
        cuts = [0, *(cut for cut in found.cells if cut < len(rows[0])), len(rows[0])]
        placed.cells = [spaced(rows[0][a:b], self.signs) for a, b in pairwise(cuts)]
        indent = " " * (INDENT * line.level + BROKEN_INDENT)
        placed.below = [indent + spaced(words, self.signs) for words in rows[1:]]

    def _fits_one_row(self, line: Line) -> bool:
        if any(row.comment for row in line.rows[:-1]):
            return False
        return len(line.rows) == 1 or INDENT * line.level + len(spaced(line.words, self.signs)) <= WIDTH

    def _written(self, placed: Placed) -> Iterator[str]:
        texts = [placed.head, *placed.below]
        if placed.sentence:
            apart = " " * AFTER_WORDS if placed.below else ""
            texts[-1] += apart + placed.sentence
        comments = [row.comment for row in placed.line.rows]
        for text, comment in zip(texts, comments if placed.below else comments[-1:], strict=True):
            apart = " " * BEFORE_COMMENT if text.strip() else ""
            if comment or text.strip():  # a row of a comma alone has given it to the row above
                yield f"{text}{apart}{comment}" if comment else text

    # ---- empty lines

    def _blanks(self, number: int) -> list[bool]:
        """Whether an empty line stands above each comment of a line, and above the line itself."""
        placed = self.placed[number]
        line = placed.line
        levels = [*(remark.level for remark in line.above), line.level]
        blanks = [*(remark.blank for remark in line.above), line.blank]
        if number == 0 or placed.under == number - 1 or (line.rows and line.words[0].text == "otherwise"):
            blanks[0] = False
            return blanks
        around = self._around(number - 1)
        for k, level in enumerate(levels):
            if any(opened >= level for opened in around):
                blanks[k] = True
                around = [opened for opened in around if opened < level]
        if placed.opens and not any(blanks):
            blanks[0] = True
        return blanks

    def _around(self, number: int) -> list[int]:
        """The levels of the blocks that a line stands in."""
        levels = []
        while number >= 0:
            if self.placed[number].opens:
                levels.append(self.placed[number].line.level)
            number = self.placed[number].under
        return levels


def _commas_before(rows: list[tuple[WrittenWord, ...]]) -> list[tuple[WrittenWord, ...]]:
    """The rows with every comma at the end of one, none at the beginning of the next."""
    moved = rows[:1]
    for row in rows[1:]:
        if row and row[0].text == "," and moved[-1]:
            moved[-1] = (*moved[-1], row[0])
            row = row[1:]
        moved.append(row)
    return moved


def spaced(words: Iterable[WrittenWord], signs: frozenset[int]) -> str:
    """Words with single spaces, and none where a mark belongs to its neighbour."""
    text = ""
    tight = True
    for word in words:
        shown = _quantity(word.text) if word.sort == "QUANTITY" else word.text
        text += shown if tight or word.text in _TIGHT_BEFORE else f" {shown}"
        tight = word.text in _TIGHT_AFTER or word.start in signs
    return text


def _quantity(text: str) -> str:
    amount = text.rstrip("%abcdefghijklmnopqrstuvwxyz")
    return f"{' '.join(amount.split())} {text[len(amount) :]}"


def _placed(written: list[Line]) -> list[Placed]:
    """The lines with their blocks, columns, groups and paragraphs."""
    placed: list[Placed] = []
    above: list[int] = []
    for number, line in enumerate(written):
        del above[line.level :]
        under = above[-1] if above else -1
        parent = _owner(placed, under)
        deeper = number + 1 < len(written) and written[number + 1].level > line.level
        block = ""
        if parent:
            block = parent.line.words[0].text if parent.opens else parent.block
        opens = bool(line.rows) and (parent is None or (deeper and block in ("piece", "block", "template")))
        if _is_branch(line):
            opens = parent is None or _holds_sections(written, number)
        item = Placed(line, under, block, opens)
        if parent and not opens and line.rows and not _is_branch(line):
            item.columns = columns(line, block, nested=not parent.opens)
        _join_up(item, placed)
        placed.append(item)
        above.append(number)
    return placed


def _is_branch(line: Line) -> bool:
    return bool(line.rows) and line.words[0].text in BRANCHES


def _owner(placed: Sequence[Placed], under: int) -> Placed | None:
    """The line that the lines below `under` belong to; they belong to a `when` only in passing."""
    while under >= 0 and _is_branch(placed[under].line):
        under = placed[under].under
    return placed[under] if under >= 0 else None


def _holds_sections(written: Sequence[Line], number: int) -> bool:
    """Whether there are sections of a piece under a `when`."""
    below = takewhile(lambda line: line.level > written[number].level, written[number + 1 :])
    return any(line.rows and line.words[0].text in SECTIONS and len(line.words) == 1 for line in below)


def _join_up(item: Placed, placed: Sequence[Placed]) -> None:
    """Which lines a line shares its columns with, and its sentence column."""
    before = placed[-1] if placed else None
    joined = before is not None and before.under == item.under
    parted = not joined or item.line.blank or bool(item.line.above)
    item.paragraph = 0 if item.columns.together else len(placed)
    item.group = (item.under, item.columns.sort)
    if before and not parted and not item.columns.together:
        item.paragraph = before.paragraph
    if item.columns.sort == "setting":
        same = joined and before is not None and before.columns.sort == "setting"
        item.group = before.group if same and before else (item.under, len(placed))


def _grouped(items: Iterable[tuple[tuple[object, ...], Placed]]) -> list[list[Placed]]:
    groups: dict[tuple[object, ...], list[Placed]] = {}
    for key, placed in items:
        groups.setdefault(key, []).append(placed)
    return list(groups.values())


def _set_columns(group: list[Placed]) -> None:
    """Pad every cell that another follows to the width of its column. A setting alone needs no column."""
    alone = group[0].columns.sort == "setting" and len(group) == 1
    for k in range(max(len(placed.cells) for placed in group) - 1):
        column = [placed for placed in group if len(placed.cells) > k + 1]
        width = max(len(placed.cells[k]) for placed in column)
        words = any(" " in placed.cells[k] for placed in column)
        gap = 1 if alone else group[0].columns.gap or (AFTER_WORDS if words else AFTER_WORD)
        for placed in column:
            cell = placed.cells[k]
            cell = cell.rjust(width) if k == placed.columns.right else cell.ljust(width)
            placed.cells[k] = cell + " " * gap


def _set_sentences(group: list[Placed]) -> None:
    """Sentences of neighbours stand below one another as far as they can."""
    run: list[Placed] = []
    for placed in group:
        if not _in_line([*run, placed]):
            _pad(run)
            run = []
        run.append(placed)
    _pad(run)


def _in_line(run: list[Placed]) -> bool:
    ends = [len(placed.head) for placed in run]
    column = max(ends) + AFTER_WORDS
    return max(ends) - min(ends) <= WIDEST_GAP and all(column + len(p.sentence) <= WIDTH for p in run)


def _pad(run: list[Placed]) -> None:
    column = max((len(placed.head) for placed in run), default=0) + AFTER_WORDS
    for placed in run:
        placed.head = placed.head.ljust(column)
