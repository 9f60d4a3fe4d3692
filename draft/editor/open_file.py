"""An open file: what is known of its text now, and of the last text that had a plan."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import field
from pathlib import Path

from draft.base.disk import is_file
from draft.base.notes import Note, Source, Span
from draft.base.record import dataclass
from draft.base.resources import folder
from draft.base.told_once import told_once
from draft.base.units import Kind
from draft.bodies.measures import MEASURES
from draft.editor.analysis import Analysis, analyse
from draft.editor.figures import Figures
from draft.editor.positions import UTF_16, offset_of
from draft.editor.shelf import Shelf
from draft.editor.symbols import NameSort, Symbol, Symbols
from draft.language import tree
from draft.language.indents import says_nothing

Place = tuple[int, int]
"""A line and a letter in it, both from 0."""


@dataclass
class OpenFile:
    """A file that an editor has open, with the folder that it lies in; one that was never saved has no `path`."""

    name: str
    directory: Path
    shelf: Shelf = field(default_factory=Shelf)
    path: Path | None = None
    version: int | None = None
    """The editor's number of the text."""
    ends: str = "\n"
    """How its lines end."""
    size: str = ""
    """The size whose figures are shown; the middle one where it is empty."""
    drafted: tuple[tuple[Note, Span], ...] = ()
    """What the drawing of an earlier text told, with its place in this one."""
    _source: Source = field(init=False)
    _now: Analysis | None = None
    _last: Analysis | None = None
    """What was known of the text that was looked at last."""
    _typed: tuple[Source, Symbols] | None = None
    """The names that are offered for a text."""
    _whole: Analysis | None = None
    _figures: Figures | None = None

    def __post_init__(self) -> None:
        self._source = Source(self.name, "")

    # ---- what is typed

    def change(self, text: str) -> None:
        """The file has a new text."""
        if "\n" in text or "\r" in text:
            self.ends = "\r\n" if "\r\n" in text else "\n"
        self._set(_plain(text))

    def replace(self, start: Place, end: Place, text: str, encoding: str = UTF_16) -> None:
        """A stretch of the text is another now."""
        here, there = (offset_of(self.text, *place, encoding) for place in (start, end))
        self._set(self.text[:here] + _plain(text) + self.text[max(here, there) :])

    def anew(self) -> None:
        """A file that this one leads to has changed."""
        if self._now and self._now.is_planned:
            self._figured()
        self._now = self._last = self._typed = None

    def _set(self, text: str) -> None:
        before, self._source = self._source, Source(self.name, text)
        self.drafted = tuple(_kept(self.drafted, before, self._source))
        last = self._last
        self.anew()
        self._last = last
        if self.path:
            self.shelf.put(self.path, self._source)

    # ---- what is known

    @property
    def text(self) -> str:
        """The text, with plain line ends."""
        return self._source.text

    @property
    def is_new(self) -> bool:
        """Whether the text has not been looked at yet."""
        return self._now is None

    @property
    def now(self) -> Analysis:
        """What there is to say about the text as it is."""
        if self._now is None:
            self._now = analyse(self._source, self.directory, self.shelf)
            self._whole = self._now if self._now.whole else self._whole
            self._last, self._typed = self._now, None
        return self._now

    @property
    def figures(self) -> Figures | None:
        """The figures of the last text that had a plan."""
        self._figured()
        if self._figures and self._figures.wanted != self.size:
            self._figures = Figures(self._figures.plan, self._figures.texts, self.size)
        return self._figures

    def _figured(self) -> None:
        now = self.now
        if now.plan and now.texts and (self._figures is None or self._figures.plan is not now.plan):
            self._figures = Figures(now.plan, now.texts, self.size)

    @property
    def known(self) -> Symbols:
        """The names of this text, and of those lines of an earlier one that cannot be read now."""
        return self._known_of(self.now)

    def _known_of(self, seen: Analysis) -> Symbols:
        return seen.symbols if seen.whole or not self._whole else seen.symbols.with_missing(self._whole.symbols)

    @property
    def known_while_typing(self) -> Symbols:
        """The names that are known, without a look at a text in which only the line that is typed has changed since.

        What is half typed there is a name for nobody yet, so that an answer need not wait for it.
        """
        if self._typed is None or self._typed[0] is not self._source:
            last = self._last if self._now is None and self._last else self.now
            if last is not self._now and not one_line_apart(last.source.text, self.text):
                last = self.now
            self._typed = (self._source, self._known_of(last))
        return self._typed[1]

    def kind_of(self, symbol: Symbol) -> Kind | None:
        """The kind of a name's value in the last text that had a plan; None where it had none."""
        known = self.known_while_typing
        steps = self._figures.steps(known.full_names(symbol)) if self._figures else []
        if steps:
            return steps[0].kind
        if symbol.sort is NameSort.MEASURE and symbol.name in MEASURES:
            return MEASURES[symbol.name].kind
        node = known.nodes.get(symbol)
        said = getattr(node, "value", None) or getattr(node, "default", None)
        return said.kind if isinstance(said, tree.Literal) else getattr(node, "kind", None)

    def notes(self) -> Iterator[tuple[Note, Span]]:
        """What there is to say, as a terminal tells it, each with its place in this file; its drawing too."""
        said = {note.message for note in self.now.notes}
        yield from ((note, self.place_of(note)) for note in told_once(self.now.notes))
        drawn = {(note.message, note.span): span for note, span in self.drafted if note.message not in said}
        for note in told_once(note for note, _ in self.drafted if note.message not in said):
            yield note, drawn[note.message, note.span]

    def place_of(self, note: Note) -> Span:
        """The place in this file of a note: its own, where its file is named, or the first line that says anything."""
        if note.span is None:
            start = len(self.text) - len(self.text.lstrip("\n"))
            end = self.text.find("\n", start)
            return Span(self._source, start, end if end >= 0 else len(self.text))
        return _trimmed(note.span) if note.span.source is self._source else self._naming(note.span.source.name)

    def _naming(self, file: str) -> Span:
        """Where this file names another, or its first letter."""
        found = self.text.find(f'"{file}"')
        return Span(self._source, found, found + len(file) + 2) if found >= 0 else Span(self._source, 0, 1)

    def leads_to(self, path: Path) -> bool:
        """Whether the text leads to a file."""
        return self._now is not None and path in self._now.places.values()

    def path_of(self, source: Source) -> Path | None:
        """The file of a text that this one uses, as it was found when it was read."""
        places = (self.directory / source.name, folder("pieces") / source.name)
        return self.now.places.get(source.name) or next((place for place in places if is_file(place)), None)


def _trimmed(span: Span) -> Span:
    """A stretch without the blanks, the empty rows and the comments at its end."""
    rows = span.text.rstrip().split("\n")
    while len(rows) > 1 and says_nothing(rows[-1]):
        rows.pop()
    kept = "\n".join(rows).rstrip()
    return Span(span.source, span.start, span.start + max(len(kept), 1))


def one_line_apart(before: str, after: str) -> bool:
    """Whether two texts differ in one line alone, or in where it is broken in two."""
    same, rest = _alike(before, after)
    return max(text.count("\n", same, len(text) - rest) for text in (before, after)) <= 1


def _alike(old: str, new: str) -> tuple[int, int]:
    """How many letters two texts have in common at their beginnings, and behind those at their ends."""
    most = min(len(old), len(new))
    same = bisect_left(range(most), True, key=lambda k: old[: k + 1] != new[: k + 1])
    ends = range(1, most - same + 1)
    return same, bisect_left(ends, True, key=lambda k: old[len(old) - k :] != new[len(new) - k :])


def _plain(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _kept(notes: tuple[tuple[Note, Span], ...], before: Source, after: Source) -> Iterator[tuple[Note, Span]]:
    """The notes on stretches that are as they were, where they stand now."""
    if not notes:
        return
    old, new = before.text, after.text
    same, rest = _alike(old, new)
    moved = len(new) - len(old)
    for note, span in notes:
        if span.end <= same:
            yield note, Span(after, span.start, span.end)
        elif span.start >= len(old) - rest:
            yield note, Span(after, span.start + moved, span.end + moved)
