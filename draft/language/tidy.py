"""One way to write each thing: indents, columns, spaces and empty lines, and never a change of meaning.

The layout is made anew from the words of the text, so that it does not depend on how they were laid out before, but
for what a designer groups: single empty lines, comments, and where a line is broken inside parentheses.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from draft.base.notes import Problems, Source, error
from draft.language import tree
from draft.language.plainer import Options, meaning, options_of, plainer
from draft.language.reader import read
from draft.language.spacing import Layout
from draft.language.walking import nodes
from draft.language.written import Line, lines


def tidy(source: Source) -> str:
    """The text in its one layout. Raises `Problems` if it cannot be read."""
    before = read(source)
    written, signs = lines(source.text), frozenset(_signs(before))
    options = options_of(before)
    after = _laid_out(plainer(written, options), signs)
    if _means(source, after, options) != meaning(before, options):
        after = _laid_out(written, signs)
        if read(Source(source.name, after)) != before:
            fact = "tidying would change what this text says: that is a fault of plainseam, and the text is left alone"
            raise Problems([error(fact, before.span)])
    return after


def _laid_out(written: Sequence[Line], signs: frozenset[int]) -> str:
    return "".join(f"{row}\n" for row in Layout(list(written), signs).rows())


def _means(source: Source, text: str, options: Options) -> object:
    """What a text says; None for one that cannot be read."""
    try:
        return meaning(read(Source(source.name, text)), options)
    except Problems:
        return None


def _signs(file: tree.File) -> Iterator[int]:
    """Where a minus belongs to the quantity behind it, and does not take away from what stands before."""
    for node in nodes(file):
        signed = isinstance(node, tree.Literal) or (isinstance(node, tree.Call) and node.word == "negative")
        if signed and node.span.text.startswith("-"):
            yield node.span.start
