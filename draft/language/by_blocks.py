"""Reading a text again after a keystroke: only the blocks that have changed are parsed.

A block begins at the margin, and nothing in one changes how another is read, so that a parse can be kept by its text.
What comes out is what `reader.read_partly` gives for the whole, and a test holds the two together.
"""

from __future__ import annotations

import itertools
import re
from collections import OrderedDict
from collections.abc import Iterator
from dataclasses import replace

from lark import Tree

from draft.base.notes import Note, Source, Span
from draft.language import tree
from draft.language.builder import Builder
from draft.language.reader import MAX_MISTAKES, Parsed, notes_of, parsed_partly, read_partly

MOST_KEPT = 1000
"""Blocks: those of some twenty files of the largest that are written by hand."""
_AT_THE_MARGIN = re.compile(r"^(?!otherwise\b)[^\s#]", re.MULTILINE)
_TAB = re.compile(r"^ *\t", re.MULTILINE)


class Blocks:
    """The parses of blocks read lately, by their texts."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, Parsed] = OrderedDict()

    def read(self, source: Source) -> tuple[tree.File | None, list[Note]]:
        """The tree of the lines that can be read, and notes on the others; None where there is none."""
        if _TAB.search(source.text) or not _AT_THE_MARGIN.search(source.text):
            return read_partly(source)  # tabs are one habit, and told once for the whole text
        parts = [(start, self._parsed(source, text)) for start, text in blocks(source.text)]
        found = [_moved(part, source, start) for start, part in parts]
        builder = Builder(source)
        mistakes = sum(len(part.shape) + len(part.lines) for part in found)
        if mistakes >= MAX_MISTAKES or any(part.tree is None or part.unfit for part in found):
            return None, notes_of(source, found)
        built = [child for start, part in parts if part.tree for child in builder.built(part.tree, start)]
        return builder.transform(Tree("start", built)), notes_of(source, found)

    def _parsed(self, source: Source, text: str) -> Parsed:
        if text in self._kept:
            self._kept.move_to_end(text)
        else:
            self._kept[text] = parsed_partly(Source(source.name, text))
            if len(self._kept) > MOST_KEPT:
                self._kept.popitem(last=False)
        return self._kept[text]


def blocks(text: str) -> Iterator[tuple[int, str]]:
    """Each block with what stands above the next one, and where it begins; the first with all that stands before it."""
    starts = [found.start() for found in _AT_THE_MARGIN.finditer(text)]
    cuts = [0, *starts[1:], len(text)]
    return ((begin, text[begin:end]) for begin, end in itertools.pairwise(cuts) if begin < end)


def _moved(part: Parsed, source: Source, start: int) -> Parsed:
    """A block's notes with their places in the whole text."""

    def moved(span: Span) -> Span:
        return Span(source, start + span.start, start + span.end)

    def placed(note: Note) -> Note:
        related = tuple((moved(span), words) for span, words in note.related)
        return replace(note, span=moved(note.span) if note.span else None, related=related)

    shape, lines, unfit = (tuple(map(placed, notes)) for notes in (part.shape, part.lines, part.unfit))
    return Parsed(part.tree, shape, lines, unfit)
