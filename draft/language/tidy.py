"""One way to lay out each thing: indents, columns, spaces and empty lines, and never a change of meaning.

The layout is made anew from the words of the text, so that it does not depend on how they were laid out before, but
for what a designer groups: single empty lines, comments, and where a line is broken inside parentheses.
"""

from __future__ import annotations

from collections.abc import Iterator

from draft.base.notes import Problems, Source, error
from draft.language import tree
from draft.language.reader import read
from draft.language.spacing import Layout
from draft.language.walking import nodes
from draft.language.written import lines


def tidy(source: Source) -> str:
    """The text in its one layout. Raises `Problems` if it cannot be read."""
    before = read(source)
    after = "".join(f"{row}\n" for row in Layout(lines(source.text), frozenset(_signs(before))).rows())
    if read(Source(source.name, after)) != before:
        fact = "tidying would change what this text says: that is a fault of plainseam, and the text is left alone"
        raise Problems([error(fact, before.span)])
    return after


def _signs(file: tree.File) -> Iterator[int]:
    """Where a minus belongs to the quantity behind it, and does not take away from what stands before."""
    for node in nodes(file):
        signed = isinstance(node, tree.Literal) or (isinstance(node, tree.Call) and node.word == "negative")
        if signed and node.span.text.startswith("-"):
            yield node.span.start
