"""The vocabulary of the language, one record a word; the grammar's rules of the same names are how they are written.

A `Word` (`word.py`) says how it is written, which kinds it takes and gives, what it computes over all bodies at once,
and what is wrong where it fails: checker, engine, editor and reference all read it. Given: arrays. Gives: arrays and
masks. It must not know where in a text it stands, the plan, or which bodies there are.
"""

from draft.words import arithmetic, directions, measuring, points, rows
from draft.words.word import Word

WORDS: dict[str, Word] = {
    word.name: word
    for words in (arithmetic.WORDS, directions.WORDS, points.WORDS, rows.WORDS, measuring.WORDS)
    for word in words
}

# Where one form serves two kinds of argument, the checker takes the twin for the kind it finds.
TWINS: dict[str, str] = {"length_of": "length_of_line", "on_line": "share_of_line", "on_edge": "share_of_edge"}

# What a line stands for where it says no more: the grain of a piece, its stretch, and a notch so far along an edge.
GRAIN, STRETCH, NOTCHED = "up", "across", "on_edge"
