"""The record of one word of the language: what the checker, the engine and the reference all read.

A word's function takes one array for each argument, bodies on the first axis, in the engine's units:

| kind | shape |
|---|---|
| number, length (mm), angle (rad) | `(B,)` |
| point (mm), direction (unit vector), step (mm) | `(B, 2)` |
| row of points (mm) | `(B, 100, 2)` |
| line (a point and a vector along it) | `(B, 2, 2)` |
| edge (cubic segments, mm) | `(B, S, 4, 2)` |
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.base.units import Kind

Given = tuple[Floats, Bools]
"""What a word that can fail returns: finite values, and where they hold."""

Kinds = frozenset[Kind]
Takes = Kinds | Callable[[tuple[Kind, ...]], Kinds]
"""The kinds that an argument may have; a function of the kinds before it where they matter."""

Miss = tuple[str, Bools, str]
"""What is wrong, for which bodies `(B,)`, and the figures of the worst of them."""

QUANTITIES: Kinds = frozenset({Kind.NUMBER, Kind.LENGTH, Kind.ANGLE})


@dataclass(frozen=True)
class Word:
    """One word of the language.

    `form` shows how it is written; `takes` has an entry for each argument, the last repeated when `repeats`; `gives`
    is the kind of the result, or a function of the arguments' kinds; `fails` says what is wrong where the function's
    mask is False, and `misses`, of the same arguments, says it with figures and tells one way to fail from another;
    `example` is a line of the draft in `draft/words/example.py`. Where `from_end`, the last argument is
    to be an end of the first: a distance is measured from there.
    """

    name: str
    form: str
    words: str
    takes: tuple[Takes, ...]
    gives: Kind | Callable[[tuple[Kind, ...]], Kind]
    run: Callable[..., Floats | Given]
    fails: str = ""
    misses: Callable[..., Iterator[Miss]] | None = None
    repeats: bool = False
    example: str = ""
    from_end: bool = False

    def accepted(self, before: tuple[Kind, ...]) -> Kinds:
        """The kinds that the next argument may have, after arguments of the kinds `before`."""
        takes = self.takes[min(len(before), len(self.takes) - 1)]
        return takes(before) if callable(takes) else takes

    def kind(self, given: tuple[Kind, ...]) -> Kind:
        """The kind of the result."""
        return self.gives(given) if callable(self.gives) else self.gives


def one(kind: Kind) -> Kinds:
    """The set of just one kind."""
    return frozenset({kind})
