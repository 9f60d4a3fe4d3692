"""An open file: what is known of its text now, and of the last text that had a plan."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from pathlib import Path

from draft.base.disk import is_file
from draft.base.notes import Note, Source, Span
from draft.base.record import dataclass
from draft.base.resources import folder
from draft.editor.analysis import Analysis, analyse
from draft.editor.figures import Figures
from draft.editor.symbols import Symbols


@dataclass
class OpenFile:
    """A file that an editor has open, with the folder that it lies in."""

    name: str
    directory: Path
    now: Analysis = field(init=False)
    whole: Analysis | None = None
    """What was known of the last text that could be read as a whole."""
    figures: Figures | None = None
    """The figures of the last text that had a plan."""

    def change(self, text: str) -> None:
        """Look at a new text."""
        plain = text.replace("\r\n", "\n").replace("\r", "\n")
        self.now = analyse(Source(self.name, plain), self.directory)
        if self.now.whole:
            self.whole = self.now
        if self.now.plan and self.now.texts:
            self.figures = Figures(self.now.plan, self.now.texts)

    @property
    def known(self) -> Symbols:
        """The names of this text, and of those lines of an earlier one that cannot be read now."""
        if self.now.whole or not self.whole:
            return self.now.symbols
        return self.now.symbols.with_missing(self.whole.symbols)

    @property
    def text(self) -> str:
        """The text, with plain line ends."""
        return self.now.source.text

    def notes(self) -> Iterator[tuple[Note, Span]]:
        """What there is to say, each with its place in this file."""
        for note in self.now.notes:
            span = note.span
            if span is None:
                yield note, Span(self.now.source, 0, self.text.find("\n") if "\n" in self.text else len(self.text))
            elif span.source is self.now.source:
                yield note, span
            else:
                yield note, self._naming(span.source.name)

    def _naming(self, file: str) -> Span:
        """Where this file names another, or its first letter."""
        start = max(0, self.text.find(f'"{file}"'))
        return Span(self.now.source, start, start + len(file) + 2)

    def path_of(self, source: Source) -> Path | None:
        """The file of a text that this one uses, as it was found when it was read."""
        places = (self.directory / source.name, folder("pieces") / source.name)
        return next((place for place in places if is_file(place)), None)
